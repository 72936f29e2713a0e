package fitment

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/fitment/internal/geom"
	"scrubline/scene"
)

// boxAt adds a plain block, sharp, at a place on the body.
func boxAt(t *testing.T, doc *scene.Document, at scene.Vec, size scene.Vec) *scene.Document {
	t.Helper()
	doc, _, err := scene.AddPart(doc, "box", at)
	require.NoError(t, err)
	id := "part:" + doc.Parts[len(doc.Parts)-1].ID
	for i, f := range [3]string{"length_mm", "width_mm", "height_mm"} {
		doc, _, err = scene.SetField(doc, id, f, number(size[i]))
		require.NoError(t, err)
	}
	return doc
}

func number(v float64) string { return string(scene.FormatLength(v, scene.Millimetres)) + " mm" }

// byName are a part's features by name; every name stands once.
func byName(t *testing.T, m *Model, part int, st State) map[string]Feature {
	t.Helper()
	out := map[string]Feature{}
	for _, f := range m.Features(part, st) {
		require.NotContains(t, out, f.Name)
		assert.NotEmpty(t, f.Words, f.Name)
		out[f.Name] = f
	}
	return out
}

// A block of 300 × 200 × 100 about a point: its corners and faces lie half its
// lengths from it. By hand.
func TestFeaturesOfABlock(t *testing.T) {
	doc := boxAt(t, scene.New(), scene.Vec{1000, 400, 250}, scene.Vec{300, 200, 100})
	m := compile(t, doc)
	i := len(doc.Parts) - 1
	f := byName(t, m, i, State{})
	require.Len(t, f, 1+8+6)
	centre := f["1/centre"].At
	assert.Equal(t, "right rear top corner", f["1/corner/7"].Words)
	assert.Equal(t, scene.Vec{centre[0] + 150, centre[1] + 100, centre[2] + 50}, f["1/corner/7"].At)
	assert.Equal(t, "left front bottom corner", f["1/corner/0"].Words)
	assert.Equal(t, "underside", f["1/face/-z"].Words)
	assert.Equal(t, scene.Vec{0, 0, -1}, f["1/face/-z"].Normal)
	assert.Equal(t, scene.Vec{centre[0], centre[1], centre[2] - 50}, f["1/face/-z"].At)
	assert.Len(t, f["1/face/+x"].Rim, 4)
}

// Two blocks side by side: 3-4-12 between corners is 13 (the Pythagorean
// quadruple 3² + 4² + 12² = 13²); parallel faces are 300 apart.
func TestTapeBetweenTwoBlocks(t *testing.T) {
	doc := boxAt(t, scene.New(), scene.Vec{1000, 0, 200}, scene.Vec{100, 100, 100})
	doc = boxAt(t, doc, scene.Vec{1400, 500, 1400}, scene.Vec{100, 100, 100})
	m := compile(t, doc)
	n := len(doc.Parts)
	end := func(k int, f string) scene.TapeEnd { return scene.TapeEnd{Part: doc.Parts[n-2+k].ID, Feature: f} }
	r, err := m.Tape(end(0, "1/corner/7"), end(1, "1/corner/0"), State{})
	require.NoError(t, err)
	assert.InDelta(t, math.Sqrt(300*300+400*400+1100*1100), r.LengthMM, 1e-9)
	assert.Equal(t, scene.Vec{300, 400, 1100}, r.AlongMM)
	r, err = m.Tape(end(0, "1/face/+x"), end(1, "1/face/-x"), State{})
	require.NoError(t, err)
	assert.InDelta(t, 300, r.LengthMM, 1e-9)
	assert.Equal(t, [2]bool{false, true}, r.Square)
	// Square to a face from a point, whichever comes first.
	for _, ends := range [2][2]scene.TapeEnd{
		{end(0, "1/face/+x"), end(1, "1/centre")}, {end(1, "1/centre"), end(0, "1/face/+x")}} {
		r, err = m.Tape(ends[0], ends[1], State{})
		require.NoError(t, err)
		assert.InDelta(t, 350, r.LengthMM, 1e-9)
	}
	// Faces that cross: from middle to middle.
	r, err = m.Tape(end(0, "1/face/+x"), end(1, "1/face/-y"), State{})
	require.NoError(t, err)
	assert.Equal(t, scene.Vec{350, 450, 1200}, r.AlongMM)
	r, err = m.Tape(end(0, "1/corner/0"), scene.TapeEnd{Datum: scene.FrameDatum}, State{})
	require.NoError(t, err)
	assert.InDelta(t, m.Features(n-2, State{})[1].At[2], r.LengthMM, 1e-9)
	_, err = m.Tape(scene.TapeEnd{Datum: scene.CentreDatum}, scene.TapeEnd{Datum: scene.GroundDatum}, State{})
	assert.ErrorIs(t, err, ErrCross)
	_, err = m.Tape(end(0, "9/centre"), end(1, "1/centre"), State{})
	assert.ErrorContains(t, err, "no more")
}

