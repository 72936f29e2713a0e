package outline

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"math"
	"testing"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// chassis is a fixed mixture of parts about the plane X = 0, spread by a plain
// recurrence.
func chassis(n int) []solid.Solid {
	seed := uint32(12345)
	next := func(lo, hi float64) float64 {
		seed = seed*1664525 + 1013904223
		return lo + (hi-lo)*float64(seed>>8)/(1<<24)
	}
	out := make([]solid.Solid, n)
	for i := range out {
		s := &out[i]
		s.Pose = posed(0, 0, 0, next(-150, 150), next(-800, 800), next(0, 700))
		if i%2 == 0 {
			s.Pose = posed(next(-180, 180), next(-90, 90), next(-180, 180), next(-150, 150), next(-800, 800), next(0, 700))
		}
		s.Kind, s.H = solid.Kind(i%7), geom.V(next(40, 300), next(40, 300), next(40, 300))
		switch s.Kind {
		case solid.Point, solid.Segment, solid.Disc:
			s.Round = next(10, 60)
		case solid.Cylinder, solid.Box:
			if i%3 == 0 {
				s.Round = next(5, 60)
			}
		case solid.Hull:
			for range 8 {
				s.Points = append(s.Points, geom.V(next(-200, 200), next(-200, 200), next(-200, 200)))
			}
		case solid.Arc:
			s.H, s.Round = geom.V(next(80, 160), next(0.2, 0.9), 0), next(20, 40)
		}
	}
	return out
}

// The same bytes on every build: a digest of everything the package answers
// about 700 parts.
func TestSameBytes(t *testing.T) {
	const want = "88ec5f8baeeb9864"
	h := sha256.New()
	put := func(x ...float64) {
		for _, x := range x {
			h.Write(binary.LittleEndian.AppendUint64(nil, math.Float64bits(x)))
		}
	}
	for _, s := range chassis(700) {
		shapes := Cut(&s, 0)
		for _, v := range views {
			shapes = append(shapes, Seen(&s, v)...)
			put(Extent(&s, v))
		}
		for _, poly := range shapes {
			put(float64(len(poly)))
			for _, p := range poly {
				put(p[0], p[1])
			}
		}
	}
	if got := hex.EncodeToString(h.Sum(nil)[:8]); got != want {
		t.Errorf("digest %s, want %s", got, want)
	}
}
