package scene

import "math"

// runningGear adds the axles, the wheels and the shaft to a live rear axle.
func (b *begin) runningGear() {
	doc := b.Doc
	b.axle("front-axle", "Front axle", FrontAxle, AskFrontAxle, &doc.Vehicle.Front)
	b.axle("rear-axle", "Rear axle", RearAxle, AskRearAxle, &doc.Vehicle.Rear)
	for _, w := range []struct {
		on             Carrier
		id, name, axle string
		e              *End
	}{
		{WheelFL, "front-left-wheel", "Front left wheel", "front-axle", &doc.Vehicle.Front},
		{WheelFR, "front-right-wheel", "Front right wheel", "front-axle", &doc.Vehicle.Front},
		{WheelRL, "rear-left-wheel", "Rear left wheel", "rear-axle", &doc.Vehicle.Rear},
		{WheelRR, "rear-right-wheel", "Rear right wheel", "rear-axle", &doc.Vehicle.Rear},
	} {
		starterPart(doc, w.id, w.name, "wheel", w.on, Vec{})
		if !w.e.Independent {
			doc.Joined = append(doc.Joined, Joined{A: w.axle, B: w.id, Why: "bolted to its flange"})
		}
	}
	if b.Chosen[AskRearAxle] == AxleLive {
		b.shaft()
	}
}

// axle adds an axle of the kind that was chosen, a little shorter than the
// track, as the starter's.
func (b *begin) axle(id, name string, on Carrier, ask string, e *End) {
	style := b.Chosen[ask]
	if style == AxleNone {
		return
	}
	s := starterPart(b.Doc, id, name, "axle", on, Vec{})
	s["style"] = Value{Text: style}
	s["length_mm"] = Value{Num: e.TrackMM - 120}
	if style == AxleBeam {
		s["tube_mm"], s["beam_drop_mm"], s["length_mm"] = Value{Num: 70}, Value{Num: 60}, Value{Num: e.TrackMM - 100}
	} else {
		s["housing_mm"] = Value{Num: 250}
	}
	b.given(ask, "part:"+id+"/size/style")
}

// shaft adds the driveshaft from a gearbox that is assumed a little before the
// middle of the wheelbase to the pinion; none where that leaves it no room.
func (b *begin) shaft() {
	doc := b.Doc
	front := math.Round(0.0458*doc.Vehicle.WheelbaseMM) * 10
	s := starterPart(doc, "driveshaft", "Driveshaft", "driveshaft", Body, Vec{front, 0, 90})
	s["diameter_mm"], s["rear_z_mm"] = Value{Num: 76}, Value{Num: -9}
	if doc.Vehicle.WheelbaseMM-300-front < 200 {
		doc.Parts = doc.Parts[:len(doc.Parts)-1]
		return
	}
	doc.Joined = append(doc.Joined, Joined{A: "rear-axle", B: "driveshaft", Why: "joint on the pinion"})
	b.list(placeKeys(&doc.Parts[len(doc.Parts)-1])...)
}

// rails adds the two rails, raised over each axle so far that the axle clears
// them aired out. Where a rail cannot be bent so, its kick-ups are lower.
func (b *begin) rails() {
	over := b.length(AskRailOver, "the width over both rails", 200, 2500, 860)
	depth := b.length(AskRailDepth, "the rails' depth", 20, 500, 100)
	front := b.kick(&b.Doc.Vehicle.Front, FrontAxle, AskFrontAxle, AskFrontDown, over)
	rear := b.kick(&b.Doc.Vehicle.Rear, RearAxle, AskRearAxle, AskRearDown, over)
	var parts []Part
	for _, side := range []struct {
		id, name string
		way      float64
	}{{"left-frame-rail", "Left frame rail", -1}, {"right-frame-rail", "Right frame rail", 1}} {
		p := Part{ID: side.id, Name: side.name, Kind: "frame_rail", Carrier: Body,
			AtMM: Vec{-beginAhead, side.way * (over - beginRailWide) / 2, 0}, Size: KindNamed("frame_rail").DefaultSize()}
		p.Size["width_mm"], p.Size["depth_mm"] = Value{Num: beginRailWide}, Value{Num: depth}
		p.Size["length_mm"] = Value{Num: beginAhead + b.Doc.Vehicle.WheelbaseMM + beginBehind}
		p.Size["notch_station_mm"] = Value{Num: beginAhead + b.Doc.Vehicle.WheelbaseMM}
		for _, most := range [...]float64{math.Inf(1), 400, 200, 0} {
			p.Size["profile"] = Value{Rows: beginProfile(b.Doc.Vehicle.WheelbaseMM, min(front, most), min(rear, most))}
			if validPart(&p) == nil {
				break
			}
		}
		parts = append(parts, p)
		if b.given(AskRailDepth) {
			b.measured["part:"+p.ID+"/size/depth_mm"] = true
		}
		b.list("part:" + p.ID + "/at_mm/0")
		b.given(AskRailOver, "part:"+p.ID+"/at_mm/1")
	}
	b.Doc.Parts = append(parts, b.Doc.Parts...)
}

// kick is how far a rail's underside has to stand above the frame datum over an
// axle, rounded up to 5 mm; 0 where no axle passes below it.
func (b *begin) kick(e *End, on Carrier, askAxle, askDown string, over float64) float64 {
	style := b.Chosen[askAxle]
	if style == AxleNone {
		return 0
	}
	top := 38.0 // half a live axle's tube
	if style == AxleBeam {
		top = 35
		if half := (e.TrackMM - 100) / 2; over/2 < half-120-70 {
			top -= 60 // the beam passes dropped
		}
	}
	up := b.Doc.Vehicle.origin(on)[2] + top + b.MM[askDown] + beginClear
	return max(0, math.Ceil(up/5)*5)
}

// beginProfile is a rail's underside: level at front over the front axle, at
// rear over the rear one and somewhat lower behind it, with ramps between them
// and the straight run. A short wheelbase has shorter ramps.
func beginProfile(wheelbase, front, rear float64) []Row {
	s := min(1, wheelbase/1500)
	at := func(mm float64) float64 { return math.Round(beginAhead + mm) }
	var rows []Row
	if front >= 1 {
		rows = append(rows, Row{at(400 * s), front}, Row{at(700 * s), 0})
	}
	if rear >= 1 {
		rows = append(rows, Row{at(wheelbase - 500*s), 0}, Row{at(wheelbase - 250*s), rear},
			Row{at(wheelbase + 300), rear}, Row{at(wheelbase + 550), math.Round(rear * 2 / 3)})
	}
	return rows
}
