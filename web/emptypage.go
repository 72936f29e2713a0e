package web

import (
	"bytes"
	"context"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"
)

// The empty page starts a program and does nothing else.
const (
	emptyHTML = `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Empty</title>
<link rel="preload" href="app.wasm" as="fetch" crossorigin></head>
<body><script src="wasm_exec.js"></script><script src="main.js"></script></body></html>
`
	emptyJS = `const go = new Go();
WebAssembly.instantiateStreaming(fetch('app.wasm'), go.importObject).then((r) => go.run(r.instance));
`
)

// EmptyPage serves a page that does nothing but run the given program, packed
// and with the same headers as the sketcher: what starting it is measured
// against. It is no part of the product.
func EmptyPage(wasm string) (http.Handler, error) {
	ctx := context.Background()
	raw, err := os.ReadFile(wasm)
	if err != nil {
		return nil, fmt.Errorf("the program of the empty page: %w", err)
	}
	goroot, err := goTool(ctx, filepath.Dir(wasm), "env", "GOROOT")
	if err != nil {
		return nil, err
	}
	loader, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(goroot)), "lib", "wasm", execFile))
	if err != nil {
		return nil, fmt.Errorf("this Go has no loader for the browser: %w", err)
	}
	program := &asset{kind: kinds[".wasm"], plain: raw, packed: map[string][]byte{}}
	for _, enc := range encodings {
		var small bytes.Buffer
		if err := enc.pack(ctx, &small, raw); err != nil {
			return nil, err
		}
		program.packed[enc.name] = small.Bytes()
	}
	files := map[string]*asset{
		"":        {kind: kinds[".html"], plain: []byte(emptyHTML)},
		"main.js": {kind: kinds[".js"], plain: []byte(emptyJS)},
		execFile:  {kind: kinds[".js"], plain: loader},
		wasmFile:  program,
	}
	for _, a := range files {
		a.seal()
	}
	return &server{files: files}, nil
}
