package fitment

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"scrubline/scene"
)

// bodyScene is parts on the body alone, close together, the first of which
// hinges and slides: nothing in it knows which way is up.
func bodyScene(t *rapid.T) *scene.Document {
	doc := bench()
	coord := rapid.Float64Range(-250, 250)
	n := rapid.IntRange(3, 6).Draw(t, "parts")
	for len(doc.Parts) < n {
		p := randomPart(t, fmt.Sprintf("p%d", len(doc.Parts)), scene.Vec{coord.Draw(t, "x"), coord.Draw(t, "y"), coord.Draw(t, "z")}, false)
		if p.Kind == "exhaust_run" { // the kind's own muffler is longer than this run
			p.Size["mufflers"] = scene.Value{Rows: []scene.Row{}}
		}
		if p.Carrier == scene.Body && p.Kind != "air_spring" { // a spring stands on an axle
			doc.Parts = append(doc.Parts, p)
		}
	}
	to := rapid.Float64Range(0, 40)
	axis := scene.Vec{rapid.Float64Range(-1, 1).Draw(t, "along"), rapid.Float64Range(-1, 1).Draw(t, "across"), 1}
	doc.Movements = []scene.Movement{
		{ID: "swing", Name: "Swing", Kind: scene.Hinge, Carrier: scene.Body, Axis: axis, AtMM: scene.Vec{coord.Draw(t, "hinge"), 0, 0}, From: -to.Draw(t, "back"), To: to.Draw(t, "forth")},
		{ID: "track", Name: "Track", Kind: scene.Slide, Carrier: scene.Body, Axis: scene.Vec{axis[1], 1, axis[0]}, From: -to.Draw(t, "in"), To: to.Draw(t, "out")},
	}
	doc.Parts[0].Moves = []string{"swing", "track"}
	return doc
}

// Taking everything elsewhere and turning it, what hinges and slides included,
// changes no gap: distance is what rigid motion keeps.
func TestRigidMotionOfEverything(t *testing.T) {
	found, moved := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		doc := bodyScene(t)
		var ids []string
		for i := range doc.Parts {
			ids = append(ids, doc.Parts[i].ID)
		}
		other := doc
		for axis := range 3 {
			var err error
			other, _, err = scene.TurnParts(other, ids, axis, rapid.Float64Range(-180, 180).Draw(t, "turn"))
			require.NoError(t, err)
		}
		by := rapid.Float64Range(-500, 500)
		other, _, err := scene.MoveParts(other, ids, scene.Vec{by.Draw(t, "rearward"), by.Draw(t, "right"), by.Draw(t, "up")})
		require.NoError(t, err)
		require.NotEqual(t, doc.Movements, other.Movements, "what moves goes along")
		sameFindings(t, doc, other, nil)
		for _, f := range compileQuiet(t, doc).Check().Findings {
			found++
			if len(f.At.Moves) > 0 && (f.At.Moves[0] != 0 || f.At.Moves[1] != 0) {
				moved++
			}
		}
	})
	require.Positive(t, found)
	require.Positive(t, moved, "a movement is the worst in some")
}

func compileQuiet(t require.TestingT, doc *scene.Document) *Model {
	m, err := Compile(doc)
	require.NoError(t, err)
	return m
}
