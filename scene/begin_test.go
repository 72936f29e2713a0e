package scene

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// measuredVan is all questions answered: invented dimensions.
var measuredVan = Answers{
	AskWheelbase: `118 1/2"`, AskFrontTyre: "235/75R15", AskRearSame: OtherTyre, AskRearTyre: `29 1/4"`,
	AskFrontFrame: "8 3/4", AskRearFrame: "9 1/8", AskRailOver: `34"`, AskRailDepth: "127 mm",
	AskFrontAxle: AxleNone, AskFrontHold: DoubleWishbone, AskRearAxle: AxleLive, AskRearHold: FourLinkPanhard,
	AskFrontDown: "4", AskRearDown: "5", AskFrontUp: "2 1/2", AskRearUp: "3",
}

func TestBeginPutsEveryAnswerWhereItBelongs(t *testing.T) {
	b := Begin(measuredVan, Inches)
	if err := b.Doc.Validate(); err != nil || len(b.Faults) > 0 {
		t.Fatal(err, b.Faults)
	}
	v := &b.Doc.Vehicle
	near := func(what string, got, wantIn float64) {
		t.Helper()
		if math.Abs(got-wantIn*25.4) > 1e-6 { // an inch is 25.4 mm by definition
			t.Errorf("%s: %v, want %v", what, got, wantIn*25.4)
		}
	}
	near("wheelbase", v.WheelbaseMM, 118.5)
	// 15·25.4 + 2·235·0.75: the size code's own definition (ETRTO, TRA).
	if got := v.Front.Tyre.Outer(); math.Abs(got-733.5) > 1e-9 {
		t.Errorf("front tyre: %v", got)
	}
	near("rear tyre", v.Rear.Tyre.Outer(), 29.25)
	near("front frame height", v.Front.FrameHeightMM, 8.75)
	near("rear frame height", v.Rear.FrameHeightMM, 9.125)
	lo, hi := newMeasure(), newMeasure()
	for _, p := range b.Doc.Parts {
		if p.ID == "left-frame-rail" {
			for _, s := range KindNamed(p.Kind).Form(p.Size, v, p.Carrier) {
				lo.reach(t, s)
			}
			near("outside left", p.AtMM[1]+lo.lo[1], -17)
		}
		if p.ID == "right-frame-rail" {
			for _, s := range KindNamed(p.Kind).Form(p.Size, v, p.Carrier) {
				hi.reach(t, s)
			}
			near("outside right", p.AtMM[1]+hi.hi[1], 17)
			if p.Size.Num("depth_mm") != 127 {
				t.Errorf("depth %v", p.Size.Num("depth_mm"))
			}
		}
	}
	if !v.Front.Independent || v.Front.Form().Name != DoubleWishbone || v.Rear.Independent || v.Rear.Form().Name != FourLinkPanhard {
		t.Errorf("%+v", v)
	}
	for i, want := range [3][2]float64{{-4, -5}, {0, 0}, {2.5, 3}} {
		near("front "+b.Doc.Heights[i].ID, b.Doc.Heights[i].FrontMM, want[0])
		near("rear "+b.Doc.Heights[i].ID, b.Doc.Heights[i].RearMM, want[1])
	}
	if i, _ := b.Doc.partAt("front-axle"); i != 0 {
		t.Error("wheels that move by themselves have no axle")
	}
}

// What is answered is measured, what is not is listed, and nothing else of the
// questions.
func TestBeginListsWhatWasNotAnswered(t *testing.T) {
	asked := map[string][]string{
		AskWheelbase:  {"vehicle/wheelbase_mm"},
		AskFrontTyre:  {"vehicle/front/tyre", "vehicle/rear/tyre"}, // the rear's is the same unless said otherwise
		AskFrontFrame: {"vehicle/front/frame_height_mm"}, AskRearFrame: {"vehicle/rear/frame_height_mm"},
		AskRailOver:  {"part:left-frame-rail/at_mm/1", "part:right-frame-rail/at_mm/1"},
		AskRailDepth: {"part:left-frame-rail/size/depth_mm", "part:right-frame-rail/size/depth_mm"},
		AskFrontAxle: {"vehicle/front/independent", "part:front-axle/size/style"}, AskRearAxle: {"vehicle/rear/independent", "part:rear-axle/size/style"},
		AskFrontHold: {"vehicle/front/suspension/kind"}, AskRearHold: {"vehicle/rear/suspension/kind"},
		AskFrontDown: {"height:aired_out/front_mm"}, AskRearDown: {"height:aired_out/rear_mm"},
		AskFrontUp: {"height:aired_up/front_mm"}, AskRearUp: {"height:aired_up/rear_mm"},
	}
	full := Answers{AskWheelbase: "3000", AskFrontTyre: "225/45R17", AskRearSame: SameTyre, AskFrontFrame: "200", AskRearFrame: "210",
		AskRailOver: "860", AskRailDepth: "100", AskFrontAxle: AxleBeam, AskFrontHold: LeafSprings, AskRearAxle: AxleLive, AskRearHold: LeafSprings,
		AskFrontDown: "90", AskRearDown: "95", AskFrontUp: "60", AskRearUp: "65"}
	all := Begin(full, Millimetres).Doc
	for ask, want := range asked {
		for _, key := range want {
			if all.listed(key) {
				t.Errorf("%s was answered, and %s is listed", ask, key)
			}
		}
		less := Answers{}
		for k, v := range full {
			if k != ask {
				less[k] = v
			}
		}
		doc := Begin(less, Millimetres).Doc
		for _, key := range want {
			if !contains(keys(doc), key) {
				t.Errorf("%s was not answered, and %s is not listed", ask, key)
			}
		}
	}
	for _, key := range []string{"vehicle/front/track_mm", "vehicle/rear/suspension/bars", "part:rear-axle/size/tube_mm", "part:left-frame-rail/size/width_mm"} {
		if !all.listed(key) {
			t.Errorf("%s was never asked, and is not listed", key)
		}
	}
	// A plain diameter tells neither width nor rim.
	if doc := Begin(Answers{AskFrontTyre: "650"}, Millimetres).Doc; !doc.listed("vehicle/front/tyre/width_mm") || doc.listed("vehicle/front/tyre/diameter_mm") {
		t.Error(doc.Unmeasured)
	}
	// The guide taken on purpose is still a suspension that is not measured.
	if doc := Begin(Answers{AskRearHold: Guide}, Millimetres).Doc; !doc.listed("vehicle/rear/suspension/kind") {
		t.Error(doc.Unmeasured)
	}
}

