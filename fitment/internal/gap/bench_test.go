package gap

import (
	"testing"

	"scrubline/fitment/internal/solid"
)

// sink keeps results alive.
var sink float64

// BenchmarkBetween is the time of one gap with its points and poses, over 256
// pairs of each family of which about half touch.
func BenchmarkBetween(b *testing.B) {
	bench(b, func(m maker, ka, kb solid.Kind) (x, y solid.Solid) { return m.pair(ka, kb) })
}

// BenchmarkApart is the same for pairs that stand 1 to 80 mm apart.
func BenchmarkApart(b *testing.B) {
	bench(b, func(m maker, ka, kb solid.Kind) (x, y solid.Solid) {
		for {
			x, y = m.pair(ka, kb)
			if Between(&x, &y).Gap > 1 {
				return x, y
			}
		}
	})
}

func bench(b *testing.B, make2 func(m maker, ka, kb solid.Kind) (x, y solid.Solid)) {
	for _, f := range families {
		b.Run(f.name, func(b *testing.B) {
			m := newMaker(7)
			var xs, ys [256]solid.Solid
			for i := range xs {
				xs[i], ys[i] = make2(m, f.a, f.b)
			}
			b.ReportAllocs()
			b.ResetTimer()
			for i := range b.N {
				sink += Between(&xs[i&255], &ys[i&255]).Gap
			}
		})
	}
}

// BenchmarkAtLeast is the cheap answer for pairs 1 to 80 mm apart that need
// half of that.
func BenchmarkAtLeast(b *testing.B) {
	for _, f := range families {
		b.Run(f.name, func(b *testing.B) {
			m := newMaker(8)
			var xs, ys [256]solid.Solid
			var half [256]float64
			for i := range xs {
				for half[i] < 0.5 {
					xs[i], ys[i] = m.pair(f.a, f.b)
					half[i] = Between(&xs[i], &ys[i]).Gap / 2
				}
			}
			b.ReportAllocs()
			b.ResetTimer()
			for i := range b.N {
				r, _ := AtLeast(&xs[i&255], &ys[i&255], half[i&255])
				sink += r.Gap
			}
		})
	}
}

// BenchmarkSlab is the lower bound along a known direction.
func BenchmarkSlab(b *testing.B) {
	for _, f := range families {
		b.Run(f.name, func(b *testing.B) {
			m := newMaker(9)
			var xs, ys [256]solid.Solid
			var rs [256]Result
			for i := range xs {
				xs[i], ys[i] = m.pair(f.a, f.b)
				rs[i] = Between(&xs[i], &ys[i])
			}
			b.ReportAllocs()
			b.ResetTimer()
			for i := range b.N {
				sink += Slab(&xs[i&255], &ys[i&255], rs[i&255].N)
			}
		})
	}
}

var families = []struct {
	name string
	a, b solid.Kind
}{
	{"capsule-capsule", solid.Segment, solid.Segment},
	{"ball-box", solid.Point, solid.Box},
	{"ball-arc", solid.Point, solid.Arc},
	{"capsule-box", solid.Segment, solid.Box},
	{"capsule-cylinder", solid.Segment, solid.Cylinder},
	{"box-box", solid.Box, solid.Box},
	{"cylinder-box", solid.Cylinder, solid.Box},
	{"cylinder-cylinder", solid.Cylinder, solid.Cylinder},
	{"hull-box", solid.Hull, solid.Box},
	{"hull-hull", solid.Hull, solid.Hull},
	{"arc-capsule", solid.Arc, solid.Segment},
	{"arc-box", solid.Arc, solid.Box},
	{"arc-cylinder", solid.Arc, solid.Cylinder},
	{"arc-hull", solid.Arc, solid.Hull},
	{"arc-arc", solid.Arc, solid.Arc},
}
