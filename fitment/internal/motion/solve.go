package motion

import "math"

// Tolerances of the solver, in millimetres.
const (
	// keptMM is how closely bar lengths are kept where that is possible. A
	// double carries lengths of a few metres to 1e-12 mm.
	keptMM = 1e-10
	// stillMM: a step shorter than this is the last.
	stillMM = 1e-9
	// reachedMM is the residual up to which a state counts as reached, when the
	// bars are as many as the freedoms. Ten times below what is promised.
	reachedMM = 1e-8
	// BindLimitMM is how much the bushings of a linkage with more bars than
	// freedoms may have to give along a bar before it counts as locked: more
	// than a rubber bushing yields (common practice, no source).
	BindLimitMM = 5.0
)

const maxSteps = 60

// solve finds the unknowns from a start near them: Gauss–Newton steps, damped
// after Levenberg and Marquardt when a step does not help (Nocedal and Wright,
// Numerical Optimization, 2006, chapter 10). ok says that the state is reached;
// worst is the largest residual.
func (s *system) solve(u vector, d *drive) (out vector, worst float64, ok bool) {
	e := s.at(&u, d)
	cost := e.cost(s.m)
	damp := 0.0
	for range maxSteps {
		step := s.step(&e, damp)
		next := u
		for i := 0; i < s.n; i++ {
			next[i] += step[i]
		}
		f := s.at(&next, d)
		c := f.cost(s.m)
		short := length(&step, s.n) < stillMM
		if c <= cost || short {
			if c <= cost {
				u, e, cost = next, f, c
			}
			if damp /= 10; damp < 1e-9 {
				damp = 0
			}
			if short || e.worst(s.m) < keptMM {
				break
			}
			continue
		}
		damp = max(10*damp, 1e-6)
	}
	worst = e.worst(s.m)
	if s.spare() {
		return u, worst, worst <= BindLimitMM
	}
	return u, worst, worst <= reachedMM
}

func length(v *vector, n int) float64 {
	sum := 0.0
	for i := 0; i < n; i++ {
		sum += float64(v[i] * v[i])
	}
	return math.Sqrt(sum)
}

func (e *equations) cost(m int) float64 {
	sum := 0.0
	for i := 0; i < m; i++ {
		sum += float64(e.r[i] * e.r[i])
	}
	return sum
}

func (e *equations) worst(m int) float64 {
	most := 0.0
	for i := 0; i < m; i++ {
		most = max(most, math.Abs(e.r[i]))
	}
	return most
}

// step is the least-squares solution of J·x = −r with the rows √damp·x = 0
// added, by Householder reflections (Golub and Van Loan, Matrix Computations,
// 4th edition, algorithm 5.3.2).
func (s *system) step(e *equations, damp float64) (x vector) {
	var a [maxEquations + maxUnknowns][maxUnknowns + 1]float64
	rows, n := s.m, s.n
	for i := 0; i < s.m; i++ {
		copy(a[i][:n], e.j[i][:n])
		a[i][n] = -e.r[i]
	}
	if damp > 0 {
		for k := 0; k < n; k++ {
			a[rows][k] = math.Sqrt(damp)
			rows++
		}
	}
	for k := 0; k < n; k++ {
		sum := 0.0
		for i := k; i < rows; i++ {
			sum += float64(a[i][k] * a[i][k])
		}
		norm := math.Sqrt(sum)
		if norm < 1e-14 {
			continue // a direction nothing answers to: no step along it
		}
		if a[k][k] > 0 {
			norm = -norm
		}
		head := a[k][k] - norm
		for c := k + 1; c <= n; c++ {
			dot := float64(head * a[k][c])
			for i := k + 1; i < rows; i++ {
				dot += float64(a[i][k] * a[i][c])
			}
			f := dot / (norm * head)
			a[k][c] += float64(f * head)
			for i := k + 1; i < rows; i++ {
				a[i][c] += float64(f * a[i][k])
			}
		}
		a[k][k] = norm
	}
	for k := n - 1; k >= 0; k-- {
		sum := a[k][n]
		for c := k + 1; c < n; c++ {
			sum -= float64(a[k][c] * x[c])
		}
		if math.Abs(a[k][k]) > 1e-14 {
			x[k] = sum / a[k][k]
		}
	}
	return x
}
