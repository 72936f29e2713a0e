package gap

import (
	"encoding/binary"
	"hash/fnv"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// runHash is FNV-1a, 64 bits, over the bits of every number of the run below.
// It is the same natively, in WASM, and where products are fused into sums:
//
//	GOOS=js GOARCH=wasm go test -exec="$(go env GOROOT)/lib/wasm/go_js_wasm_exec" ./fitment/internal/...
//	GOAMD64=v3 go test ./fitment/internal/...
//
// A change of an algorithm changes it; a change of machine or build must not.
const runHash = uint64(0xd8971ea5ddc566a3)

func TestSameBytesInEveryBuild(t *testing.T) {
	h := fnv.New64a()
	var buf [8]byte
	add := func(xs ...float64) {
		for _, x := range xs {
			binary.LittleEndian.PutUint64(buf[:], math.Float64bits(x))
			h.Write(buf[:])
		}
	}
	vec := func(v geom.Vec) { add(v.X, v.Y, v.Z) }
	eachPair(13, 120, func(ka, kb solid.Kind, a, b *solid.Solid) {
		r := Between(a, b)
		add(r.Gap)
		vec(r.A)
		vec(r.B)
		vec(r.N)
		q, ok := AtLeast(a, b, 5)
		if ok {
			add(q.Gap)
		}
	})
	assert.Equal(t, runHash, h.Sum64(), "have %#x", h.Sum64())
}
