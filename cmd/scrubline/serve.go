package main

import (
	"context"
	"crypto/tls"
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

const serveUsage = `usage: scrubline serve [-listen ADDR] [-cert FILE -key FILE] [-open]

Builds the sketcher where needed and serves the page.

  -listen ADDR          host and port, or :port for every network of this computer (default 127.0.0.1:8765)
  -cert FILE -key FILE  serve over https with this certificate and its key (PEM)
  -open                 open the page in this computer's browser
`

// serving is what the arguments ask for.
type serving struct {
	listen    string
	cert, key string // files; both empty: plain http
	open      bool
}

// runServe serves the page until it is interrupted. It returns 0 after an
// interrupt and 2 when the arguments are bad or nothing can be served.
func runServe(args []string, stdout, stderr io.Writer) int {
	var want serving
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	flags.StringVar(&want.listen, "listen", "127.0.0.1:8765", "")
	flags.StringVar(&want.cert, "cert", "", "")
	flags.StringVar(&want.key, "key", "", "")
	flags.BoolVar(&want.open, "open", false, "")
	err := flags.Parse(args)
	switch {
	case errors.Is(err, flag.ErrHelp):
		fmt.Fprint(stdout, serveUsage)
		return 0
	case err == nil && flags.NArg() > 0:
		err = fmt.Errorf("%q is not expected; there are -listen, -cert, -key and -open", flags.Arg(0))
	case err == nil && (want.cert == "") != (want.key == ""):
		err = errors.New("-cert and -key go together")
	}
	if err == nil {
		ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
		defer stop()
		err = serve(ctx, want, stdout)
	}
	if err != nil {
		fmt.Fprintf(stderr, "scrubline serve: %v\n", err)
		return 2
	}
	return 0
}

// serve takes the address first, so that a taken one is told before the build.
func serve(ctx context.Context, want serving, stdout io.Writer) error {
	socket, err := listen(want)
	if err != nil {
		return err
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
		return fmt.Errorf("cannot tell the address of %s", want.listen)
	}
	local, others := describe(stdout, addr, want.cert != "")
	reach, err := reachFiles(addr.Port, others)
	if err != nil {
		return err
	}
	if want.open {
		if err := openBrowser(local); err != nil {
			fmt.Fprintf(stdout, "No browser could be opened: %v\n", err)
		}
	}
	return serveOn(ctx, socket, web.Handler(dir, reach...))
}

// listen opens the address, with the certificate when there is one.
func listen(want serving) (net.Listener, error) {
	var secure *tls.Config
	if want.cert != "" {
		pair, err := tls.LoadX509KeyPair(want.cert, want.key)
		if err != nil {
			return nil, fmt.Errorf("the certificate %s with the key %s cannot be used: %w", want.cert, want.key, err)
		}
		secure = &tls.Config{Certificates: []tls.Certificate{pair}, MinVersion: tls.VersionTLS12}
	}
	socket, err := net.Listen("tcp", want.listen)
	if err != nil {
		return nil, fmt.Errorf("cannot listen on %s: %w", want.listen, err)
	}
	if secure != nil {
		return tls.NewListener(socket, secure), nil
	}
	return socket, nil
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
