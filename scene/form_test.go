package scene

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// sized is a kind's default size with some values changed.
func sized(kind string, change map[string]any) Size {
	s := KindNamed(kind).DefaultSize()
	for name, v := range change {
		switch v := v.(type) {
		case int:
			s[name] = Value{Num: float64(v)}
		case float64:
			s[name] = Value{Num: v}
		case string:
			s[name] = Value{Text: v}
		case bool:
			s[name] = Value{Flag: v}
		case []Row:
			s[name] = Value{Rows: v}
		}
	}
	return s
}

// formOf builds a part's form, which its check must allow.
func formOf(t testing.TB, kind string, change map[string]any) []Shape {
	t.Helper()
	k, s := KindNamed(kind), sized(kind, change)
	if k.Check != nil {
		if e := k.Check(s); e != nil {
			t.Fatalf("%s: %+v", kind, e)
		}
	}
	return k.Form(s, someVehicle(), k.Carriers[0])
}

// tapeSums are extents and volumes worked out by hand from the dimensions; the
// sums stand in the comments.
var tapeSums = []struct {
	kind   string
	change map[string]any
	lo, hi Vec
	volume float64 // mm³; NaN where pieces overlap or it has no closed form
}{
	{"frame_rail", map[string]any{"width_mm": 60, "depth_mm": 100, "length_mm": 2000, "profile": []Row(nil)},
		Vec{0, -30, 0}, Vec{2000, 30, 100}, 60 * 100 * 2000},
	// A rise of 300 over 400 (36.87°, leg 500), then level: one corner to each
	// side, so what the mitres take off and add is alike: depth × (600+500+600).
	{"frame_rail", map[string]any{"width_mm": 50, "depth_mm": 100, "length_mm": 1600, "profile": []Row{{600, 0}, {1000, 300}}},
		Vec{0, -25, 0}, Vec{1600, 25, 400}, 50 * 100 * 1700},
	// One corner upward of 90° − 45° = 45° at 1000: the mitre takes depth²·tan(22.5°).
	{"frame_rail", map[string]any{"width_mm": 50, "depth_mm": 100, "length_mm": 2000, "profile": []Row{{0, 0}, {1000, 0}, {2000, 1000}}},
		Vec{0, -25, 0}, Vec{2000, 25, 1000 + 100*math.Sqrt2/2},
		50 * (100*(1000+1000*math.Sqrt2) - 100*100*math.Tan(math.Pi/8))},
	{"frame_rail", map[string]any{"width_mm": 50, "depth_mm": 100, "length_mm": 2000, "profile": []Row(nil),
		"notch": "square", "notch_station_mm": 1000, "notch_length_mm": 300, "notch_depth_mm": 40},
		Vec{0, -25, 0}, Vec{2000, 25, 100}, 50 * (100*2000 - 300*40)},
	{"crossmember", map[string]any{"length_mm": 700, "width_mm": 80, "depth_mm": 50},
		Vec{-40, -350, 0}, Vec{40, 350, 50}, 80 * 50 * 700},
	// Dropped by 100 over 300: 4 corners of 45°, two each way; legs 100, 141.4, 300, 141.4, 100.
	{"crossmember", map[string]any{"length_mm": 700, "width_mm": 80, "depth_mm": 50, "drop_mm": 100, "flat_mm": 300},
		Vec{-40, -350, -100}, Vec{40, 350, 50}, 80 * 50 * (500 + 200*math.Sqrt2)},
	{"axle", map[string]any{"style": "beam", "tube_mm": 80, "length_mm": 1400, "beam_drop_mm": 0},
		Vec{-40, -700, -40}, Vec{40, 700, 40}, math.Pi * 40 * 40 * 1400},
	{"wheel", nil, Vec{-634.3 / 2, -112.5, -634.3 / 2}, Vec{634.3 / 2, 112.5, 634.3 / 2}, math.NaN()},
	{"muffler", map[string]any{"length_mm": 400, "width_mm": 120, "height_mm": 120},
		Vec{-200, -60, -60}, Vec{200, 60, 60}, math.Pi * 60 * 60 * 400},
	// A polygon of 24 sides about an ellipse: area n·tan(π/n)·a·b.
	{"muffler", map[string]any{"length_mm": 400, "width_mm": 240, "height_mm": 120},
		Vec{-200, -120, -60}, Vec{200, 120, 60}, 400 * 24 * math.Tan(math.Pi/24) * 120 * 60},
	{"compressor", map[string]any{"length_mm": 260, "width_mm": 110, "height_mm": 165, "motor_height_mm": 115},
		Vec{-130, -55, 0}, Vec{130, 55, 165}, math.NaN()},
	{"battery", map[string]any{"case": "bci_34", "lies": "across"}, Vec{-86.5, -130, 0}, Vec{86.5, 130, 200}, 173 * 260 * 200},
	{"battery", map[string]any{"case": "free", "lies": "along", "length_mm": 300, "width_mm": 180, "height_mm": 210},
		Vec{-150, -90, 0}, Vec{150, 90, 210}, 300 * 180 * 210},
	// Box, sump and three round fittings that stand on it.
	{"fuel_cell", map[string]any{"length_mm": 500, "width_mm": 400, "height_mm": 200, "sump_depth_mm": 70, "sump_length_mm": 100,
		"sump_width_mm": 100, "filler_mm": 100, "filler_height_mm": 60, "sender_mm": 80, "sender_height_mm": 30,
		"vent_mm": 20, "vent_height_mm": 40, "filler_y_mm": -100, "vent_y_mm": 100, "sump_x_mm": 100},
		Vec{-250, -200, -70}, Vec{250, 200, 260},
		500*400*200 + 100*100*70 + math.Pi*(50*50*60+40*40*30+10*10*40)},
	{"floor_pan", map[string]any{"length_mm": 1000, "width_mm": 1400, "thick_mm": 2, "tunnel_height_mm": 0},
		Vec{0, -700, 0}, Vec{1000, 700, 2}, 1000 * 1400 * 2},
	// Upright tunnel walls: path 550+150+300+150+550, corners of 90° two each way.
	{"floor_pan", map[string]any{"length_mm": 1000, "width_mm": 1400, "thick_mm": 2, "tunnel_height_mm": 150,
		"tunnel_width_mm": 300, "tunnel_top_mm": 300},
		Vec{0, -700, 0}, Vec{1000, 700, 152}, 1000 * 2 * (550 + 150 + 300 + 150 + 550)},
	{"firewall", map[string]any{"toe_length_mm": 0, "width_mm": 1400, "height_mm": 700, "thick_mm": 3},
		Vec{0, -700, 0}, Vec{3, 700, 700}, 1400 * 700 * 3},
	{"bed_floor", map[string]any{"length_mm": 2000, "width_mm": 1500, "thick_mm": 20},
		Vec{0, -750, 0}, Vec{2000, 750, 20}, 2000 * 1500 * 20},
	{"rocker", map[string]any{"length_mm": 1200, "width_mm": 90, "height_mm": 140},
		Vec{0, -45, 0}, Vec{1200, 45, 140}, 1200 * 90 * 140},
	{"seat", map[string]any{"back_deg": 0, "width_mm": 500, "base_length_mm": 520, "base_height_mm": 300,
		"back_height_mm": 600, "back_thick_mm": 100},
		Vec{-260, -250, 0}, Vec{360, 250, 900}, 500 * (520*300 + 600*100)},
	// A back that leans by 30°: its top rear corner is 600·sin30 + 100·cos30 behind.
	{"seat", map[string]any{"back_deg": 30, "width_mm": 500, "base_length_mm": 520, "base_height_mm": 300,
		"back_height_mm": 600, "back_thick_mm": 100},
		Vec{-260, -250, 0}, Vec{260 + 300 + 50*math.Sqrt(3), 250, 300 + 300*math.Sqrt(3)}, math.NaN()},
	{"booster", map[string]any{"diameter_mm": 200, "length_mm": 150, "master_length_mm": 190, "master_width_mm": 70,
		"below_mm": 35, "cap_height_mm": 90},
		Vec{-340, -100, -100}, Vec{0, 100, 100}, math.Pi*100*100*150 + 190*70*125},
	{"engine", map[string]any{"length_mm": 700, "width_mm": 560, "above_mm": 480, "below_mm": 90,
		"sump_width_mm": 260, "sump_depth_mm": 210, "sump_length_mm": 320},
		Vec{-700, -280, -210}, Vec{0, 280, 480}, 700*560*570 + 320*260*120},
	{"plate", map[string]any{"length_mm": 150, "width_mm": 100, "thick_mm": 6}, Vec{-75, -50, -3}, Vec{75, 50, 3}, 150 * 100 * 6},
	{"box", map[string]any{"length_mm": 300, "width_mm": 200, "height_mm": 150}, Vec{-150, -100, -75}, Vec{150, 100, 75}, 300 * 200 * 150},
	{"cylinder", map[string]any{"diameter_mm": 100, "length_mm": 300, "lies": "across"}, Vec{-50, -150, -50}, Vec{50, 150, 50}, math.Pi * 50 * 50 * 300},
	{"tube", map[string]any{"diameter_mm": 60, "length_mm": 500, "lies": "upright"}, Vec{-30, -30, -250}, Vec{30, 30, 250}, math.Pi * 30 * 30 * 500},
	{"air_tank", map[string]any{"diameter_mm": 200, "length_mm": 600}, Vec{-300, -100, -100}, Vec{300, 100, 100}, math.Pi * 100 * 100 * 600},
}

