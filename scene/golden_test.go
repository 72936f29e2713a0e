package scene

import (
	"bytes"
	"fmt"
	"math"
	"path/filepath"
	"testing"
)

// TestFormsAreTheSameBytesEverywhere writes down what every kind is made of at
// its default, and at every choice, to the last digit. The same file holds in
// every build, so a form that rounds differently in one of them shows here.
func TestFormsAreTheSameBytesEverywhere(t *testing.T) {
	var b bytes.Buffer
	v := someVehicle()
	for _, k := range Kinds() {
		variants := []Size{k.DefaultSize()}
		for _, f := range k.Fields {
			for _, c := range f.Choices {
				s := k.DefaultSize()
				s[f.Name] = Value{Text: c}
				if c != f.DefaultChoice && (k.Check == nil || k.Check(s) == nil) {
					variants = append(variants, s)
				}
			}
		}
		for i, s := range variants {
			fmt.Fprintf(&b, "%s %d\n", k.Name, i)
			for _, sh := range k.Form(s, v, k.Carriers[0]) {
				fmt.Fprintf(&b, "  %T %v\n", sh, sh)
			}
		}
	}
	golden(t, filepath.Join("testdata", "forms.txt"), b.Bytes())
}

// An oval drawn with flat sides holds the true oval: in every direction square
// to its length it reaches at least as far, and at most 1/cos(π/24) times.
func TestOvalHoldsTheEllipse(t *testing.T) {
	const w, h = 250.0, 110.0
	hull := oval(Vec{}, Vec{1, 0, 0}, 400, w, h).(Hull)
	shallow := cone(Vec{}, Vec{100, 0, 0}, 80, 50).(Hull)
	for deg := 0.0; deg < 360; deg += 1.5 {
		sin, cos := math.Sincos(radians(deg))
		d := Vec{0, cos, sin}
		// The support of an ellipse with half axes a, b: √(a²cos² + b²sin²).
		want := math.Hypot(w/2*cos, h/2*sin)
		if got := support(hull.Points, d); got < want-1e-9 || got > want/math.Cos(math.Pi/ovalSides)+1e-9 {
			t.Errorf("oval at %v°: %v, want %v", deg, got, want)
		}
		if got := support(shallow.Points, d); got < 80-1e-9 || got > 80/math.Cos(math.Pi/ovalSides)+1e-9 {
			t.Errorf("cone at %v°: %v", deg, got)
		}
	}
	if got := support(shallow.Points, Vec{1, 0, 0}); got != 100 {
		t.Errorf("cone's length: %v", got)
	}
	// Upright, its width is measured along Y.
	up := newMeasure()
	up.reach(t, oval(Vec{}, Vec{0, 0, 1}, 400, w, h))
	nearVec(t, "upright oval", up.hi.sub(up.lo), Vec{h, w, 400})
}

func support(points []Vec, d Vec) float64 {
	most := math.Inf(-1)
	for _, p := range points {
		most = math.Max(most, p.dot(d))
	}
	return most
}
