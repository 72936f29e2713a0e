package main

import (
	"context"
	"fmt"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"

	"scrubline/web"
	"scrubline/web/browser"
)

// startRounds is how often each page is started; the medians are compared.
const startRounds = 5

func startFigures() []figure {
	var once sync.Once
	var cold, cached float64
	var err error
	both := func() { once.Do(func() { cold, cached, err = startRatios() }) }
	return []figure{
		{"start-cold-over-empty-page", "ratio", "<=1.5", func() (float64, error) { both(); return cold, err }},
		{"start-cached-over-empty-page", "ratio", "<=1.5", func() (float64, error) { both(); return cached, err }},
	}
}

// startRatios compares the time from navigation until the drawing of what was
// open, or of the demo, stands uncovered and takes a finger with that until the
// first drawn frame of an empty Ebiten page, once with an empty profile and once
// more in the same profile, the two pages taking turns.
func startRatios() (cold, cached float64, err error) {
	tmp, err := os.MkdirTemp("", "figures")
	if err != nil {
		return 0, 0, err
	}
	defer os.RemoveAll(tmp)
	emptyPage, err := buildEmptyPage(tmp)
	if err != nil {
		return 0, 0, err
	}
	dir, err := web.Build(context.Background(), os.Stderr)
	if err != nil {
		return 0, 0, err
	}
	var times [2][2][]float64 // page, cold or cached
	for round := 0; round < startRounds; round++ {
		for i, h := range []http.Handler{web.Handler(dir), emptyPage} {
			c, w, err := startOnce(h)
			if err != nil {
				return 0, 0, err
			}
			times[i][0], times[i][1] = append(times[i][0], c), append(times[i][1], w)
		}
	}
	return median(times[0][0]) / median(times[1][0]), median(times[0][1]) / median(times[1][1]), nil
}

// startOnce starts a page in a new profile and again in the same one, and
// returns the two times in milliseconds.
func startOnce(h http.Handler) (cold, cached float64, err error) {
	url, stop, err := serve(h)
	if err != nil {
		return 0, 0, err
	}
	defer stop()
	p, err := browser.Open(context.Background(), browser.Landscape)
	if err != nil {
		return 0, 0, err
	}
	defer p.Close()
	var at [2]float64
	for i := range at {
		if err := p.Navigate(url); err != nil {
			return 0, 0, err
		}
		if err := p.Wait("window.drawnAt > 0"); err != nil {
			return 0, 0, err
		}
		if at[i], err = browser.Eval[float64](p, "window.drawnAt"); err != nil {
			return 0, 0, err
		}
		if err := p.Wait("!navigator.serviceWorker || !document.documentElement.dataset.ready || !!navigator.serviceWorker.controller"); err != nil {
			return 0, 0, err
		}
	}
	return at[0], at[1], nil
}

// buildEmptyPage compiles the empty Ebiten page and serves it compressed and
// cacheable, as the sketcher is.
func buildEmptyPage(dir string) (http.Handler, error) {
	wasm := filepath.Join(dir, "app.wasm")
	c := exec.Command("go", "build", "-trimpath", "-ldflags=-s -w", "-o", wasm, "./cmd/figures/emptypage")
	c.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if out, err := c.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("the empty page does not build: %s", strings.TrimSpace(string(out)))
	}
	return web.EmptyPage(wasm)
}
