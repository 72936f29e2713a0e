package fitment

import (
	"fmt"
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
	"scrubline/scene"
)

// run turns a centreline with bend radii into straights and bends. At a vertex
// turned by the angle a with centreline radius R the straights are shortened
// by the setback R·tan(a/2), and the bend is an arc of angle a (the setback
// formula of tube bending tables).
//
// Between two bends a straight has round ends: they lie inside its neighbours.
// The first and last straight are cut flat at their free ends. Where two
// straights meet without a bend, each goes on past the corner by r·tan(a/2), so
// that the two together reach out to the mitre's tip; up to a right angle they
// take no more room than the mitred tube.
func (l *lowerer) run(r scene.Run) ([]solid.Solid, error) {
	pts := make([]geom.Vec, len(r.Vertices))
	for i, v := range r.Vertices {
		pts[i] = l.place(v.P)
	}
	if len(pts) < 2 {
		return nil, fmt.Errorf("a run needs two points at least")
	}
	bends, err := runBends(pts, r.Vertices)
	if err != nil {
		return nil, err
	}
	var out []solid.Solid
	keep := func(s solid.Solid, err error) error {
		out = append(out, s)
		return err
	}
	for i := 0; i+1 < len(pts); i++ {
		from, to := pts[i], pts[i+1]
		if i > 0 {
			from = bends[i].end
		}
		if i+2 < len(pts) {
			to = bends[i+1].start
		}
		if from.Dist(to) > geom.GapTol {
			flat := i == 0 || i+2 == len(pts) || bends[i].mitre > 0 || bends[i+1].mitre > 0
			along := to.Sub(from).Unit()
			from, to = from.AddScaled(along, -r.Radius*bends[i].mitre), to.AddScaled(along, r.Radius*bends[i+1].mitre)
			if err := keep(straight(from, to, r.Radius, flat)); err != nil {
				return nil, err
			}
		}
		if b := &bends[i+1]; i+2 < len(pts) && b.angle > 0 {
			if err := keep(solid.NewArc(b.center, b.normal, b.start, b.angle, r.Radius)); err != nil {
				return nil, err
			}
		}
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("a run needs two points that are apart")
	}
	return out, nil
}

func straight(from, to geom.Vec, r float64, flat bool) (solid.Solid, error) {
	if flat {
		return solid.NewCylinder(from, to, r, 0)
	}
	return solid.NewCapsule(from, to, r)
}

// bend is the fillet of one vertex of a run; angle 0 is a mitred corner, whose
// start and end are the vertex itself.
type bend struct {
	start, end, center, normal geom.Vec
	angle, setback             float64
	mitre                      float64 // tan of half the angle of a corner without a bend
}

// runBends fits every vertex's bend and makes sure the setbacks of neighbours
// leave room for each other.
func runBends(pts []geom.Vec, vs []scene.RunVertex) ([]bend, error) {
	bends := make([]bend, len(pts))
	for i := 1; i+1 < len(pts); i++ {
		bends[i] = fillet(pts[i-1], pts[i], pts[i+1], vs[i].BendRadius)
	}
	for i := 0; i+1 < len(pts); i++ {
		length := pts[i].Dist(pts[i+1])
		if want := bends[i].setback + bends[i+1].setback; want > length+geom.GapTol {
			return nil, fmt.Errorf("the run's straight from vertex %d to %d is %.1f mm long; its bends need %.1f mm",
				i+1, i+2, length, want)
		}
	}
	return bends, nil
}

// sharpest keeps the tip of a corner that turns back on itself within reason.
const sharpest = 4

func fillet(before, at, after geom.Vec, radius float64) bend {
	in, out := at.Sub(before).Unit(), after.Sub(at).Unit()
	axis := in.Cross(out)
	angle := math.Atan2(axis.Len(), in.Dot(out))
	b := bend{start: at, end: at}
	if radius <= 0 && axis.Len() > geom.GapTol {
		b.mitre = math.Min(math.Tan(angle/2), sharpest)
	}
	if radius <= 0 || axis.Len() < geom.GapTol || math.Pi-angle < geom.GapTol {
		return b
	}
	b.angle, b.setback = angle, radius*math.Tan(angle/2)
	b.normal = axis.Unit()
	b.start, b.end = at.AddScaled(in, -b.setback), at.AddScaled(out, b.setback)
	b.center = b.start.AddScaled(b.normal.Cross(in), radius)
	return b
}
