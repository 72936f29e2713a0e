// Package view is the geometry of the screen: where the three drawings stand
// on the canvas, how body axes map to pixels and back, what a finger points at,
// and what a dragged part snaps to. It draws nothing and knows no browser.
//
// Screen points are CSS pixels within the canvas, Y down ([mgl64.Vec2]). World
// points are [fitment.Pt]: millimetres of a view's plane in body axes. Between
// the two lie the ground axes of a view: the same plane seen from the ground,
// so that a lowered body moves down on the screen while the ground stays.
package view
