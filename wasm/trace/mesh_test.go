package trace

import (
	"math"
	"testing"
)

// The triangles keep the perspective within the asked fraction of a pixel, all
// over, also between the places where the layout itself looked.
func TestLaidOutPicturesKeepThePerspective(t *testing.T) {
	lo, hi := Pt{0, 0}, Pt{1000, 700}
	for name, c := range sights() {
		f := rectangle(t, c)
		for _, zoom := range []float64{0.1, 0.5, 3, 30} {
			screen := Affine([6]float64{zoom, 0, 400, 0, -zoom, 400}).Mul(f.ToPlane)
			m := Lay(screen, c.size, lo, hi, 0.4)
			if len(m.Index) == 0 {
				t.Errorf("%s, zoom %v: nothing is laid", name, zoom)
			}
			for i := 0; i < len(m.Index); i += 3 {
				a, b, d := m.Index[i], m.Index[i+1], m.Index[i+2]
				for _, w := range [][3]float64{{1. / 3, 1. / 3, 1. / 3}, {0.5, 0.5, 0}, {0.2, 0.2, 0.6}, {0.9, 0.05, 0.05}} {
					mix := func(p []Pt) Pt {
						return Pt{w[0]*p[a][0] + w[1]*p[b][0] + w[2]*p[d][0], w[0]*p[a][1] + w[1]*p[b][1] + w[2]*p[d][1]}
					}
					at, from := mix(m.To), mix(m.From)
					if at[0] < lo[0] || at[1] < lo[1] || at[0] > hi[0] || at[1] > hi[1] {
						continue
					}
					want, _ := screen.At(from)
					if e := want.dist(at); e > 1 {
						t.Fatalf("%s, zoom %v: a triangle is %v px off", name, zoom, e)
					}
				}
			}
		}
	}
}

// What the window shows is covered, and what it does not show costs nothing.
func TestLaidOutPicturesCoverTheWindow(t *testing.T) {
	c := aim(Pt{1600, 1200}, 1200, Pt{300, 200}, 1000, 35, 40, 2)
	f := rectangle(t, c)
	screen := Affine([6]float64{2, 0, 0, 0, -2, 800}).Mul(f.ToPlane) // the window lies inside the picture
	m := Lay(screen, c.size, Pt{100, 100}, Pt{900, 700}, 0.4)
	sum := 0.0
	for i := 0; i < len(m.Index); i += 3 {
		a, b, d := m.To[m.Index[i]], m.To[m.Index[i+1]], m.To[m.Index[i+2]]
		sum += math.Abs(turn(a, b, d)) / 2
	}
	if sum < 800*600 || sum > 2.5*800*600 {
		t.Errorf("%v square pixels are laid for a window of %v", sum, 800*600)
	}
	if m := Lay(screen, c.size, Pt{90000, 90000}, Pt{90100, 90100}, 0.4); len(m.Index) != 0 {
		t.Errorf("%d triangles where nothing shows", len(m.Index)/3)
	}
	flat := Lay(Affine([6]float64{1, 0, 0, 0, 1, 0}), c.size, Pt{0, 0}, Pt{900, 700}, 0.4)
	if len(flat.Index) != 6 {
		t.Errorf("a straight-on photo takes %d triangles, want 2", len(flat.Index)/3)
	}
}

// A photo that shows the horizon is laid up to it and no further.
func TestTheHorizonIsLeftOut(t *testing.T) {
	c := aim(Pt{1600, 1200}, 900, Pt{300, 200}, 800, 72, 90, 0)
	f := rectangle(t, c)
	screen := Affine([6]float64{0.2, 0, 400, 0, -0.2, 400}).Mul(f.ToPlane)
	m := Lay(screen, c.size, Pt{0, 0}, Pt{900, 700}, 0.4)
	if len(m.Index) == 0 {
		t.Fatal("nothing is laid")
	}
	for i, px := range m.From {
		if _, w := f.ToPlane.At(px); !(w > horizon) || math.IsNaN(m.To[i][0]+m.To[i][1]) {
			t.Fatalf("%v is laid with a weight of %v", px, w)
		}
	}
}

func BenchmarkLay(b *testing.B) {
	c := aim(Pt{1600, 1200}, 1200, Pt{300, 200}, 1000, 45, 40, 2)
	f := rectangle(b, c)
	screen := Affine([6]float64{1, 0, 100, 0, -1, 600}).Mul(f.ToPlane)
	for b.Loop() {
		Lay(screen, c.size, Pt{0, 0}, Pt{1600, 1200}, 0.5)
	}
}
