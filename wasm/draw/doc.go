// Package draw composes what is on the canvas as a list of plain operations:
// filled convex polygons, lines with the weights and dashes of ISO 128-2,
// hatching, text and marks. It also turns such a list into triangles. It needs
// no browser and no graphics library; package paint only hands the triangles
// on.
//
// All positions and widths are CSS pixels, Y down.
package draw
