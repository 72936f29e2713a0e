package gap

import (
	"math"
	"testing"
)

func TestPoints(t *testing.T) { checkRows(t, pointRows) }

var pointRows = []row{
	{"ball-ball apart", ball(0, 0, 0, 10), ball(30, 40, 0, 15), 25, "derived: 3-4-5 triangle, less radii"},
	{"ball-ball touching", ball(0, 0, 0, 20), ball(30, 40, 0, 30), 0, "derived: radii make the distance"},
	{"ball-ball overlapping", ball(0, 0, 0, 30), ball(30, 40, 0, 30), -10, "derived"},
	{"ball-ball one centre", ball(5, 5, 5, 10), ball(5, 5, 5, 5), -15, "derived: any direction parts them"},
	{"points", ball(0, 0, 0, 0), ball(1, 2, 2, 0), 3, "derived: 1-2-2 has length 3"},

	{"ball-capsule beside", ball(0, 50, 0, 10), capsule(-100, 0, 0, 100, 0, 0, 5), 35, "derived: distance to the line"},
	{"ball-capsule past the end", ball(130, 40, 0, 10), capsule(-100, 0, 0, 100, 0, 0, 5), 35, "derived: 3-4-5 to the end"},
	{"ball-capsule in line", ball(150, 0, 0, 10), capsule(-100, 0, 0, 100, 0, 0, 5), 35, "derived"},
	{"ball-capsule on the axis", ball(20, 0, 0, 10), capsule(-100, 0, 0, 100, 0, 0, 5), -15, "derived: cores touch"},
	{"ball-capsule on the end", ball(100, 0, 0, 0), capsule(-100, 0, 0, 100, 0, 0, 5), -5, "derived: cores touch"},

	{"ball-disc over it", ball(20, 30, 50, 6), disc(0, 0, 0, zAxis, 100, 4), 40, "derived: height over the plane"},
	{"ball-disc past the rim", ball(140, 0, 30, 6), disc(0, 0, 0, zAxis, 100, 4), 40, "derived: 3-4-5 to the rim"},
	{"ball-disc in its plane", ball(0, 130, 0, 6), disc(0, 0, 0, zAxis, 100, 4), 20, "derived"},
	{"ball-disc in it", ball(10, 20, 0, 6), disc(0, 0, 0, zAxis, 100, 4), -10, "derived: a disc has no depth"},
	{"ball-disc in its middle", ball(0, 0, 0, 6), disc(0, 0, 0, zAxis, 100, 4), -10, "derived"},
	{"ball-disc on its axis", ball(0, 0, -30, 6), disc(0, 0, 0, zAxis, 100, 4), 20, "derived"},

	{"ball-cylinder beside", ball(150, 0, 50, 10), cylinder(0, 0, 0, zAxis, 100, 200), 40, "derived"},
	{"ball-cylinder over the end", ball(20, 0, 260, 10), cylinder(0, 0, 0, zAxis, 100, 200), 50, "derived"},
	{"ball-cylinder past the rim", ball(0, 130, 240, 10), cylinder(0, 0, 0, zAxis, 100, 200), 40, "derived: 3-4-5 to the rim"},
	{"ball-cylinder touching", ball(0, -130, 240, 50), cylinder(0, 0, 0, zAxis, 100, 200), 0, "derived: 3-4-5 to the rim"},
	{"ball-cylinder inside, near the side", ball(90, 0, 0, 10), cylinder(0, 0, 0, zAxis, 100, 200), -20, "derived"},
	{"ball-cylinder inside, near the end", ball(0, 0, 195, 10), cylinder(0, 0, 0, zAxis, 100, 200), -15, "derived"},
	{"ball-cylinder in the middle", ball(0, 0, 0, 10), cylinder(0, 0, 0, zAxis, 100, 200), -110, "derived"},

	{"ball-box over a face", ball(0, 0, 75, 10), box(0, 0, 0, 100, 50, 25), 40, "derived"},
	{"ball-box off an edge", ball(130, 90, 0, 10), box(0, 0, 0, 100, 50, 25), 40, "derived: 3-4-5"},
	{"ball-box off a corner", ball(120, 90, 65, 10), box(0, 0, 0, 100, 50, 25), 50, "derived: 20-40-40 has length 60"},
	{"ball-box inside", ball(95, 0, 0, 10), box(0, 0, 0, 100, 50, 25), -15, "derived: nearest face"},
	{"ball-box in the middle", ball(0, 0, 0, 10), box(0, 0, 0, 100, 50, 25), -35, "derived: nearest face"},
	{"ball-box on a face", ball(0, 50, 0, 10), box(0, 0, 0, 100, 50, 25), -10, "derived"},

	{"ball-octahedron over a face", ball(100, 100, 100, 10), octa(0, 0, 0, 100), 200/root3 - 10, "derived: plane x+y+z = 100"},
	{"ball-octahedron off a corner", ball(150, 0, 0, 10), octa(0, 0, 0, 100), 40, "derived"},
	{"ball-octahedron off an edge", ball(80, 80, 0, 10), octa(0, 0, 0, 100), 60/root2 - 10, "derived: line x+y = 100"},
	{"ball-octahedron in the middle", ball(0, 0, 0, 10), octa(0, 0, 0, 100), -100/root3 - 10, "derived: face at h/√3"},
	{"ball-octahedron on a corner", ball(100, 0, 0, 10), octa(0, 0, 0, 100), -10, "derived: cores touch"},
	{"ball-octahedron on a face", ball(20, 50, 30, 10), octa(0, 0, 0, 100), -10, "derived: cores touch"},

	{"ball-bow in its centre", ball(0, 0, 0, 5), bow(0, 0, 0, 100, 10), 85, "derived: all points as near"},
	{"ball-bow on its axis", ball(0, 0, 75, 5), bow(0, 0, 0, 100, 10), 110, "derived: 3-4-5 times 25"},
	{"ball-bow outside", ball(160, 0, 0, 5), bow(0, 0, 0, 100, 10), 45, "derived"},
	{"ball-bow behind its ends", ball(-50, 0, 0, 5), bow(0, 0, 0, 100, 10), math.Hypot(50, 100) - 15, "derived: nearest end"},
	{"ball-bow on its centreline", ball(60, 80, 0, 5), bow(0, 0, 0, 100, 10), -15, "derived: cores touch"},
	{"ball-torus touching", ball(0, 160, 80, 90), ring(0, 0, 0, zAxis, 100, 10), 0, "derived: 60-80-100"},
}