func TestFormsTakeUpWhatTheTapeSays(t *testing.T) {
	for _, c := range tapeSums {
		m := measureAll(t, formOf(t, c.kind, c.change))
		nearVec(t, c.kind+" low corner", m.lo, c.lo)
		nearVec(t, c.kind+" high corner", m.hi, c.hi)
		if !math.IsNaN(c.volume) {
			near(t, c.kind+" volume", m.volume, c.volume, 1e-6*c.volume)
		}
	}
}

// A round notch takes off a segment of a circle: area
// R²·acos((R−d)/R) − (R−d)·√(2Rd−d²) (as for a lying tank's contents). The rail
// keeps a little more than that, never less, and nowhere reaches into the arc.
func TestRoundNotchNeverTakesMoreThanTheArc(t *testing.T) {
	for _, d := range []float64{20, 60, 90} {
		l := 300.0
		shapes := formOf(t, "frame_rail", map[string]any{"width_mm": 50, "depth_mm": 120, "length_mm": 2000,
			"profile": []Row(nil), "notch": "round", "notch_station_mm": 1000, "notch_length_mm": l, "notch_depth_mm": d})
		r := (l*l/4 + d*d) / (2 * d)
		segment := r*r*math.Acos((r-d)/r) - (r-d)*math.Sqrt(2*r*d-d*d)
		cut := 120*2000 - measureAll(t, shapes).volume/50
		if cut > segment+1e-6 || cut < 0.97*segment {
			t.Errorf("depth %v: cut %v of %v", d, cut, segment)
		}
		inside := 0
		for _, s := range shapes {
			if h, ok := s.(Hull); ok {
				for _, p := range h.Points {
					away := math.Hypot(p[0]-1000, p[2]-(d-r))
					if p[2] < 119 && math.Abs(p[0]-1000) < l/2-1 {
						inside++
						near(t, "distance of a notch corner from the arc's centre", away, r, 1e-6)
					}
				}
			}
		}
		if inside == 0 {
			t.Error("no corner of the notch was looked at")
		}
	}
}

