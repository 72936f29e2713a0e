package main

import (
	"fmt"
	"io"
	"os"
	"strings"

	"scrubline/fitment"
	"scrubline/scene"
)

// load reads a scene file and compiles it. What is wrong goes to stderr as one
// line: the file, the place in it, what was expected.
func load(path string, stderr io.Writer) *fitment.Model { return loadVariant(path, "", stderr) }

// read reads no more of a file than a scene may have, and a byte to tell.
func read(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, scene.MaxFileBytes+1))
}

// reason is an error without the path it repeats.
func reason(err error) error {
	if p, ok := err.(*os.PathError); ok {
		return p.Err
	}
	return err
}

func complain(stderr io.Writer, format string, args ...any) {
	fmt.Fprintln(stderr, "scrubline: "+strings.ReplaceAll(fmt.Sprintf(format, args...), "\n", " "))
}

// split takes flags out of arguments wherever they stand: "-name" for those in
// bare, "-name value" for those in valued. What is left is returned in order.
func split(args []string, bare, valued map[string]bool) (rest []string, flags map[string]string, err error) {
	flags = map[string]string{}
	for i := 0; i < len(args); i++ {
		a := args[i]
		if a == "--" { // what follows are names, whatever they begin with
			return append(rest, args[i+1:]...), flags, nil
		}
		if !strings.HasPrefix(a, "-") || a == "-" {
			rest = append(rest, a)
			continue
		}
		name, value, has := strings.Cut(strings.TrimLeft(a, "-"), "=")
		switch {
		case bare[name] && !has:
			flags[name] = "true"
		case valued[name] && has:
			flags[name] = value
		case valued[name] && i+1 < len(args):
			i++
			flags[name] = args[i]
		case valued[name]:
			return nil, nil, fmt.Errorf("-%s needs a value", name)
		default:
			return nil, nil, fmt.Errorf("unknown option %s", a)
		}
	}
	return rest, flags, nil
}
