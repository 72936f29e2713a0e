//go:build e2e

package fitment

import "testing"

func TestE2EThousandMends(t *testing.T) {
	t.Parallel()
	mends(t, 1000, 100)
}
