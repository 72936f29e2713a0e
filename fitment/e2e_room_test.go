//go:build e2e

package fitment

import "testing"

func TestE2EThreeHundredRooms(t *testing.T) { rooms(t, 300, 10000) }
