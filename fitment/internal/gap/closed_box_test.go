package gap

import (
	"testing"

	"scrubline/fitment/internal/geom"
)

func TestBoxes(t *testing.T) { checkRows(t, boxRows) }
func TestHulls(t *testing.T) { checkRows(t, hullRows) }

var boxRows = []row{
	{"box-box corner to edge", box(.5, .5, .5, .5, .5, .5), box(2.5, 3.5, .75, .5, .5, .25), geom.V(1, 2, 0).Len(),
		"derived: [0,1]³ and [2,3]×[3,4]×[½,1], 1 along x and 2 along y"},
	{"box-box face to face", box(0, 0, 0, 100, 50, 25), box(20, 0, 100, 30, 30, 25), 50, "derived"},
	{"box-box corner to corner", box(0, 0, 0, 100, 50, 25), box(140, 120, 75, 20, 30, 10), 60, "derived: 20-40-40 has length 60"},
	{"box-box edge to face", box(0, 0, 0, 100, 100, 100), turnedBox(150+100*root2, 0, 0, 100, 100, 100, yaw45), 50, "derived: half diagonal of a square"},
	{"box-box edge across edge", turnedBox(0, 0, 0, 100, 100, 100, yaw45), turnedBox(50+200*root2, 0, 0, 100, 100, 100, pitch45), 50, "derived: both half diagonals"},
	{"box-box edge across edge, overlapping", turnedBox(0, 0, 0, 100, 100, 100, yaw45), turnedBox(200*root2-20, 0, 0, 100, 100, 100, pitch45), -20, "derived: both half diagonals"},
	{"box-box faces touching", box(0, 0, 0, 100, 50, 25), box(0, 0, 50, 30, 30, 25), 0, "derived"},
	{"box-box edges touching", box(0, 0, 0, 100, 50, 25), box(200, 100, 0, 100, 50, 25), 0, "derived"},
	{"box-box corners touching", box(0, 0, 0, 100, 50, 25), box(200, 100, 50, 100, 50, 25), 0, "derived"},
	{"box-box overlapping", box(0, 0, 0, 100, 50, 25), box(110, 10, 5, 30, 30, 25), -20, "derived: along x"},
	{"box-box one in the other", box(0, 0, 0, 100, 50, 25), box(0, 0, 0, 10, 10, 10), -35, "derived: thinnest way"},
	{"box-box one and the same", box(0, 0, 0, 100, 50, 25), box(0, 0, 0, 100, 50, 25), -50, "derived: thinnest way"},
	{"box-box crossed", box(0, 0, 0, 100, 10, 10), box(0, 0, 0, 10, 100, 10), -20, "derived: out along z"},
	{"sheet-sheet crossed", box(0, 0, 0, 100, 50, 0), box(0, 0, 0, 0, 50, 100), -100, "derived: 100(|nx|+|nz|) + 100|ny| is least along an axis"},
	{"sheet-sheet in one plane", box(0, 0, 0, 100, 50, 0), box(30, 30, 0, 100, 50, 0), 0, "derived: no depth in one plane"},

	{"box-octahedron over a face", box(100, 100, 100, 10, 10, 10), octa(0, 0, 0, 100), 170 / root3, "derived: near corner sums to 270"},
	{"box-octahedron off a corner", box(160, 0, 0, 10, 10, 10), octa(0, 0, 0, 100), 50, "derived"},
	{"box-octahedron in the middle", box(0, 0, 0, 10, 10, 10), octa(0, 0, 0, 100), -130 / root3, "derived: 100 max|n| + 10 Σ|n| is least at (1,1,1)/√3"},
	{"box-octahedron touching a corner", box(110, 0, 0, 10, 10, 10), octa(0, 0, 0, 100), 0, "derived"},

	{"box-bow in its middle", box(0, 0, 0, 20, 20, 20), bow(0, 0, 0, 100, 10), 90 - 20*root2, "derived: nearest at 45°, to a corner"},
	{"box-bow over it", box(0, 0, 60, 200, 200, 10), bow(0, 0, 0, 100, 10), 40, "derived: all points as near"},
	{"box-bow in it", box(0, 0, 0, 200, 200, 10), bow(0, 0, 0, 100, 10), -20, "derived: thinnest way"},
	{"box-bow in it, off the middle", box(0, 0, 5, 200, 200, 10), bow(0, 0, 0, 100, 10), -15, "derived: thinnest way"},
	{"box-bow outside", box(180, 0, 0, 30, 30, 30), bow(0, 0, 0, 100, 10), 40, "derived"},
	{"box-bow standing in its plane", box(150, 0, 0, 20, 200, 200), ring(0, 0, 0, zAxis, 100, 30), 0, "derived: torus against a plane"},
	{"box-bow across the end", box(-60, 100, 0, 20, 20, 20), bow(0, 0, 0, 100, 10), 30, "derived: square to the end"},
}

var hullRows = []row{
	{"octahedra face to face", octa(0, 0, 0, 100), octa(100, 100, 100, 100), 100 / root3, "derived: planes x+y+z = 100 and 200"},
	{"octahedra corner to corner", octa(0, 0, 0, 100), octa(250, 0, 0, 100), 50, "derived"},
	{"octahedra edge along edge", octa(0, 0, 0, 100), octa(150, 150, 0, 100), 100 / root2, "derived: lines x+y = 100 and 200"},
	{"octahedra touching", octa(0, 0, 0, 100), octa(200, 0, 0, 100), 0, "derived: corner to corner"},
	{"octahedra one and the same", octa(0, 0, 0, 100), octa(0, 0, 0, 100), -200 / root3, "derived: twice the face distance"},
	{"octahedra one in the other", octa(0, 0, 0, 100), octa(10, 10, 10, 20), -90 / root3, "derived: 120/√3 less the shift 30/√3"},

	{"octahedron-ring inside it", octa(0, 0, 0, 50), ring(0, 0, 0, zAxis, 100, 10), 40, "derived: corner to ring"},
	{"octahedron-bow corner touching", octa(0, 0, 0, 90), bow(0, 0, 0, 100, 10), 0, "derived: corner to tube"},
	{"octahedron-bow through it", octa(0, 0, 0, 100), bow(0, 0, 0, 50, 10), -50/root3 - 10, "derived: deepest at 0°, (100 − 50)/√3 from a face"},
	{"octahedron-bow over it", octa(0, 0, 150, 100), bow(0, 0, 0, 100, 10), 150/root2 - 10, "derived: (100, 0, 0) to the edge x − z = −50, y = 0"},
}
