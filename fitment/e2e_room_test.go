//go:build e2e

package fitment

import "testing"

func TestE2EThreeHundredRooms(t *testing.T) {
	t.Parallel()
	rooms(t, 300, 10000)
}
