package app

import (
	"strings"
	"unicode"

	"scrubline/scene"
)

// briefs are kinds of parts in one word, for places with little room.
var briefs = map[string]string{
	"air_line": "air line", "air_spring": "spring", "air_tank": "tank", "axle": "axle", "battery": "battery",
	"bed_floor": "bed", "body_shell": "body", "booster": "booster", "brake_line": "brake line", "compressor": "compressor",
	"crossmember": "member", "driveshaft": "shaft", "engine": "engine", "exhaust_run": "exhaust", "firewall": "firewall",
	"floor_pan": "floor", "frame_rail": "rail", "fuel_cell": "fuel cell", "fuel_line": "fuel line", "gearbox": "gearbox",
	"muffler": "muffler", "rocker": "rocker", "seat": "seat", "shock": "shock", "suspension_bar": "bar", "wheel": "wheel", "wiring": "wiring",
}

// brief is a part in a word: what it is, or the first word of its name for a
// plain shape.
func (a *App) brief(id string) string {
	i := a.partIndex(id)
	if i < 0 {
		return id
	}
	p := &a.doc.Parts[i]
	if s := briefs[p.Kind]; s != "" {
		return s
	}
	first, _, _ := strings.Cut(p.Name, " ")
	return lower(first)
}

// pairBrief names two parts: "spring/exhaust".
func (a *App) pairBrief(x, y string) string { return a.brief(x) + "/" + a.brief(y) }

// traitWords are what a part may be, in plain words, in the order of
// [scene.AllTraits].
var traitWords = map[scene.Trait][2]string{
	scene.Fixed:      {"Fixed", "Bolted or welded to the body or frame."},
	scene.Frame:      {"Frame", "The frame and its crossmembers."},
	scene.Floor:      {"Floor panel", "Floor, tunnel, bed and firewall panels."},
	scene.Moving:     {"Moves with a wheel", "Suspension, axle, steering linkage."},
	scene.Engine:     {"Engine or gearbox", "Shakes on its mounts; the steering shaft too."},
	scene.Spring:     {"Air spring", "Must touch nothing at its largest."},
	scene.Driveshaft: {"Driveshaft", "Turns."},
	scene.TyreTrait:  {"Tyre", "Tyre and wheel."},
	scene.Exhaust:    {"Exhaust", "Hot pipe, muffler, tip."},
	scene.Fuel:       {"Fuel", "Tank, line, filler, vent."},
	scene.Brake:      {"Brake", "Line, booster, master cylinder."},
	scene.Electric:   {"Electric", "Wiring and electric parts."},
	scene.Battery:    {"Battery", "The battery itself."},
	scene.Air:        {"Compressed air", "Air tank, line, compressor."},
	scene.Burns:      {"Burns", "Wood, trim, anything that chars."},
}

// lastWord is the last word of a name: "Aired out" is out.
func lastWord(name string) string {
	f := strings.FieldsFunc(name, unicode.IsSpace)
	if len(f) == 0 {
		return ""
	}
	return lower(f[len(f)-1])
}