// A notch deeper than half its length has upright walls and a half circle on top.
func TestDeepNotchHasUprightWalls(t *testing.T) {
	s := sized("frame_rail", map[string]any{"notch": "round", "notch_length_mm": 100, "notch_depth_mm": 80})
	near(t, "in the middle", notchCut(s, 0), 80, 1e-9)
	near(t, "at the wall", notchCut(s, 50), 30, 1e-9)
	near(t, "at 30 from the middle", notchCut(s, 30), 30+40, 1e-9) // 3-4-5 triangle
}

func TestNotchOnASlopeFollowsIt(t *testing.T) {
	// 45° slope through the notch: the same volume is cut, drawn along X.
	shapes := formOf(t, "frame_rail", map[string]any{"width_mm": 50, "depth_mm": 100, "length_mm": 3000,
		"profile": []Row{{1000, 0}, {2000, 1000}}, "notch": "square", "notch_station_mm": 1500, "notch_length_mm": 200, "notch_depth_mm": 30})
	whole := 50 * 100 * (2000 + 1000*math.Sqrt2)
	near(t, "volume", measureAll(t, shapes).volume, whole-50*200*30, 1)
}

func TestRailRefusesCornersTooClose(t *testing.T) {
	s := sized("frame_rail", map[string]any{"depth_mm": 200, "profile": []Row{{1000, 0}, {1050, 300}, {1100, 0}}})
	if e := checkRail(s); e == nil || e.Field != "profile" {
		t.Errorf("%+v", e)
	}
	s = sized("frame_rail", map[string]any{"profile": []Row{{1000, 0}, {900, 10}}})
	if e := checkRail(s); e == nil || e.Field != "profile/1/station_mm" {
		t.Errorf("%+v", e)
	}
}

func TestAxlePinionPointsForwardAndUp(t *testing.T) {
	shapes := formOf(t, "axle", map[string]any{"pinion_length_mm": 300, "pinion_drop_mm": 20, "pinion_deg": 30, "housing_y_mm": 40})
	p := shapes[2].(Cylinder)
	nearVec(t, "root", p.From, Vec{0, 40, -20})
	nearVec(t, "flange", p.To, Vec{-300 * math.Sqrt(3) / 2, 40, 130})
	beam := formOf(t, "axle", map[string]any{"style": "beam", "beam_drop_mm": 60, "length_mm": 1400, "tube_mm": 80, "kingpin_mm": 120})
	m := newMeasure()
	m.reach(t, beam[0])
	nearVec(t, "beam's centreline, low", m.lo, Vec{0, -700, -60})
	nearVec(t, "beam's centreline, high", m.hi, Vec{0, 700, 0})
}

