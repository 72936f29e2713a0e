package trace

import "math"

// dependent is how small a column's rest may become, against what it was,
// before it is taken for a combination of the others. Points that are told
// apart by the checks of this package stay far above it.
const dependent = 1e-10

// leastSquares solves rows of the form a·x = b, b last, for the x with the
// least sum of squared differences, by Householder reflections. It needs at
// least as many rows as unknowns and overwrites them. ok is false when the
// columns depend on each other.
func leastSquares(rows [][]float64) (x []float64, ok bool) {
	n := len(rows[0]) - 1
	if len(rows) < n {
		return nil, false
	}
	whole := make([]float64, n)
	for j := range n {
		whole[j] = columnNorm(rows, 0, j)
	}
	for j := range n {
		norm := columnNorm(rows, j, j)
		if !(norm > float64(dependent*whole[j])) {
			return nil, false
		}
		reflect(rows, j, norm)
	}
	x = make([]float64, n)
	for j := n - 1; j >= 0; j-- {
		sum := rows[j][n]
		for k := j + 1; k < n; k++ {
			sum -= float64(rows[j][k] * x[k])
		}
		x[j] = sum / rows[j][j]
	}
	return x, true
}

func columnNorm(rows [][]float64, from, j int) float64 {
	sum := 0.0
	for i := from; i < len(rows); i++ {
		sum += float64(rows[i][j] * rows[i][j])
	}
	return math.Sqrt(sum)
}

// reflect mirrors the rows from j on so that column j has nothing below row j.
func reflect(rows [][]float64, j int, norm float64) {
	if rows[j][j] > 0 {
		norm = -norm
	}
	v := make([]float64, len(rows)-j)
	length := 0.0
	for i := range v {
		v[i] = rows[j+i][j]
		if i == 0 {
			v[i] -= norm
		}
		length += float64(v[i] * v[i])
	}
	if length == 0 {
		return
	}
	for k := j; k < len(rows[j]); k++ {
		dot := 0.0
		for i := range v {
			dot += float64(v[i] * rows[j+i][k])
		}
		f := 2 * dot / length
		for i := range v {
			rows[j+i][k] -= float64(f * v[i])
		}
	}
}
