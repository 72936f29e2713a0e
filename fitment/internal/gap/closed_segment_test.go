package gap

import (
	"math"
	"testing"
)

func TestSegments(t *testing.T) { checkRows(t, segmentRows) }

var segmentRows = []row{
	{"clamp at both middles", capsule(0, 0, 0, 1, 0, 0, 0), capsule(.5, -1, 1, .5, 1, 1, 0), 1,
		"Ericson, Real-Time Collision Detection, 5.1.9: s = t = 1/2"},
	{"clamp at both ends", capsule(0, 0, 0, 1, 0, 0, 0), capsule(2, 1, 0, 2, 3, 0, 0), root2,
		"Ericson 5.1.9: s = 1, t = 0"},
	{"parallel, sharing a stretch", capsule(0, 0, 0, 2, 0, 0, 0), capsule(1, 1, 0, 3, 1, 0, 0), 1, "Ericson 5.1.9, parallel case"},
	{"skew, inside both", capsule(0, 0, 0, 1, 1, 1, 0), capsule(1, 0, 0, 2, 0, 3, 0), math.Sqrt(9. / 14),
		"skew lines, |(p2−p1)·(d1×d2)|/|d1×d2|, s = 3/7, t = 1/14"},
	{"cube diagonal and skew edge", capsule(0, 0, 0, 1, 1, 1, 0), capsule(1, 0, 0, 1, 1, 0, 0), math.Sqrt(.5), "skew lines"},
	{"cube diagonal and face diagonal", capsule(0, 0, 0, 1, 1, 1, 0), capsule(1, 0, 0, 0, 1, 0, 0), 1 / math.Sqrt(6),
		"skew lines, s = 1/3, t = 1/2"},
	{"two school-text lines", capsule(-71, 59, -11, 69, -61, 9, 0), capsule(-7, 25, -3, 13, -15, 17, 0), 2 * math.Sqrt(29),
		"school text, from memory: (x+1)/7 = (y+1)/−6 = z+1 and x−3 = (y−5)/−2 = z−7"},
	{"opposite edges of a tetrahedron", capsule(1, 1, 1, 1, -1, -1, 0), capsule(-1, 1, -1, -1, -1, 1, 0), 2,
		"regular tetrahedron of edge a: a/√2, here a = 2√2"},
	{"tube and line in inches", capsule(0, 0, 0, 0, 0, 40, 1.25), capsule(4, 0, 5, 4, 0, 30, .1875), 2.5625,
		"derived: 4 in less both radii"},
	{"capsules crossing", capsule(-50, 0, 0, 50, 0, 0, 10), capsule(0, -50, 0, 0, 50, 0, 5), -15, "derived: axes meet"},
	{"capsules touching", capsule(-50, 0, 0, 50, 0, 0, 10), capsule(0, -50, 15, 0, 50, 15, 5), 0, "derived"},
	{"capsules on one line, apart", capsule(-50, 0, 0, 50, 0, 0, 10), capsule(90, 0, 0, 190, 0, 0, 5), 25, "derived"},
	{"capsules on one line, one in the other", capsule(-50, 0, 0, 50, 0, 0, 10), capsule(-20, 0, 0, 30, 0, 0, 5), -15, "derived"},
	{"one and the same", capsule(-50, 0, 0, 50, 0, 0, 10), capsule(-50, 0, 0, 50, 0, 0, 10), -20, "derived"},
	{"no length, no radius", capsule(0, 0, 0, 0, 0, 0, 0), capsule(3, 4, 0, 3, 4, 0, 0), 5, "derived: two points"},
	{"long and nearly parallel", capsule(-3000, 0, 0, 3000, 0, 0, 10), capsule(-3000, 1e-6, 50, 3000, -1e-6, 50, 10), 30, "derived"},

	{"capsule-disc over it", capsule(-50, 0, 40, 50, 0, 40, 5), disc(0, 0, 0, zAxis, 100, 5), 30, "derived"},
	{"capsule-disc, end over it", capsule(0, 0, 20, 90, 0, 200, 5), disc(0, 0, 0, zAxis, 100, 5), 10, "derived: the lower end"},
	{"capsule-disc past the rim", capsule(150, -100, 0, 150, 100, 0, 5), disc(0, 0, 0, zAxis, 100, 5), 40, "derived"},
	{"capsule-disc skew past the rim", capsule(130, -100, 40, 130, 100, 40, 5), disc(0, 0, 0, zAxis, 100, 5), 40, "derived: 3-4-5 at the rim"},
	{"capsule-disc through its middle", capsule(0, 0, -60, 0, 0, 60, 5), disc(0, 0, 0, zAxis, 100, 5), -70, "derived: out along the axis, 60, is nearer than the rim"},
	{"capsule-disc through near the rim", capsule(90, 0, -60, 90, 0, 60, 5), disc(0, 0, 0, zAxis, 100, 5), -20, "derived: out past the rim"},
	{"capsule-disc lying in it", capsule(-50, 0, 0, 50, 0, 0, 5), disc(0, 0, 0, zAxis, 100, 5), -10, "derived: no depth in one plane"},
	{"capsule-disc touching in its plane", capsule(100, -50, 0, 100, 50, 0, 5), disc(0, 0, 0, zAxis, 100, 5), -10, "derived: cores touch"},
	{"capsule-disc one end in it", capsule(0, 0, 0, 30, 0, 90, 5), disc(0, 0, 0, zAxis, 100, 5), -10, "derived: cores touch"},

	{"capsule-cylinder along it", capsule(150, 0, -50, 150, 0, 50, 5), cylinder(0, 0, 0, zAxis, 100, 200), 45, "derived"},
	{"capsule-cylinder over the end", capsule(-150, 0, 250, 150, 0, 250, 5), cylinder(0, 0, 0, zAxis, 100, 200), 45, "derived"},
	{"capsule-cylinder across", capsule(150, -80, 0, 150, 80, 0, 5), cylinder(0, 0, 0, zAxis, 100, 200), 45, "derived"},
	{"capsule-cylinder past the rim", capsule(130, -90, 240, 130, 90, 240, 5), cylinder(0, 0, 0, zAxis, 100, 200), 45, "derived: 3-4-5 at the rim"},
	{"capsule-cylinder touching", capsule(105, -80, 0, 105, 80, 30, 5), cylinder(0, 0, 0, zAxis, 100, 200), 0, "derived"},
	{"capsule-cylinder on one axis inside", capsule(0, 0, -60, 0, 0, 60, 5), cylinder(0, 0, 0, zAxis, 100, 200), -105, "derived: out through the side"},
	{"capsule-cylinder right through", capsule(-300, 0, 0, 300, 0, 0, 5), cylinder(0, 0, 0, zAxis, 100, 200), -105, "derived: out sideways"},
	{"capsule-cylinder on one axis, apart", capsule(0, 0, 260, 0, 0, 300, 5), cylinder(0, 0, 0, zAxis, 100, 200), 55, "derived"},

	{"capsule-box along an edge", capsule(-60, 90, 55, 60, 90, 55, 5), box(0, 0, 0, 100, 50, 25), 45, "derived: 3-4-5"},
	{"capsule-box across an edge", capsule(90, 120, 0, 170, 40, 0, 5), box(0, 0, 0, 100, 50, 25), 60/root2 - 5, "derived: line x+y = 210 from (100, 50)"},
	{"capsule-box end at a face", capsule(10, 10, 65, 10, 40, 300, 5), box(0, 0, 0, 100, 50, 25), 35, "derived"},
	{"capsule-box along a face", capsule(-300, 0, 30, 300, 0, 30, 5), box(0, 0, 0, 100, 50, 25), 0, "derived: touching"},
	{"capsule-box right through", capsule(-300, 0, 0, 300, 0, 0, 5), box(0, 0, 0, 100, 50, 25), -30, "derived: out through the nearest long face"},
	{"capsule-box inside", capsule(-10, 0, 0, 10, 0, 0, 5), box(0, 0, 0, 100, 50, 25), -30, "derived"},
	{"capsule-box through the thin way", capsule(0, 0, -40, 0, 0, 40, 5), box(0, 0, 0, 100, 50, 25), -55, "derived: 65 along z, 50 along y"},
	{"capsule-box along an edge, touching", capsule(-60, 50, 25, 60, 50, 25, 5), box(0, 0, 0, 100, 50, 25), -5, "derived: cores touch"},

	{"capsule-octahedron across an edge", capsule(80, 80, -50, 80, 80, 50, 5), octa(0, 0, 0, 100), 60/root2 - 5, "derived: line x+y = 100"},
	{"capsule-octahedron off a corner", capsule(150, -50, 0, 150, 50, 0, 5), octa(0, 0, 0, 100), 45, "derived"},
	{"capsule-octahedron right through", capsule(-200, -200, -200, 200, 200, 200, 5), octa(0, 0, 0, 100), -100/root2 - 5,
		"derived: least of 100 max|n| over unit n square to (1,1,1), at (1,−1,0)/√2"},
	{"capsule-octahedron along an edge, touching", capsule(100, 0, 0, 0, 100, 0, 5), octa(0, 0, 0, 100), -5, "derived: cores touch"},

	{"capsule-ring on its axis", capsule(0, 0, -60, 0, 0, 60, 5), ring(0, 0, 0, zAxis, 100, 10), 85, "derived: all points as near"},
	{"capsule-bow beside, along its axis", capsule(160, 0, -60, 160, 0, 60, 5), bow(0, 0, 0, 100, 10), 45, "derived"},
	{"capsule-bow through it off centre", capsule(40, 0, -60, 40, 0, 60, 5), bow(0, 0, 0, 100, 10), 45, "derived"},
	{"capsule-bow across outside", capsule(160, -50, 0, 160, 50, 0, 5), bow(0, 0, 0, 100, 10), 45, "derived"},
	{"capsule-bow crossing", capsule(60, 80, -60, 60, 80, 60, 5), bow(0, 0, 0, 100, 10), -15, "derived: cores meet"},
	{"capsule-bow off an end", capsule(-30, 140, -60, -30, 140, 60, 5), bow(0, 0, 0, 100, 10), 35, "derived: 3-4-5 from the end"},
}
