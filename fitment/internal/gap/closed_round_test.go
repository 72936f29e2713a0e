package gap

import (
	"math"
	"testing"
)

func TestDiscs(t *testing.T)     { checkRows(t, discRows) }
func TestCylinders(t *testing.T) { checkRows(t, cylinderRows) }

var discRows = []row{
	{"disc-disc in one plane", disc(0, 0, 0, zAxis, 100, 5), disc(300, 0, 0, zAxis, 100, 5), 90, "derived"},
	{"disc-disc over one another", disc(0, 0, 0, zAxis, 100, 5), disc(40, 0, 50, zAxis, 100, 5), 40, "derived"},
	{"disc-disc rim to rim", disc(0, 0, 0, zAxis, 100, 5), disc(230, 0, 40, zAxis, 100, 5), 40, "derived: 3-4-5"},
	{"disc-disc one and the same", disc(0, 0, 0, zAxis, 100, 5), disc(0, 0, 0, zAxis, 100, 5), -10, "derived: no depth in one plane"},
	{"disc-disc square, apart", disc(0, 0, 0, zAxis, 100, 5), disc(150, 0, 0, xAxis, 50, 5), 40, "derived"},
	{"disc-disc square, one centre", disc(0, 0, 0, zAxis, 100, 5), disc(0, 0, 0, xAxis, 100, 5), -110, "derived: 100(√(1−nz²)+√(1−nx²)) is least, 100, along x and z"},
	{"disc-disc square, off centre", disc(0, 0, 0, zAxis, 100, 5), disc(0, 0, 30, xAxis, 100, 5), -80, "derived: out along z"},
	{"disc-disc leaning", disc(0, 0, 0, zAxis, 100, 5), disc(0, 0, 200, lean, 100, 5), 190 - 100/root2, "derived: lowest rim point over the other"},
	{"disc-disc touching", disc(0, 0, 0, zAxis, 100, 5), disc(0, 0, 10+100/root2, lean, 100, 5), 0, "derived: lowest rim point"},

	{"disc-cylinder over the end", disc(30, 0, 250, zAxis, 50, 5), cylinder(0, 0, 0, zAxis, 100, 200), 45, "derived"},
	{"disc-cylinder square to it, beside", disc(150, 0, 0, xAxis, 50, 5), cylinder(0, 0, 0, zAxis, 100, 200), 45, "derived"},
	{"disc-cylinder in it on one axis", disc(0, 0, 0, zAxis, 50, 5), cylinder(0, 0, 0, zAxis, 100, 200), -155, "derived: radii 100 + 50 sideways, 200 along"},
	{"disc-cylinder leaning over the end", disc(0, 0, 400, lean, 100, 5), cylinder(0, 0, 0, zAxis, 100, 200), 195 - 100/root2, "derived: lowest rim point"},
	{"disc-cylinder rim to rim", disc(180, 0, 240, zAxis, 50, 0), cylinder(0, 0, 0, zAxis, 100, 200), 50, "derived: 3-4-5"},

	{"disc-box over a face", disc(0, 0, 75, zAxis, 30, 5), box(0, 0, 0, 100, 50, 25), 45, "derived"},
	{"disc-box square to a face", disc(180, 0, 0, zAxis, 30, 5), box(0, 0, 0, 100, 50, 25), 45, "derived"},
	{"disc-box leaning", disc(0, 0, 75, lean, 30, 5), box(0, 0, 0, 100, 50, 25), 45 - 30/root2, "derived: lowest rim point"},
	{"disc-box in it, flat", disc(0, 0, 0, zAxis, 30, 5), box(0, 0, 0, 100, 50, 25), -30, "derived"},
	{"disc-box in it, upright", disc(0, 0, 0, xAxis, 30, 5), box(0, 0, 0, 100, 50, 25), -60, "derived: 25 + 30 along z"},
	{"disc-box touching", disc(0, 0, 30, zAxis, 30, 5), box(0, 0, 0, 100, 50, 25), 0, "derived"},
	{"disc-sheet in one plane", disc(0, 0, 0, zAxis, 30, 5), box(0, 0, 0, 100, 50, 0), -5, "derived: no depth in one plane"},

	{"disc-octahedron over a face", disc(100, 100, 100, oct, 20, 5), octa(0, 0, 0, 100), 200/root3 - 5, "derived: parallel to the face"},
	{"disc-octahedron off a corner", disc(150, 0, 0, xAxis, 20, 5), octa(0, 0, 0, 100), 45, "derived"},
	{"disc-octahedron in the middle", disc(0, 0, 0, xAxis, 20, 5), octa(0, 0, 0, 100), -(100+20*root2)/root3 - 5,
		"derived: 100 max|n| + 20√(1−nx²) is least at (1,1,1)/√3"},

	{"disc-ring inside it", disc(0, 0, 0, zAxis, 40, 5), ring(0, 0, 0, zAxis, 100, 10), 45, "derived: all points as near"},
	{"disc-bow over it", disc(0, 0, 75, zAxis, 150, 5), bow(0, 0, 0, 100, 10), 60, "derived: all points as near"},
	{"disc-bow in one plane", disc(0, 0, 0, zAxis, 150, 5), bow(0, 0, 0, 100, 10), -15, "derived: no depth in one plane"},
	{"disc-bow touching", disc(0, 0, 15, zAxis, 150, 5), bow(0, 0, 0, 100, 10), 0, "derived"},
	{"disc-bow beside", disc(210, 0, 0, zAxis, 50, 5), bow(0, 0, 0, 100, 10), 45, "derived"},
}

