// Package web is the page around the sketcher: its files, embedded; the build
// of the sketcher for the browser; and the handler that serves both.
//
// # Parts
//
//   - [Build] compiles package wasm for the browser when it is missing or
//     older than its sources, and compresses it.
//   - [Handler] serves the embedded page, the built sketcher and the demo
//     scenes, with the headers the page needs to run and to work offline.
//
// The page itself is plain HTML, CSS and JavaScript modules: no script comes
// from elsewhere. The modules are served as one script and the style sheets as
// one (bundle.go), made when the page is gathered.
package web

import "embed"

//go:embed index.html app.webmanifest *.css *.js panels/*.js fonts/*.otf fonts/OFL.txt icons/*.png
var page embed.FS
