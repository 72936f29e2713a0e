// Package testdata holds the demo scenes, embedded for whatever shows or
// checks them. Every vehicle in them is invented.
package testdata

import "embed"

// Scenes has the scene files under scenes/.
//
//go:embed scenes
var Scenes embed.FS