var cylinderRows = []row{
	{"cylinder-cylinder beside", cylinder(0, 0, 0, zAxis, 100, 200), cylinder(300, 0, 40, zAxis, 100, 50), 100, "derived"},
	{"cylinder-cylinder over one another", cylinder(0, 0, 0, zAxis, 100, 200), cylinder(40, 0, 300, zAxis, 100, 50), 50, "derived"},
	{"cylinder-cylinder rim to rim", cylinder(0, 0, 0, zAxis, 100, 200), cylinder(230, 0, 290, zAxis, 100, 50), 50, "derived: 3-4-5"},
	{"cylinder-cylinder crossed over the end", cylinder(0, 0, 0, zAxis, 100, 200), cylinder(0, 0, 300, xAxis, 50, 300), 50, "derived"},
	{"cylinder-cylinder crossed beside", cylinder(0, 0, 0, zAxis, 100, 200), cylinder(200, 0, 0, yAxis, 50, 300), 50, "derived"},
	{"cylinder-cylinder touching", cylinder(0, 0, 0, zAxis, 100, 200), cylinder(150, 0, 0, yAxis, 50, 300), 0, "derived"},
	{"cylinder-cylinder on one axis", cylinder(0, 0, 0, zAxis, 100, 200), cylinder(0, 0, 0, zAxis, 50, 50), -150, "derived: sideways 150, along 250"},
	{"cylinder-cylinder on one axis, ends", cylinder(0, 0, 0, zAxis, 100, 200), cylinder(0, 0, 240, zAxis, 50, 50), -10, "derived: along"},
	{"cylinder-cylinder crossed, one centre", cylinder(0, 0, 0, zAxis, 100, 200), cylinder(0, 0, 0, xAxis, 50, 300), -150, "derived: out along y"},

	{"cylinder-box over a face", cylinder(0, 0, 115, zAxis, 30, 40), box(0, 0, 0, 100, 50, 25), 50, "derived"},
	{"cylinder-box lying over a face", cylinder(0, 0, 105, xAxis, 30, 40), box(0, 0, 0, 100, 50, 25), 50, "derived"},
	{"cylinder-box beside an edge", cylinder(160, 130, 0, zAxis, 30, 40), box(0, 0, 0, 100, 50, 25), 70, "derived: 3-4-5 times 20"},
	{"cylinder-box leaning", cylinder(0, 0, 75+70/root2, lean, 30, 40), box(0, 0, 0, 100, 50, 25), 50, "derived: lowest rim point (30+40)/√2 below the centre"},
	{"cylinder-box touching", cylinder(0, 0, 65, zAxis, 30, 40), box(0, 0, 0, 100, 50, 25), 0, "derived"},
	{"cylinder-box in it, upright", cylinder(0, 0, 0, zAxis, 30, 40), box(0, 0, 0, 100, 50, 25), -65, "derived"},
	{"cylinder-box in it, lying", cylinder(0, 0, 0, xAxis, 30, 40), box(0, 0, 0, 100, 50, 25), -55, "derived"},

	{"cylinder-octahedron over a face", cylinder(100, 100, 100, oct, 20, 10), octa(0, 0, 0, 100), 200/root3 - 10, "derived: parallel to the face"},
	{"cylinder-octahedron off a corner", cylinder(200, 0, 0, xAxis, 20, 50), octa(0, 0, 0, 100), 50, "derived"},
	{"cylinder-octahedron in the middle", cylinder(0, 0, 0, xAxis, 20, 10), octa(0, 0, 0, 100), -(110 + 20*root2) / root3,
		"derived: 100 max|n| + 20√(1−nx²) + 10|nx| is least at (1,1,1)/√3"},
	{"cylinder-octahedron touching a corner", cylinder(150, 0, 0, xAxis, 20, 50), octa(0, 0, 0, 100), 0, "derived"},

	{"cylinder-ring inside it", cylinder(0, 0, 0, zAxis, 40, 60), ring(0, 0, 0, zAxis, 100, 10), 50, "derived: all points as near"},
	{"cylinder-bow over the end", cylinder(0, 0, 0, zAxis, 150, 200), bow(0, 0, 250, 100, 10), 40, "derived: all points as near"},
	{"cylinder-bow in it", cylinder(0, 0, 0, zAxis, 150, 20), bow(0, 0, 0, 100, 10), -30, "derived: 20 along, 50 sideways"},
	{"cylinder-bow in it, off centre", cylinder(0, 0, 0, zAxis, 150, 80), bow(20, 0, 0, 100, 10), math.Hypot(20, 100) - 160,
		"derived: the ends are nearest to the axis and so deepest"},
	{"cylinder-bow touching", cylinder(0, 0, 0, zAxis, 90, 60), bow(0, 0, 0, 100, 10), 0, "derived"},
}
