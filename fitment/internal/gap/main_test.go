package gap

import (
	"flag"
	"os"
	"testing"
)

// TestMain fixes the seed of the random properties, unless another is asked for
// with -rapid.seed, and leaves no files behind.
func TestMain(m *testing.M) {
	if err := flag.Set("rapid.seed", "1"); err != nil {
		panic(err)
	}
	if err := flag.Set("rapid.nofailfile", "true"); err != nil {
		panic(err)
	}
	flag.Parse()
	os.Exit(m.Run())
}
