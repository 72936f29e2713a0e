package main

import (
	"context"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"time"

	"scrubline/web"
	"scrubline/web/browser"
)

func pageFigures() []figure {
	return []figure{
		{"page-wasm-transferred", "MB-brotli", "<=3.0", wasmTransferred},
		{"page-still-processor", "%-of-a-core", "<=1", stillProcessor},
	}
}

// wasmTransferred is the sketcher's size as a browser gets it.
func wasmTransferred() (float64, error) {
	dir, err := web.Build(context.Background(), os.Stderr)
	if err != nil {
		return 0, err
	}
	info, err := os.Stat(filepath.Join(dir, "app.wasm.br"))
	if err != nil {
		return 0, err
	}
	return float64(info.Size()) / 1e6, nil
}

// stillProcessor is the share of one core that the whole browser uses, its
// graphics process included, while the page with the demo stands still.
func stillProcessor() (float64, error) {
	dir, err := web.Build(context.Background(), os.Stderr)
	if err != nil {
		return 0, err
	}
	url, stop, err := serve(web.Handler(dir))
	if err != nil {
		return 0, err
	}
	defer stop()
	p, err := browser.Open(context.Background(), browser.Landscape)
	if err != nil {
		return 0, err
	}
	defer p.Close()
	if err := p.Goto(url); err != nil {
		return 0, err
	}
	time.Sleep(4 * time.Second) // what starting left to do
	const watched = 10 * time.Second
	before, err := descendantsCPU()
	if err != nil {
		return 0, err
	}
	time.Sleep(watched)
	after, err := descendantsCPU()
	if err != nil {
		return 0, err
	}
	return 100 * (after - before).Seconds() / watched.Seconds(), nil
}

// serve answers on a loopback port of the system's choice.
func serve(h http.Handler) (url string, stop func(), err error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return "", nil, err
	}
	s := &http.Server{Handler: h, ErrorLog: nil}
	go s.Serve(l)
	return "http://" + l.Addr().String() + "/", func() { s.Close() }, nil
}
