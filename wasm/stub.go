//go:build !js

// The sketcher runs in the browser only. This stands in for it elsewhere.
package main

import (
	"fmt"
	"os"
)

func main() {
	fmt.Fprintln(os.Stderr, "The sketcher runs in a browser: start it with  go run ./cmd/scrubline serve")
	os.Exit(2)
}
