package main

import (
	"fmt"
	"io"
	"os"

	"scrubline/scene"
)

// runNew writes a starter scene. It never writes over a file that is there.
func runNew(args []string, stdout, stderr io.Writer) int {
	rest, _, err := split(args, nil, nil)
	if err == nil && len(rest) != 1 {
		err = fmt.Errorf("new takes the name of the file to write")
	}
	if err != nil {
		complain(stderr, "%v", err)
		return exitBad
	}
	f, err := os.OpenFile(rest[0], os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		complain(stderr, "%s: cannot be written: %v", rest[0], reason(err))
		return exitBad
	}
	_, err = f.Write(scene.Encode(scene.Unanswered()))
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	if err != nil {
		complain(stderr, "%s: %v", rest[0], reason(err))
		return exitBad
	}
	fmt.Fprintf(stdout, "%s written. Its numbers are assumptions: replace each with what your tape says.\n", rest[0])
	return exitClear
}
