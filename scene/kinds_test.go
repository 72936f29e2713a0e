package scene

import (
	"fmt"
	"math"
	"os"
	"sort"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// someVehicle has an end of its own at front and rear.
func someVehicle() *Vehicle {
	v := &Vehicle{WheelbaseMM: 3000,
		Front: End{TrackMM: 1500, Tyre: Tyre{Code: "225/45R17"}},
		Rear:  End{TrackMM: 1500, Tyre: Tyre{DiameterMM: 700, WidthMM: 250, RimMM: 450}}}
	v.Front.Suspension = SuspensionTemplate(FourLinkPanhard, v, "front")
	v.Rear.Suspension = SuspensionTemplate(FourLinkPanhard, v, "rear")
	return v
}

func TestEveryKindIsWhole(t *testing.T) {
	groups := []string{"Chassis", "Running gear", "Exhaust", "Air", "Fuel", "Electric", "Brakes", "Body", "Plain shapes"}
	want := strings.Fields(`air_line air_spring air_tank axle battery bed_floor body_shell booster box brake_line
		compressor crossmember cylinder driveshaft engine exhaust_run firewall floor_pan frame_rail fuel_cell
		fuel_line gearbox muffler plate rocker seat shock suspension_bar tube wheel wiring`)
	var got []string
	for _, k := range Kinds() {
		got = append(got, k.Name)
		if _, err := os.Stat("kind_" + k.Name + ".go"); err != nil {
			t.Errorf("%s has no file of its own", k.Name)
		}
		if k.Label == "" || k.About == "" || !contains(groups, k.Group) || len(k.Carriers) == 0 || len(k.Traits) == 0 || k.Form == nil {
			t.Errorf("%s: something is missing", k.Name)
		}
		for _, tr := range k.Traits {
			if !contains(AllTraits, tr) {
				t.Errorf("%s: trait %s", k.Name, tr)
			}
		}
		checkFields(t, k.Name, k.Fields)
		if e := k.Check; e != nil && e(k.DefaultSize()) != nil {
			t.Errorf("%s: default size: %v", k.Name, e(k.DefaultSize()))
		}
	}
	if strings.Join(got, " ") != strings.Join(want, " ") {
		t.Errorf("kinds: %v\nwant %v", got, want)
	}
}

func checkFields(t *testing.T, kind string, fields []Field) {
	t.Helper()
	seen := map[string]bool{}
	for _, f := range fields {
		where := kind + "/" + f.Name
		if seen[f.Name] || f.Label == "" || f.Help == "" && f.Type != Choice {
			t.Errorf("%s: named twice, or no label or help", where)
		}
		seen[f.Name] = true
		switch f.Type {
		case Length:
			if !strings.HasSuffix(f.Name, "_mm") || !(f.Min <= f.Default && f.Default <= f.Max && f.Min < f.Max) {
				t.Errorf("%s: name or range", where)
			}
		case Angle:
			if !strings.HasSuffix(f.Name, "_deg") || !(f.Min <= f.Default && f.Default <= f.Max) {
				t.Errorf("%s: name or range", where)
			}
		case Choice:
			if len(f.Choices) != len(f.ChoiceLabels) || !contains(f.Choices, f.DefaultChoice) {
				t.Errorf("%s: choices", where)
			}
		case Table:
			if len(f.DefaultRows) < f.MinRows || len(f.DefaultRows) > f.MaxRows {
				t.Errorf("%s: default rows", where)
			}
			checkFields(t, where, f.Columns)
		}
	}
}

// sound asserts that shapes are finite and have room.
func sound(t rapidOrTest, what string, shapes []Shape) {
	t.Helper()
	for i, s := range shapes {
		if r, ok := s.(Room); ok {
			if r.For == "" {
				t.Fatalf("%s: a room for nothing", what)
			}
			s = r.Shape
		}
		if text := fmt.Sprint(s); strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
			t.Fatalf("%s: shape %d is not finite: %v", what, i, s)
		}
		if why := hollow(s); why != "" {
			t.Fatalf("%s: shape %d: %s: %+v", what, i, why, s)
		}
	}
	if len(shapes) == 0 {
		t.Fatalf("%s: made of nothing", what)
	}
}

type rapidOrTest interface {
	Helper()
	Fatalf(format string, args ...any)
}

// hollow says what takes a shape's room away.
func hollow(s Shape) string {
	switch s := s.(type) {
	case Box:
		if min(s.Size[0], s.Size[1], s.Size[2]) <= 0 || s.Round*2 > min(s.Size[0], s.Size[1], s.Size[2])+1e-9 {
			return "flat or too round a box"
		}
	case Hull:
		m := newMeasure()
		for _, p := range s.Points {
			m.point(p, Vec{})
		}
		if d := m.hi.sub(m.lo); len(s.Points) < 6 || min(d[0], d[1], d[2]) <= 1e-6 {
			return "flat hull"
		}
	case Cylinder:
		l := s.To.sub(s.From).len()
		if l <= 0 || s.Radius <= 0 || s.Round < 0 || s.Round > min(s.Radius, l/2)+1e-9 || s.BoreRadius < 0 || s.BoreRadius > s.Radius {
			return "cylinder"
		}
	case Run:
		if s.Radius <= 0 || s.BoreRadius >= s.Radius || len(s.Vertices) < 2 {
			return "run"
		}
	case Bellows:
		if len(s.Profile) == 0 || s.Bottom.On == "" {
			return "bellows"
		}
	case Shaft:
		if s.Radius <= 0 || s.Rear.On == "" {
			return "shaft"
		}
	}
	return ""
}

