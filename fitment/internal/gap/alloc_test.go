package gap

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"scrubline/fitment/internal/solid"
)

// No gap takes memory from the heap, for any two kinds, apart or overlapping.
func TestNoAllocations(t *testing.T) {
	eachPair(14, 6, func(ka, kb solid.Kind, a, b *solid.Solid) {
		n := testing.AllocsPerRun(2, func() {
			sink += Between(a, b).Gap
			r, _ := AtLeast(a, b, 10)
			sink += r.Gap
		})
		assert.Zero(t, n, "%s–%s", kindNames[ka], kindNames[kb])
	})
}