// The ground comes up as the body comes down: what rides on the body is nearer
// by just that much on a level vehicle, and the wheel centre stays where it is.
func TestTapesFollowTheHeight(t *testing.T) {
	doc := boxAt(t, scene.New(), scene.Vec{1000, 0, 200}, scene.Vec{100, 100, 100})
	v := &doc.Vehicle
	v.Rear, v.Front.SteerDeg = v.Front, 0
	v.Rear.SteerDeg = 0
	m := compile(t, doc)
	ground := scene.TapeEnd{Datum: scene.GroundDatum}
	body := scene.TapeEnd{Part: doc.Parts[len(doc.Parts)-1].ID, Feature: "1/face/-z"}
	at := func(e scene.TapeEnd, mm float64) float64 {
		r, err := m.Tape(e, ground, StateAt(mm, mm))
		require.NoError(t, err)
		return r.LengthMM
	}
	assert.InDelta(t, at(body, 0)-60, at(body, -60), 1e-6)
	wheel := scene.TapeEnd{Datum: string(scene.WheelRL)}
	assert.InDelta(t, v.Rear.Tyre.LoadedRadius(), at(wheel, 0), 1e-6)
	assert.InDelta(t, at(wheel, 0), at(wheel, -60), 1e-6)
}

// Every part of the demo has features; each keeps its name at every height, and
// lies on its part: no farther from the part's solids than they reach.
func TestEveryPartOfTheDemoCanBeMeasured(t *testing.T) {
	m := open(t, "bakery-van.json")
	doc := m.Doc
	down := StateAt(-110, -130)
	for i := range doc.Parts {
		ride, low := byName(t, m, i, State{}), byName(t, m, i, down)
		require.NotEmpty(t, ride, doc.Parts[i].ID)
		require.Len(t, low, len(ride), doc.Parts[i].ID)
		lo, hi := geom.V(math.Inf(1), math.Inf(1), math.Inf(1)), geom.V(math.Inf(-1), math.Inf(-1), math.Inf(-1))
		for k := range m.parts[i].items {
			for j := range m.parts[i].items[k].solids {
				s := m.solidAt(&m.parts[i].items[k], j, down)
				a, b := s.Bounds()
				lo = geom.V(min(lo.X, a.X), min(lo.Y, a.Y), min(lo.Z, a.Z))
				hi = geom.V(max(hi.X, b.X), max(hi.Y, b.Y), max(hi.Z, b.Z))
			}
		}
		for name, f := range low {
			require.Contains(t, ride, name)
			assert.Equal(t, ride[name].Words, f.Words, "%s %s", doc.Parts[i].ID, name)
			if f.Words == "centre of the bend" {
				continue // lies beside the tube
			}
			for k, r := range [3][2]float64{{lo.X, hi.X}, {lo.Y, hi.Y}, {lo.Z, hi.Z}} {
				assert.GreaterOrEqual(t, f.At[k], r[0]-1e-6, "%s %s", doc.Parts[i].ID, name)
				assert.LessOrEqual(t, f.At[k], r[1]+1e-6, "%s %s", doc.Parts[i].ID, name)
			}
		}
	}
}

// Euler's formula for convex solids: corners − edges + faces = 2. A cube, a
// wedge, a tetrahedron, and a prism with a point in the middle of a face.
func TestHullFacesKeepEulersFormula(t *testing.T) {
	cube := []geom.Vec{}
	for i := range 8 {
		cube = append(cube, geom.V(bitSign(i, 1), bitSign(i, 2), bitSign(i, 4)).Scale(50))
	}
	for _, c := range []struct {
		name                  string
		pts                   []geom.Vec
		corners, faces, edges int
	}{
		{"cube", cube, 8, 6, 12},
		{"cube with a point in a face", append(append([]geom.Vec{}, cube...), geom.V(50, 0, 0), geom.V(50, 50, 0)), 8, 6, 12},
		{"tetrahedron", []geom.Vec{{}, {X: 90}, {Y: 90}, {Z: 90}}, 4, 4, 6},
		{"wedge", []geom.Vec{{}, {X: 90}, {Y: 90}, {Z: 40}, {X: 90, Z: 40}, {Y: 90, Z: 40}}, 6, 5, 9},
	} {
		faces := hullFaces(c.pts)
		used, edges := map[int]bool{}, map[[2]int]bool{}
		for _, f := range faces {
			for k, i := range f.loop {
				j := f.loop[(k+1)%len(f.loop)]
				used[i] = true
				edges[[2]int{min(i, j), max(i, j)}] = true
			}
		}
		assert.Len(t, used, c.corners, c.name)
		assert.Len(t, faces, c.faces, c.name)
		assert.Len(t, edges, c.edges, c.name)
		assert.Equal(t, 2, len(used)-len(edges)+len(faces), c.name)
	}
}
