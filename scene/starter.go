package scene

// New is the document a fresh start shows: a bare ladder frame on its wheels.
// Every number in it is an assumption to be measured over, and its note says so.
func New() *Document {
	doc := &Document{
		Format: Format, Version: Version,
		Name:        "New vehicle",
		Note:        "Every number here is assumed. Measure your own vehicle and put its numbers in.",
		Show:        Inches,
		ToleranceMM: DefaultToleranceMM,
		Vehicle: Vehicle{
			WheelbaseMM: 2950,
			Front:       starterEnd(1480, 30),
			Rear:        starterEnd(1460, 0),
		},
		Heights: []Height{
			{ID: AiredOut, Name: heightName(AiredOut), FrontMM: -90, RearMM: -90},
			{ID: Ride, Name: heightName(Ride)},
			{ID: AiredUp, Name: heightName(AiredUp), FrontMM: 70, RearMM: 70},
		},
	}
	starterFrame(doc)
	starterRunningGear(doc)
	return doc
}

func starterEnd(track, steer float64) End {
	tyre, err := ParseTyre("225/45R17")
	if err != nil {
		tyre = Tyre{DiameterMM: 634.3, WidthMM: 225, RimMM: 431.8}
	}
	tyre.DeflectionMM = 12
	return End{TrackMM: track, Tyre: tyre, FrameHeightMM: 200, SteerDeg: steer}
}

// starterPart adds a part of a kind at its default size and returns its size
// for changes.
func starterPart(doc *Document, id, name, kind string, on Carrier, at Vec) Size {
	p := Part{ID: id, Name: name, Kind: kind, Carrier: on, AtMM: at, Size: KindNamed(kind).DefaultSize()}
	doc.Parts = append(doc.Parts, p)
	return p.Size
}

// starterFrame is two rails, raised over both axles so that the axles clear
// them aired out.
func starterFrame(doc *Document) {
	for _, side := range []struct {
		id, name string
		y        float64
	}{{"left-frame-rail", "Left frame rail", -400}, {"right-frame-rail", "Right frame rail", 400}} {
		s := starterPart(doc, side.id, side.name, "frame_rail", Body, Vec{-550, side.y, 0})
		s["width_mm"], s["depth_mm"], s["length_mm"] = Value{Num: 60}, Value{Num: 100}, Value{Num: 4600}
		s["profile"] = Value{Rows: []Row{{950, 200}, {1250, 0}, {3000, 0}, {3250, 270}, {3800, 270}, {4050, 180}}}
		s["notch_station_mm"] = Value{Num: 3500}
	}
}

func starterRunningGear(doc *Document) {
	front := starterPart(doc, "front-axle", "Front axle", "axle", FrontAxle, Vec{})
	front["style"] = Value{Text: "beam"}
	front["tube_mm"], front["length_mm"], front["beam_drop_mm"] = Value{Num: 70}, Value{Num: 1380}, Value{Num: 60}
	rear := starterPart(doc, "rear-axle", "Rear axle", "axle", RearAxle, Vec{})
	rear["length_mm"], rear["housing_mm"] = Value{Num: 1340}, Value{Num: 250}
	for _, w := range []struct {
		on             Carrier
		id, name, axle string
	}{
		{WheelFL, "front-left-wheel", "Front left wheel", "front-axle"},
		{WheelFR, "front-right-wheel", "Front right wheel", "front-axle"},
		{WheelRL, "rear-left-wheel", "Rear left wheel", "rear-axle"},
		{WheelRR, "rear-right-wheel", "Rear right wheel", "rear-axle"},
	} {
		starterPart(doc, w.id, w.name, "wheel", w.on, Vec{})
		doc.Joined = append(doc.Joined, Joined{A: w.axle, B: w.id, Why: "bolted to its flange"})
	}
	shaft := starterPart(doc, "driveshaft", "Driveshaft", "driveshaft", Body, Vec{1350, 0, 90})
	shaft["diameter_mm"] = Value{Num: 76}
	shaft["rear_z_mm"] = Value{Num: -9}
	doc.Joined = append(doc.Joined, Joined{A: "rear-axle", B: "driveshaft", Why: "joint on the pinion"})
}