func TestBeginSaysWhatIsWrongAtTheQuestion(t *testing.T) {
	for _, c := range []struct {
		show      Units
		ask, text string
		says      string
	}{
		{Millimetres, AskWheelbase, "long", "Type a length such as"},
		{Millimetres, AskWheelbase, "12 3/8", "A fraction needs its unit"},
		{Millimetres, AskWheelbase, "400", "The wheelbase must be from 500 to 10000 mm."},
		{Inches, AskWheelbase, "9", `from 19 11/16 to 393 11/16 in.`},
		{Inches, AskFrontTyre, "225/45", "Type all of the size on its side"},
		{Inches, AskFrontTyre, "wide", "Type the size on its side"},
		{Inches, AskFrontTyre, "6.50-16", "6.50-16 does not say how high the tyre stands: measure it across"},
		{Inches, AskFrontTyre, "9", "A tyre's diameter is from 9 13/16"},
		{Millimetres, AskRearFrame, "1000", "differ by a fifth"},
		{Millimetres, AskRailDepth, "-4", "The rails' depth must be from"},
		{Millimetres, AskRearUp, "2 m", "How far it goes up must be from"},
	} {
		b := Begin(Answers{c.ask: c.text}, c.show)
		if !strings.Contains(b.Faults[c.ask], c.says) || len(b.Faults) != 1 {
			t.Errorf("%s %q: %v, want %q", c.ask, c.text, b.Faults, c.says)
		}
		if err := b.Doc.Validate(); err != nil {
			t.Errorf("the default holds there: %v", err)
		}
		if b.Given[c.ask] {
			t.Error("a wrong answer is none")
		}
	}
}

// Whatever is answered, in any mixture, a valid vehicle comes out whose file
// reads back as it was, and whose list has every question not answered.
func TestBeginAlwaysMakesAVehicle(t *testing.T) {
	asks := []string{AskWheelbase, AskFrontTyre, AskRearTyre, AskFrontFrame, AskRearFrame, AskRailOver, AskRailDepth, AskFrontDown, AskRearDown, AskFrontUp, AskRearUp}
	good := 0
	rapid.Check(t, func(t *rapid.T) {
		a := Answers{AskRearSame: rapid.SampledFrom([]string{"", SameTyre, OtherTyre, "?"}).Draw(t, "same")}
		wild := rapid.Bool().Draw(t, "wild")
		for _, ask := range asks {
			if !wild {
				a[ask] = rapid.SampledFrom([]string{"", "500 mm", "500", "19 11/16 in"}).Draw(t, ask)
				continue
			}
			a[ask] = rapid.OneOf(
				rapid.SampledFrom([]string{"", "", "12 3/8", "LT265/70R17", "28 in", "1' 2\"", "nothing", "-5"}),
				rapid.Custom(func(t *rapid.T) string { return number(rapid.Float64Range(0, 13000).Draw(t, "mm")) + " mm" }),
				rapid.Custom(func(t *rapid.T) string { return number(rapid.Float64Range(10, 900).Draw(t, "mm")) + " mm" }),
			).Draw(t, ask)
		}
		for _, end := range [2]string{"front", "rear"} {
			a[end+"_axle"] = rapid.SampledFrom([]string{"", AxleBeam, AxleLive, AxleNone}).Draw(t, "axle")
			a[end+"_hold"] = rapid.SampledFrom(suspensionKinds).Draw(t, "hold").Name
		}
		b := Begin(a, rapid.SampledFrom([]Units{Millimetres, Inches}).Draw(t, "show"))
		fixedPoint(t, b.Doc)
		again, err := Decode(Encode(b.Doc))
		if err != nil || !reflect.DeepEqual(again, b.Doc) {
			t.Fatalf("opened, it is another vehicle: %v", err)
		}
		if len(b.Doc.NotMeasured()) < 10 {
			t.Fatal("tracks, widths and lengths are never asked")
		}
		if len(b.Faults) == 0 {
			good++
		}
	})
	if good < 10 {
		t.Errorf("only %d mixtures were without a fault", good)
	}
}
