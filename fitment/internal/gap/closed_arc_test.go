package gap

import (
	"math"
	"testing"
)

func TestArcs(t *testing.T) { checkRows(t, arcRows) }

var arcRows = []row{
	{"torus-torus on one axis, in one plane", ring(0, 0, 0, zAxis, 100, 10), ring(0, 0, 0, zAxis, 60, 5), 25, "derived: all points as near"},
	{"torus-torus on one axis", ring(0, 0, 0, zAxis, 100, 10), ring(0, 0, 30, zAxis, 60, 5), 35, "derived: 3-4-5"},
	{"torus-torus one and the same", ring(0, 0, 0, zAxis, 100, 10), ring(0, 0, 0, zAxis, 100, 5), -15, "derived: cores touch"},
	{"torus-torus linked", ring(0, 0, 0, zAxis, 100, 10), ring(100, 0, 0, yAxis, 100, 5), 85, "derived: √((100 cos φ)² + (100 sin φ)²)"},
	{"torus-torus beside", ring(0, 0, 0, zAxis, 100, 10), ring(300, 0, 0, zAxis, 100, 5), 85, "derived"},
	{"torus-torus square, over one another", ring(0, 0, 0, zAxis, 100, 10), ring(0, 0, 250, yAxis, 100, 5), math.Hypot(100, 250) - 115,
		"derived: (100, 0) from the circle about (0, 250) in the plane y = 0"},
	{"torus-torus square, crossing", ring(0, 0, 0, zAxis, 100, 10), ring(200, 0, 0, yAxis, 100, 5), -15, "derived: cores meet at (100, 0, 0)"},
	{"torus-torus square, touching", ring(0, 0, 0, zAxis, 100, 10), ring(215, 0, 0, yAxis, 100, 5), 0, "derived"},
	{"bow-bow back to back", bow(0, 0, 0, 100, 10), bow(300, 0, 0, 100, 5), math.Hypot(300, 100) - 115, "derived: ends (300, ±100) to the first circle"},
	{"bow-bow over one another", bow(0, 0, 0, 100, 10), bow(0, 0, 50, 100, 5), 35, "derived: all points as near"},
	{"bow-bow end to end", bow(0, 0, 0, 100, 10), bow(0, 250, 0, 100, 5), 35, "derived: (0, 100) and (0, 150)"},
	{"bow-bow one in the other", bow(0, 0, 0, 100, 10), bow(60, 0, 0, 100, 5), math.Hypot(60, 100) - 115, "derived: ends (60, ±100) to the first circle"},
	{"bow-torus crossing", bow(0, 0, 0, 100, 10), ring(60, 0, 0, zAxis, 100, 5), -15, "derived: the circles meet at x = 30"},
	{"bow-torus through its middle", bow(100, 0, 0, 100, 10), ring(100, 100, 0, xAxis, 50, 5), 35, "derived: the end passes the ring's centre"},
}
