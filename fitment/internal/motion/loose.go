package motion

import (
	"fmt"
	"math"
)

// looseBelow is the least share of a movement that must show in the bars'
// lengths at ride: below it, a movement of 100 mm changes them by less than a
// millimetre, and nothing holds the body against it.
const looseBelow = 0.01

// loose names the movement that a linkage leaves free at ride, or says why it
// cannot be built; nil when everything is held. It is the direction in which
// the bars' lengths change least: the eigenvector of JᵀJ with the least
// eigenvalue.
func (s *system) loose() error {
	if s.m < s.n {
		return fmt.Errorf("%d bars cannot hold what has %d ways to move", s.m, s.n)
	}
	var u vector
	e := s.at(&u, &drive{})
	var a [maxUnknowns][maxUnknowns]float64
	for i := 0; i < s.n; i++ {
		for k := 0; k < s.n; k++ {
			for row := 0; row < s.m; row++ {
				a[i][k] += float64(e.j[row][i] * e.j[row][k])
			}
		}
	}
	least, v := leastEigen(&a, s.n)
	if math.Sqrt(max(0, least)) >= looseBelow {
		return nil
	}
	most := 0
	for i := 1; i < s.n; i++ {
		if math.Abs(v[i]) > math.Abs(v[most])+0.01 {
			most = i
		}
	}
	what := "the wheel"
	if s.axle {
		what = "the axle"
	}
	return fmt.Errorf("nothing holds %s against %s", what, s.movement(most))
}

// movement is an unknown in words.
func (s *system) movement(i int) string {
	words := []string{"moving fore and aft", "moving sideways", "leaning over (camber)", "winding up about its own axis", "steering itself", "the turn of its steering"}
	if s.axle {
		words = []string{"moving fore and aft", "moving sideways", "winding up about its own axis", "turning askew in plan", "its crank's turning"}
	}
	return words[i]
}

// leastEigen is the least eigenvalue of a symmetric matrix with its vector, by
// cyclic Jacobi rotations (Golub and Van Loan, Matrix Computations, section
// 8.5).
func leastEigen(a *[maxUnknowns][maxUnknowns]float64, n int) (value float64, v vector) {
	var q [maxUnknowns][maxUnknowns]float64
	for i := range q {
		q[i][i] = 1
	}
	for range 30 {
		for i := 0; i < n; i++ {
			for k := i + 1; k < n; k++ {
				rotate(a, &q, i, k, n)
			}
		}
	}
	least := 0
	for i := 1; i < n; i++ {
		if a[i][i] < a[least][least] {
			least = i
		}
	}
	for i := 0; i < n; i++ {
		v[i] = q[i][least]
	}
	return a[least][least], v
}

// rotate makes a[i][k] nought.
func rotate(a, q *[maxUnknowns][maxUnknowns]float64, i, k, n int) {
	if math.Abs(a[i][k]) < 1e-300 {
		return
	}
	tau := (a[k][k] - a[i][i]) / (2 * a[i][k])
	t := 1 / (math.Abs(tau) + math.Sqrt(1+float64(tau*tau)))
	if tau < 0 {
		t = -t
	}
	c := 1 / math.Sqrt(1+float64(t*t))
	sin := t * c
	for r := 0; r < n; r++ {
		x, y := a[r][i], a[r][k]
		a[r][i], a[r][k] = float64(c*x)-float64(sin*y), float64(sin*x)+float64(c*y)
	}
	for r := 0; r < n; r++ {
		x, y := a[i][r], a[k][r]
		a[i][r], a[k][r] = float64(c*x)-float64(sin*y), float64(sin*x)+float64(c*y)
		x, y = q[r][i], q[r][k]
		q[r][i], q[r][k] = float64(c*x)-float64(sin*y), float64(sin*x)+float64(c*y)
	}
}
