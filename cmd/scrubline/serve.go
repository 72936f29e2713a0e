package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"os/signal"
	"runtime"
	"time"

	"scrubline/web"
)

const serveUsage = `usage: scrubline serve [-listen ADDR] [-open]

Builds the sketcher where needed and serves the page.

  -listen ADDR  host and port, or :port for every network of this computer (default 127.0.0.1:8765)
  -open         open the page in this computer's browser
`

// runServe serves the page until it is interrupted. It returns 0 after an
// interrupt and 2 when the arguments are bad or nothing can be served.
func runServe(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	listen := flags.String("listen", "127.0.0.1:8765", "")
	open := flags.Bool("open", false, "")
	switch err := flags.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		fmt.Fprint(stdout, serveUsage)
		return 0
	case err != nil:
		fmt.Fprintf(stderr, "scrubline serve: %v\n", err)
		return 2
	case flags.NArg() > 0:
		fmt.Fprintf(stderr, "scrubline serve: %q is not expected; only -listen and -open are\n", flags.Arg(0))
		return 2
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if err := serve(ctx, *listen, *open, stdout); err != nil {
		fmt.Fprintf(stderr, "scrubline serve: %v\n", err)
		return 2
	}
	return 0
}

// serve takes the address first, so that a taken one is told before the build.
func serve(ctx context.Context, listen string, open bool, stdout io.Writer) error {
	socket, err := net.Listen("tcp", listen)
	if err != nil {
		return fmt.Errorf("cannot listen on %s: %w", listen, err)
	}
	defer socket.Close()
	dir, err := web.Build(ctx, stdout)
	if err != nil {
		if ctx.Err() != nil {
			return nil
		}
		return err
	}
	addr, ok := socket.Addr().(*net.TCPAddr)
	if !ok {
		return fmt.Errorf("cannot tell the address of %s", listen)
	}
	local := describe(stdout, addr)
	if open {
		if err := openBrowser(local); err != nil {
			fmt.Fprintf(stdout, "No browser could be opened: %v\n", err)
		}
	}
	return serveOn(ctx, socket, web.Handler(dir))
}

// serveOn answers requests until ctx ends.
func serveOn(ctx context.Context, socket net.Listener, page http.Handler) error {
	server := &http.Server{Handler: page, ReadHeaderTimeout: 10 * time.Second}
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(socket) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	grace, cancel := context.WithTimeout(context.Background(), 2*time.Second)
	defer cancel()
	if err := server.Shutdown(grace); err != nil {
		return server.Close()
	}
	return nil
}

// openBrowser asks the system to show an address.
func openBrowser(address string) error {
	name, args := "xdg-open", []string{address}
	switch runtime.GOOS {
	case "darwin":
		name = "open"
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", address}
	}
	return exec.Command(name, args...).Start()
}
