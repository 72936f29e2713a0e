package fitment

import (
	"bytes"
	"flag"
	"math"
	"os"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// near (mm) is how close an answer must come to a closed form: the engine's own
// tolerance of a gap.
const near = 1e-3

// bench is a test vehicle of invented, round numbers: level, 3000 mm
// wheelbase, 1500 mm tracks, wheel centres 300 over the ground, frame datum
// 300 over it, so that the wheel centres lie in the frame datum plane.
func bench(parts ...scene.Part) *scene.Document {
	end := scene.End{TrackMM: 1500, FrameHeightMM: 300,
		Tyre: scene.Tyre{DiameterMM: 600, WidthMM: 200, RimMM: 400}}
	return &scene.Document{
		Format: scene.Format, Version: scene.Version, Name: "test bench", Show: scene.Millimetres, ToleranceMM: 3,
		Vehicle: scene.Vehicle{WheelbaseMM: 3000, Front: end, Rear: end},
		Heights: []scene.Height{
			{ID: scene.AiredOut, Name: "Aired out", FrontMM: -100, RearMM: -120},
			{ID: scene.Ride, Name: "Ride"},
			{ID: scene.AiredUp, Name: "Aired up", FrontMM: 50, RearMM: 60},
		},
		Parts: parts,
	}
}

// part is a part of a kind with some dimensions changed from its defaults.
func part(id, kind string, on scene.Carrier, at scene.Vec, nums map[string]float64) scene.Part {
	size := scene.KindNamed(kind).DefaultSize()
	for name, v := range nums {
		size[name] = scene.Value{Num: v}
	}
	return scene.Part{ID: id, Name: id, Kind: kind, Carrier: on, AtMM: at, Size: size}
}

// block is a plain box of full lengths x, y, z with its middle at at.
func block(id string, on scene.Carrier, at scene.Vec, x, y, z float64) scene.Part {
	return part(id, "box", on, at, map[string]float64{"length_mm": x, "width_mm": y, "height_mm": z})
}

func traits(p scene.Part, ts ...scene.Trait) scene.Part {
	p.Traits = ts
	return p
}

func compile(t testing.TB, doc *scene.Document) *Model {
	t.Helper()
	require.NoError(t, doc.Validate())
	m, err := Compile(doc)
	require.NoError(t, err)
	return m
}

// only is the one finding of a document.
func only(t *testing.T, doc *scene.Document) Finding {
	t.Helper()
	r := compile(t, doc).Check()
	require.Len(t, r.Findings, 1)
	require.Zero(t, r.Summary.Undecided)
	f := r.Findings[0]
	require.LessOrEqual(t, f.BoundMM, f.GapMM)
	require.LessOrEqual(t, f.GapMM-f.BoundMM, 0.1+near)
	return f
}

func rad(deg float64) float64 { return deg * math.Pi / 180 }

// TestMain gives the random tests a seed of their own, so that a run can be
// repeated; -rapid.seed takes another.
func TestMain(m *testing.M) {
	flag.Parse()
	if f := flag.Lookup("rapid.seed"); f != nil && f.Value.String() == f.DefValue {
		if err := f.Value.Set("20261125"); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}

// held expects a JSON answer to be as its schema says. The schema is given as
// text: the validator knows no files in WebAssembly.
func held(t testing.TB, schemaFile string, answer []byte) {
	t.Helper()
	schema, err := schemaOf(schemaFile)
	require.NoError(t, err)
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(answer))
	require.NoError(t, err)
	require.NoError(t, schema.Validate(value), "%s", answer)
}

var schemas = map[string]*jsonschema.Schema{}

func schemaOf(file string) (*jsonschema.Schema, error) {
	if s := schemas[file]; s != nil {
		return s, nil
	}
	text, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	parsed, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		return nil, err
	}
	compiler := jsonschema.NewCompiler()
	if err := compiler.AddResource(file, parsed); err != nil {
		return nil, err
	}
	s, err := compiler.Compile(file)
	schemas[file] = s
	return s, err
}