func TestWheelTakesTheTyreOfItsEnd(t *testing.T) {
	k := KindNamed("wheel")
	for on, outer := range map[Carrier]float64{WheelFL: 634.3, WheelFR: 634.3, WheelRL: 700, WheelRR: 700} {
		c := k.Form(sized("wheel", map[string]any{"extra_width_mm": 10}), someVehicle(), on)[0].(Cylinder)
		near(t, "outer radius on "+string(on), c.Radius, outer/2, 1e-9)
	}
	c := k.Form(sized("wheel", map[string]any{"extra_width_mm": 10}), someVehicle(), WheelRL)[0].(Cylinder)
	near(t, "width", c.To[1]-c.From[1], 260, 1e-9)
	near(t, "rim", c.BoreRadius, 225, 1e-9)
}

func TestSpringAndShaftHangBetweenTheirMounts(t *testing.T) {
	b := formOf(t, "air_spring", map[string]any{"plate_mm": 160, "lower_on": "wheel_rl", "lower_z_mm": 70})
	spring := b[0].(Bellows)
	if spring.Top != (Anchor{}) || spring.Bottom.On != WheelRL || spring.Bottom.P[2] != 70 || len(spring.Profile) != 4 {
		t.Errorf("%+v", spring)
	}
	if plate := b[1].(Cylinder); plate.Radius != 80 || plate.To[2] != 10 {
		t.Errorf("%+v", plate)
	}
	s := formOf(t, "driveshaft", map[string]any{"diameter_mm": 90, "rear_x_mm": -280})[0].(Shaft)
	if s.Front != (Anchor{}) || s.Rear.On != RearAxle || s.Rear.P[0] != -280 || s.Radius != 45 {
		t.Errorf("%+v", s)
	}
	if d := formOf(t, "shock", nil)[0].(Shaft); d.Rear.On != RearAxle || d.Radius != 30 {
		t.Errorf("%+v", d)
	}
}

// TestRoomsStandClearOfTheirPart: a service room begins where its part ends.
func TestRoomsStandClearOfTheirPart(t *testing.T) {
	for kind, want := range map[string][2]float64{
		"battery": {200, 280}, "booster": {90, 150}, "fuel_cell": {290, 410}, "air_tank": {-140, -100}} {
		rooms := 0
		for _, s := range formOf(t, kind, nil) {
			if r, ok := s.(Room); ok {
				m := newMeasure()
				m.reach(t, r.Shape)
				near(t, kind+" room from", m.lo[2], want[0], 1e-9)
				near(t, kind+" room to", m.hi[2], want[1], 1e-9)
				rooms++
			}
		}
		if rooms != 1 {
			t.Errorf("%s: %d rooms", kind, rooms)
		}
	}
}

func TestBodyShellIsOpenWhereItsOutlineIs(t *testing.T) {
	outline := []Row{{0, 0, 1000}, {500, 200, 1000}, {1500, 200, 1000}}
	change := map[string]any{"width_mm": 1800, "thick_mm": 20, "outline": outline, "roof": false}
	// Each side: a trapezoid 500·(1000+800)/2 and a rectangle 1000·800.
	m := measureAll(t, formOf(t, "body_shell", change))
	near(t, "sides", m.volume, 2*20*(450000+800000), 1)
	nearVec(t, "low", m.lo, Vec{0, -900, 0})
	nearVec(t, "high", m.hi, Vec{1500, 900, 1000})
	change["roof"] = true
	near(t, "roof", measureAll(t, formOf(t, "body_shell", change)).volume-m.volume, 1500*1800*20, 1)
}

// Bend arithmetic against the tube bender's formulas: arc = R·θ and setback =
// R·tan(θ/2); R 3.75 at 90° gives 5.8905 and 3.7500, at 45° 2.9452 and 1.5533
// (worked values of those formulas).
func TestRunLengthAndSetback(t *testing.T) {
	for _, c := range []struct{ r, angle, arc, setback float64 }{
		{3.75, 90, 5.8905, 3.75}, {3.75, 45, 2.9452, 1.5533}, {4.5, 30, 2.3562, 1.2058}, {3, 90, 4.7124, 3}} {
		sin, cos := math.Sincos(radians(c.angle))
		vs := []RunVertex{{P: Vec{-10, 0, 0}}, {BendRadius: c.r}, {P: Vec{10 * cos, 10 * sin, 0}}}
		b := bendAt(vs, 1)
		near(t, "setback", b.setback, c.setback, 1e-4)
		near(t, "arc", arcLength(vs[1], b), c.arc, 1e-4)
		near(t, "length", runLength(vs), 20-2*c.setback+c.arc, 3e-4)
	}
}

