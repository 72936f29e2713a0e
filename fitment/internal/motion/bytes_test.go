package motion

import (
	"encoding/binary"
	"hash/fnv"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/fitment/internal/geom"
)

// The same poses to the last bit in every build: a hash over thousands of them,
// on every example. It changes only with what is solved or how.
func TestPosesAreTheSameBytes(t *testing.T) {
	h := fnv.New64a()
	put := func(vs ...geom.Vec) {
		for _, v := range vs {
			for _, f := range [3]float64{v.X, v.Y, v.Z} {
				_ = binary.Write(h, binary.LittleEndian, math.Float64bits(f+0)) // a hash takes everything
			}
		}
	}
	for i := range examples {
		e := &examples[i]
		c, _ := e.hang(t, wide)
		for k := 0; k < 1000; k++ {
			_, f := math.Modf(float64(k) * 0.7548776662)
			_, g := math.Modf(float64(k) * 0.5698402910)
			front, rear := -120+float64(200*f), -120+float64(200*g)
			st := State{FL: front, FR: rear, RL: rear + float64(20*f), RR: rear - float64(20*f), Steer: 0.5 * (f - g)}
			for on := FrontAxle; on <= Ground; on++ {
				p := c.Pose(on, st)
				put(p.P, p.R.X, p.R.Y, p.R.Z)
			}
		}
	}
	require.Equal(t, uint64(posesHash), h.Sum64())
}

const posesHash = 0x74504ab668012051
