package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"

	"scrubline/web"
)

const exportUsage = `usage: scrubline export DIR

Builds the sketcher where needed and writes the whole page into DIR, for any host
of plain files, at any path of it. Put all files of DIR there. Over https the page
works without a network once it was loaded and goes onto the home screen.
Exporting into the same folder again replaces what was exported before.
`

// runExport writes the page into a folder. It returns 0 when all is there and 2
// when the arguments are bad or something cannot be built or written.
func runExport(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("export", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	err := flags.Parse(args)
	switch {
	case errors.Is(err, flag.ErrHelp):
		fmt.Fprint(stdout, exportUsage)
		return exitClear
	case err == nil && flags.NArg() != 1:
		err = fmt.Errorf("one folder is expected, not %d", flags.NArg())
	}
	if err == nil {
		err = export(flags.Arg(0), stdout)
	}
	if err != nil {
		fmt.Fprintf(stderr, "scrubline export: %v\n", err)
		return exitBad
	}
	return exitClear
}

func export(dir string, stdout io.Writer) error {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	built, err := web.Build(ctx, stdout)
	if err != nil {
		return err
	}
	files, size, err := web.Export(built, dir)
	if err != nil {
		return err
	}
	fmt.Fprintf(stdout, "%d files, %.1f MB, are in %s. Put them onto any host of plain files;\n"+
		"over https the page then works without a network and goes onto the home screen.\n", files, float64(size)/1e6, dir)
	return nil
}