func TestRunPlaceFollowsTheBend(t *testing.T) {
	// 100 along X, a quarter turn of radius 50 to +Y, 100 along Y.
	vs := []RunVertex{{P: Vec{}}, {P: Vec{100, 0, 0}, BendRadius: 50}, {P: Vec{100, 100, 0}}}
	quarter := math.Pi / 2 * 50
	for _, c := range []struct {
		s      float64
		p, dir Vec
	}{
		{0, Vec{}, Vec{1, 0, 0}},
		{30, Vec{30, 0, 0}, Vec{1, 0, 0}},
		{50 + quarter/2, Vec{50 + 50*math.Sqrt2/2, 50 - 50*math.Sqrt2/2, 0}, Vec{math.Sqrt2 / 2, math.Sqrt2 / 2, 0}},
		{50 + quarter, Vec{100, 50, 0}, Vec{0, 1, 0}},
		{100 + quarter, Vec{100, 100, 0}, Vec{0, 1, 0}},
	} {
		p, dir := runPlace(vs, c.s)
		nearVec(t, "place", p, c.p)
		nearVec(t, "direction", dir, c.dir)
	}
}

// Walking along a run in small steps covers its length: an independent measure
// of runLength and runPlace together.
func TestRunPlaceWalksTheWholeLength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSize(t, KindNamed("exhaust_run"))
		rows := s.Rows("vertices")
		if checkCorners("vertices", rows, s.Num("tube_mm")/2) != nil {
			return
		}
		vs := corners(rows)
		total, walked := runLength(vs), 0.0
		last, _ := runPlace(vs, 0)
		const steps = 2000
		for i := 1; i <= steps; i++ {
			p, dir := runPlace(vs, total*float64(i)/steps)
			walked += p.sub(last).len()
			last = p
			if math.Abs(dir.len()-1) > 1e-9 {
				t.Fatalf("direction %v", dir)
			}
		}
		// Mitres are cut short by at most half a step each, arcs by their sag.
		if walked > total+1e-6 || walked < total*0.99-total/steps*float64(len(vs)) {
			t.Fatalf("walked %v of %v", walked, total)
		}
		if last.sub(vs[len(vs)-1].P).len() > 1e-6 {
			t.Fatalf("ends at %v", last)
		}
	})
}

func TestMufflerSitsOnItsTube(t *testing.T) {
	shapes := formOf(t, "exhaust_run", map[string]any{
		"vertices": []Row{{0, 0, 0, 0}, {0, 1000, 0, 0}}, "mufflers": []Row{{200, 400, 100, 100}},
		"tip_length_mm": 150, "tip_mm": 90})
	m := shapes[1].(Cylinder)
	nearVec(t, "muffler from", m.From, Vec{0, 200, 0})
	nearVec(t, "muffler to", m.To, Vec{0, 600, 0})
	tip := shapes[2].(Cylinder)
	nearVec(t, "tip to", tip.To, Vec{0, 1150, 0})
	run := shapes[0].(Run)
	near(t, "bore", run.BoreRadius, 63.5/2-1.6, 1e-9)
	for i, c := range []struct {
		rows  []Row
		field string
	}{
		{[]Row{{0, 0, 0, 0}, {0.5, 0, 0, 0}}, "vertices/1/x_mm"},
		{[]Row{{0, 0, 0, 0}, {500, 0, 0, 95}, {0, 1, 0, 0}}, "vertices/1/x_mm"},
		{[]Row{{0, 0, 0, 0}, {500, 0, 0, 20}, {500, 500, 0, 0}}, "vertices/1/bend_mm"},
		{[]Row{{0, 0, 0, 0}, {500, 0, 0, 300}, {500, 500, 0, 300}, {900, 500, 0, 0}}, "vertices/2/bend_mm"},
		{[]Row{{0, 0, 0, 0}, {100, 0, 0, 0}}, "mufflers/0/start_mm"},
	} {
		e := checkExhaustRun(sized("exhaust_run", map[string]any{"vertices": c.rows}))
		if e == nil || e.Field != c.field {
			t.Errorf("case %d: %+v, want %s", i, e, c.field)
		}
	}
}
