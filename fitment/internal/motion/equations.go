package motion

import "scrubline/fitment/internal/geom"

// equations are a system's residuals (mm) and their derivatives by the
// unknowns at one place.
type equations struct {
	r [maxEquations]float64
	j [maxEquations][maxUnknowns]float64
}

// steerArm (mm) turns the error of the steer into a length.
const steerArm = angleArm

// at evaluates the equations.
func (s *system) at(u *vector, d *drive) (e equations) {
	p := s.place(u, d)
	for i := range s.l.Bars {
		s.bar(&e, &p, i)
	}
	m := len(s.l.Bars)
	if s.l.Slide != nil {
		s.slide(&e, &p, m)
		m += 2
	}
	if s.l.Straight {
		e.r[m] = p.o.Y - s.origin.Y
		e.j[m][1] = 1
		m++
	}
	if s.steering {
		s.steer(&e, &p, m, d.steer)
	}
	return e
}

// angles is the number of unknown angles, which follow x and y.
func (s *system) angles() int {
	if s.axle {
		return 2
	}
	return 3
}

// bar: |to − from| less the length at ride. A point at w from the origin moves
// by axis × w per radian.
func (s *system) bar(e *equations, p *place, i int) {
	from, to := s.ends(p, i)
	d := to.Sub(from)
	length := d.Len()
	e.r[i] = length - s.length[i]
	if length < geom.Tiny {
		return
	}
	dir := d.Scale(1 / length)
	e.j[i][0], e.j[i][1] = dir.X, dir.Y
	w := to.Sub(p.o)
	for k := 0; k < s.angles(); k++ {
		e.j[i][2+k] = dir.Dot(p.axes[k].Cross(w)) / angleArm
	}
	if s.steering && i == s.l.Tie {
		e.j[i][5] = -dir.Y
	}
	if c := s.l.Crank; c != nil && (i == c.First || i == c.First+1) {
		by := p.swingBy
		if i > c.First {
			by = by.Neg()
		}
		if c.OnBody {
			e.j[i][4] = -dir.Dot(by) / angleArm
		} else {
			e.j[i][4] = dir.Dot(p.r.Apply(by)) / angleArm
		}
	}
}

// slide: seen from the carried body, the top mount has not left the axis.
// Turning the body by a about n carries a body point by −n × w in its eyes.
func (s *system) slide(e *equations, p *place, m int) {
	w := s.l.Slide.Top.Sub(p.o)
	q := p.r.ApplyT(w).Sub(s.l.Slide.Low)
	for k, c := range s.across {
		e.r[m+k] = q.Dot(c)
		out := p.r.Apply(c)
		e.j[m+k][0], e.j[m+k][1] = -out.X, -out.Y
		for a := 0; a < s.angles(); a++ {
			e.j[m+k][2+a] = -out.Dot(p.axes[a].Cross(w)) / angleArm
		}
	}
}

// steer: in plan the wheel's axis, square to the vehicle at ride, stands at the
// steer's angle: x·cos − y·sin = 0.
func (s *system) steer(e *equations, p *place, m int, angle float64) {
	sin, cos := geom.Sincos(angle)
	square := geom.V(cos*steerArm, -sin*steerArm, 0)
	axis := p.r.AxisY()
	e.r[m] = square.Dot(axis)
	for a := 0; a < s.angles(); a++ {
		e.j[m][2+a] = square.Dot(p.axes[a].Cross(axis)) / angleArm
	}
}
