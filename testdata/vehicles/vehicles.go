// Package vehicles generates whole vehicles of any number of parts for
// measuring: invented, but built like the underside of a lowered van. The same
// seed gives the same vehicle in every build.
//
// Density is the same for any number: the vehicle's length and width grow as the
// root of the number of parts, the parts keep their sizes, and every fifty of
// them have the same mix of kinds.
package vehicles

import (
	"fmt"
	"math"
	"math/rand"

	"scrubline/scene"
)

// Generate is a vehicle of so many parts, 25 to 400. A smaller one steers less,
// as its rails stand closer to its wheels.
func Generate(parts int, seed int64) *scene.Document {
	b := &builder{Rand: rand.New(rand.NewSource(seed)), grow: math.Sqrt(float64(parts) / 100)}
	b.doc = &scene.Document{
		Format: scene.Format, Version: scene.Version, Name: fmt.Sprintf("Generated, %d parts", parts),
		Note: "Invented by a generator, for measuring.", Show: scene.Millimetres, ToleranceMM: 3,
		Vehicle: scene.Vehicle{WheelbaseMM: 3000 * b.grow, Front: b.end(math.Round(28*min(1, b.grow)), 0), Rear: b.end(0, 30)},
		Heights: []scene.Height{
			{ID: scene.AiredOut, Name: "Aired out", FrontMM: -90, RearMM: -100},
			{ID: scene.Ride, Name: "Ride"},
			{ID: scene.AiredUp, Name: "Aired up", FrontMM: 60, RearMM: 70},
		},
	}
	b.chassis()
	for len(b.doc.Parts) < parts {
		kinds := append([]string(nil), mix...)
		b.Shuffle(len(kinds), func(i, j int) { kinds[i], kinds[j] = kinds[j], kinds[i] })
		for _, k := range kinds[:min(len(kinds), parts-len(b.doc.Parts))] {
			b.add(k)
		}
	}
	return b.doc
}

// mix is the kinds of fifty parts beside the chassis.
var mix = []string{
	"box", "box", "box", "box", "box", "box", "box", "box", "box", "box",
	"cylinder", "cylinder", "cylinder", "cylinder", "tube", "tube", "tube", "tube", "tube",
	"plate", "plate", "plate", "plate", "crossmember", "crossmember",
	"brake_line", "brake_line", "brake_line", "fuel_line", "fuel_line", "air_line", "air_line",
	"wiring", "wiring", "wiring", "exhaust_run", "exhaust_run", "muffler",
	"air_spring", "air_spring", "shock", "shock", "air_tank", "compressor", "battery",
	"fuel_cell", "booster", "gearbox", "rocker", "floor_pan",
}

type builder struct {
	*rand.Rand
	doc   *scene.Document
	grow  float64
	taken []box
}

const (
	tyre = "225/45R17"

	// axleZ is how high the wheel centres stand over the frame datum at ride: half
	// of the tyre's 634.3 mm less its deflection and the frame's height.
	axleZ       = 634.3/2 - 12 - frameHeight
	frameHeight = 200

	// travel is how far an axle's part must be kept from the body's, up and down.
	travel = 105
)

func (b *builder) end(steer, cross float64) scene.End {
	t, err := scene.ParseTyre(tyre)
	if err != nil {
		t = scene.Tyre{DiameterMM: 634.3, WidthMM: 225, RimMM: 431.8}
	}
	t.DeflectionMM = 12
	return scene.End{TrackMM: 1480 * b.grow, Tyre: t, FrameHeightMM: frameHeight, SteerDeg: steer, CrossMM: cross}
}

func (b *builder) in(lo, hi float64) float64 { return lo + float64((hi-lo)*b.Float64()) }

// whole is a random whole number of millimetres, as a tape gives.
func (b *builder) whole(lo, hi float64) float64 { return math.Round(b.in(lo, hi)) }

// chassis is what every vehicle has: wheels, axles, rails and a driveshaft.
func (b *builder) chassis() {
	v := &b.doc.Vehicle
	base, track := v.WheelbaseMM, v.Front.TrackMM
	b.part("front-axle", "axle", scene.FrontAxle, scene.Vec{}, map[string]float64{"length_mm": track - 110, "tube_mm": 70, "beam_drop_mm": 60})
	b.doc.Parts[0].Size["style"] = scene.Value{Text: "beam"}
	b.part("rear-axle", "axle", scene.RearAxle, scene.Vec{}, map[string]float64{"length_mm": track - 110, "housing_mm": 240})
	b.take(box{{-60, -track / 2, axleZ - 180}, {60, track / 2, axleZ + 150}})
	b.take(box{{base - 350, -150, axleZ - 220}, {base + 150, 150, axleZ + 220}})
	b.take(box{{base - 60, -track / 2, axleZ - 140}, {base + 60, track / 2, axleZ + 140}})
	for i, on := range []scene.Carrier{scene.WheelFL, scene.WheelFR, scene.WheelRL, scene.WheelRR} {
		id := fmt.Sprintf("wheel-%d", i+1)
		b.part(id, "wheel", on, scene.Vec{}, nil)
		axle, x := "front-axle", 0.0
		if i >= 2 {
			axle, x = "rear-axle", base
		}
		b.doc.Joined = append(b.doc.Joined, scene.Joined{A: axle, B: id, Why: "bolted to its flange"})
		y := track / 2 * float64(2*(i%2)-1)
		b.take(box{{x - 340, y - 220, -400}, {x + 340, y + 220, 600}})
	}
	side := 0.27*track - 60
	for i, y := range [2]float64{-side, side} {
		b.rail(fmt.Sprintf("rail-%d", i+1), y)
	}
	b.part("driveshaft", "driveshaft", scene.Body, scene.Vec{base * 0.45, 0, 90}, map[string]float64{"diameter_mm": 76, "rear_x_mm": -350})
	b.take(box{{base * 0.45, -60, -50}, {base - 350, 60, 200}})
	b.doc.Joined = append(b.doc.Joined, scene.Joined{A: "rear-axle", B: "driveshaft", Why: "joint on the pinion"})
}

// rail is a frame rail that rises over both axles.
func (b *builder) rail(id string, y float64) {
	base := b.doc.Vehicle.WheelbaseMM
	front := -400 * b.grow
	at := func(x float64) float64 { return math.Round(x - front) }
	b.part(id, "frame_rail", scene.Body, scene.Vec{front, y, 0}, map[string]float64{
		"width_mm": 60, "depth_mm": 100, "length_mm": math.Round(base + 900*b.grow)})
	size := b.doc.Parts[len(b.doc.Parts)-1].Size
	size["profile"] = scene.Value{Rows: []scene.Row{{at(160), 270}, {at(400), 0}, {at(base - 450), 0}, {at(base - 200), 270}, {at(base + 200), 270}}}
	b.take(box{{front, y - 35, -5}, {base + 500*b.grow, y + 35, 105}})
	b.take(box{{front, y - 35, 105}, {400, y + 35, 375}})
	b.take(box{{base - 450, y - 35, 105}, {base + 500*b.grow, y + 35, 375}})
}

// part adds a part with some dimensions changed from its kind's own.
func (b *builder) part(id, kind string, on scene.Carrier, at scene.Vec, nums map[string]float64) {
	size := scene.KindNamed(kind).DefaultSize()
	for name, v := range nums {
		size[name] = scene.Value{Num: v}
	}
	b.doc.Parts = append(b.doc.Parts, scene.Part{ID: id, Name: id, Kind: kind, Carrier: on, AtMM: at, Size: size})
}

func (b *builder) take(x box) { b.taken = append(b.taken, x) }