// TestEveryFieldAtItsEnds sets one field after the other to its least and
// largest number, all others at their defaults.
func TestEveryFieldAtItsEnds(t *testing.T) {
	v := someVehicle()
	built := 0
	for _, k := range Kinds() {
		for _, on := range k.Carriers {
			sound(t, k.Name, k.Form(k.DefaultSize(), v, on))
		}
		for _, f := range k.Fields {
			var values []Value
			switch f.Type {
			case Choice:
				for _, c := range f.Choices {
					values = append(values, Value{Text: c})
				}
			case Flag:
				values = []Value{{Flag: false}, {Flag: true}}
			case Table:
				continue
			default:
				values = []Value{{Num: f.Min}, {Num: f.Max}, {Num: 0.3*f.Min + 0.7*f.Max}}
			}
			for _, val := range values {
				s := k.DefaultSize()
				s[f.Name] = val
				if k.Check == nil || k.Check(s) == nil {
					sound(t, fmt.Sprintf("%s with %s %v", k.Name, f.Name, val), k.Form(s, v, k.Carriers[0]))
					built++
				}
			}
		}
	}
	if built < 300 {
		t.Errorf("only %d sizes were built", built)
	}
}

// drawSize draws a size near the default, some fields anywhere in their range.
func drawSize(t *rapid.T, k *Kind) Size {
	s := k.DefaultSize()
	num := func(f *Field, def float64) float64 {
		if rapid.IntRange(0, 9).Draw(t, "wild") == 0 {
			return rapid.Float64Range(f.Min, f.Max).Draw(t, f.Name)
		}
		v := def*rapid.Float64Range(0.8, 1.25).Draw(t, f.Name) + rapid.Float64Range(-5, 5).Draw(t, f.Name)
		return math.Min(f.Max, math.Max(f.Min, v))
	}
	for i := range k.Fields {
		f := &k.Fields[i]
		switch f.Type {
		case Choice:
			s[f.Name] = Value{Text: rapid.SampledFrom(f.Choices).Draw(t, f.Name)}
		case Flag:
			s[f.Name] = Value{Flag: rapid.Bool().Draw(t, f.Name)}
		case Table:
			rows := s[f.Name].Rows
			for _, r := range rows {
				for j := range r {
					c := &f.Columns[j]
					if rapid.IntRange(0, 7).Draw(t, "keep") == 0 {
						r[j] = num(c, r[j])
					}
				}
			}
		default:
			n := num(f, f.Default)
			if f.Type == Count {
				n = math.Round(n)
			}
			s[f.Name] = Value{Num: n}
		}
	}
	return s
}

// TestWhatChecksCanBeBuilt: a size that passes its kind's check gives sound
// shapes, whose bends fit, and its other side is its mirror image.
func TestWhatChecksCanBeBuilt(t *testing.T) {
	v := someVehicle()
	for _, k := range Kinds() {
		passed, drawn := 0, 0
		t.Run(k.Name, rapid.MakeCheck(func(t *rapid.T) {
			s := drawSize(t, k)
			drawn++
			if k.Check != nil && k.Check(s) != nil {
				return
			}
			passed++
			on := rapid.SampledFrom(k.Carriers).Draw(t, "carrier")
			shapes := k.Form(s, v, on)
			sound(t, k.Name, shapes)
			if k.Derived {
				return // it stands where the vehicle has it, on either side
			}
			other := k.Form(mirrorSize(k, s), v, otherSide(on))
			if a, b := mirrored(shapes), extents(other); a != b {
				t.Fatalf("the other side: %s\nwant %s", b, a)
			}
		}))
		if passed*10 < drawn {
			t.Errorf("%s: only %d of %d sizes passed their check", k.Name, passed, drawn)
		}
	}
}

// extents is where each shape reaches, and each anchor is, as text.
func extents(shapes []Shape) string { return extentsOf(shapes, 1) }

// mirrored is extents with left and right changed over.
func mirrored(shapes []Shape) string { return extentsOf(shapes, -1) }

func extentsOf(shapes []Shape, side float64) string {
	var lines []string
	flip := func(a Anchor) string {
		on := a.On
		if side < 0 {
			on = otherSide(on)
		}
		return fmt.Sprintf("%s %.4f %.4f %.4f", on, a.P[0], a.P[1]*side+0, a.P[2])
	}
	for _, s := range shapes {
		if r, ok := s.(Room); ok {
			s = r.Shape
		}
		switch s := s.(type) {
		case Bellows:
			lines = append(lines, flip(s.Top)+flip(s.Bottom))
			continue
		case Shaft:
			lines = append(lines, flip(s.Front)+flip(s.Rear))
			continue
		}
		m := newMeasure()
		m.reach(nil, s)
		y0, y1 := m.lo[1], m.hi[1]
		if side < 0 {
			y0, y1 = -y1, -y0
		}
		line := fmt.Sprintf("%.4f..%.4f %.4f..%.4f %.4f..%.4f", m.lo[0], m.hi[0], y0, y1, m.lo[2], m.hi[2])
		lines = append(lines, strings.ReplaceAll(line, "-0.0000", "0.0000"))
	}
	// Pieces may be listed from left to right: the order is no part of the form.
	sort.Strings(lines)
	return strings.Join(lines, "\n")
}
