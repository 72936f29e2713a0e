package geom_test

import (
	"encoding/binary"
	"hash/fnv"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"scrubline/fitment/internal/geom"
)

// Against the Go standard library's math.Sincos, over many turns and at the borders of octants;
// both claim the last bit or two.
func TestSincos(t *testing.T) {
	h := fnv.New64a()
	var buf [8]byte
	check := func(x float64) {
		sin, cos := geom.Sincos(x)
		wantSin, wantCos := math.Sincos(x)
		assert.InDelta(t, wantSin, sin, 4e-16, "sin %g", x)
		assert.InDelta(t, wantCos, cos, 4e-16, "cos %g", x)
		for _, v := range []float64{sin, cos} {
			binary.LittleEndian.PutUint64(buf[:], math.Float64bits(v))
			h.Write(buf[:])
		}
	}
	for i := -4000; i <= 4000; i++ {
		check(float64(i) * 0.01)
		check(float64(i) * math.Pi / 4)
	}
	sin, cos := geom.Sincos(math.Pi / 6)
	assert.InDelta(t, 0.5, sin, 4e-16)
	assert.InDelta(t, math.Sqrt(3)/2, cos, 4e-16)
	// The same bits in every build: see the run of package gap.
	assert.Equal(t, uint64(0x298bcb03bf32b82d), h.Sum64(), "have %#x", h.Sum64())

	sin, cos = geom.Sincos(math.Inf(-1))
	assert.True(t, math.IsNaN(sin) && math.IsNaN(cos))
	sin, cos = geom.Sincos(3e6)
	assert.InDelta(t, math.Sin(3e6), sin, 1e-9, "a far angle keeps its turn")
	assert.InDelta(t, math.Cos(3e6), cos, 1e-9)
}
