package vehicles

import (
	"fmt"

	"scrubline/scene"
)

// add places one part of a kind where there is room for it. Where there is
// none, a smaller one is tried, then a small bracket on the body.
func (b *builder) add(name string) {
	for try := range 12 {
		if try >= 6 {
			name = "plate"
		}
		if p, ok := b.fit(name, try); ok {
			b.doc.Parts = append(b.doc.Parts, p)
			return
		}
	}
	b.doc.Parts = append(b.doc.Parts, b.aside())
}

func (b *builder) fit(name string, try int) (p scene.Part, ok bool) {
	k := scene.KindNamed(name)
	p = scene.Part{ID: fmt.Sprintf("p%d", len(b.doc.Parts)+1), Kind: name, Carrier: scene.Body, Size: b.size(k)}
	p.Name = k.Label + " " + p.ID
	if name == "air_spring" || name == "shock" {
		return p, b.hang(&p)
	}
	var origin scene.Vec
	up := 0.0
	if try < 3 && carries(k, scene.RearAxle) && b.Intn(4) == 0 {
		p.Carrier, origin, up = scene.RearAxle, scene.Vec{b.doc.Vehicle.WheelbaseMM, 0, axleZ}, travel
		if b.Intn(2) == 0 {
			p.Carrier, origin = scene.FrontAxle, scene.Vec{0, 0, axleZ}
		}
	}
	return p, b.settle(&p, origin, up)
}

// aside is a small part clear of everything, above the rest.
func (b *builder) aside() scene.Part {
	n := len(b.doc.Parts) + 1
	size := scene.KindNamed("box").DefaultSize()
	for _, f := range [3]string{"length_mm", "width_mm", "height_mm"} {
		size[f] = scene.Value{Num: 30}
	}
	id := fmt.Sprintf("p%d", n)
	return scene.Part{ID: id, Name: "Box " + id, Kind: "box", Carrier: scene.Body, Size: size,
		AtMM: scene.Vec{b.whole(0, b.doc.Vehicle.WheelbaseMM), 0, 700 + 40*float64(n)}}
}

func carries(k *scene.Kind, on scene.Carrier) bool {
	for _, c := range k.Carriers {
		if c == on {
			return true
		}
	}
	return false
}

// settle looks for a free place. up is how far the part moves against the body.
func (b *builder) settle(p *scene.Part, origin scene.Vec, up float64) bool {
	still := around(scene.KindNamed(p.Kind).Form(p.Size, &b.doc.Vehicle, p.Carrier))
	var at box
	for range 100 {
		if p.Kind == "box" || p.Kind == "cylinder" || p.Kind == "tube" || p.Kind == "plate" {
			p.TurnDeg = scene.Vec{0, 0, b.whole(-20, 20)}
		}
		own := still.turned(p.TurnDeg[2])
		where := b.somewhere(p, own)
		for i := range where {
			p.AtMM[i] = where[i] - origin[i]
			at[0][i], at[1][i] = own[0][i]+where[i]-4, own[1][i]+where[i]+4
		}
		at[0][2], at[1][2] = at[0][2]-up, at[1][2]+up
		if !b.hits(at) {
			b.take(at)
			return true
		}
	}
	return false
}

// somewhere is a place between the ends and sides of the vehicle; axles' parts
// keep to their half of it, floors lie on top.
func (b *builder) somewhere(p *scene.Part, own box) scene.Vec {
	v := &b.doc.Vehicle
	x0, x1 := -500*b.grow, v.WheelbaseMM+600*b.grow
	switch p.Carrier {
	case scene.FrontAxle:
		x1 = v.WheelbaseMM / 2
	case scene.RearAxle:
		x0 = v.WheelbaseMM / 2
	}
	half := v.Front.TrackMM / 2
	z := b.whole(-60, 330)
	switch p.Kind {
	case "floor_pan":
		z = 420
	case "rocker":
		z = 300
	}
	return scene.Vec{b.whole(x0, x1) - (own[0][0]+own[1][0])/2, b.whole(-half, half) - (own[0][1]+own[1][1])/2, z - (own[0][2]+own[1][2])/2}
}

// hang places a spring or shock between the body and an axle.
func (b *builder) hang(p *scene.Part) bool {
	v := &b.doc.Vehicle
	for range 100 {
		axle, x := "rear_axle", v.WheelbaseMM
		if b.Intn(2) == 0 {
			axle, x = "front_axle", 0
		}
		along, y := b.whole(-600, 600)*min(b.grow, 1), b.whole(-0.42, 0.42*v.Front.TrackMM)
		if b.Intn(2) == 0 {
			y = -y
		}
		long := b.whole(195, 230) // so that a spring keeps 80 mm aired out and rolled
		if p.Kind == "shock" {
			long = b.whole(280, 360)
		}
		p.AtMM = scene.Vec{x + along, y, axleZ + 60 + long}
		p.Size["lower_on"] = scene.Value{Text: axle}
		p.Size["lower_x_mm"] = scene.Value{Num: along}
		p.Size["lower_y_mm"] = scene.Value{Num: y}
		p.Size["lower_z_mm"] = scene.Value{Num: 60}
		r := 95.0
		if p.Kind == "shock" {
			r = p.Size.Num("diameter_mm") / 2
		}
		at := box{{p.AtMM[0] - r, y - r, axleZ - 60}, {p.AtMM[0] + r, y + r, p.AtMM[2] + 20}}
		if !b.hits(at) {
			b.take(at)
			return true
		}
	}
	return false
}

// size is the kind's own dimensions, made smaller by up to a half.
func (b *builder) size(k *scene.Kind) scene.Size {
	size := k.DefaultSize()
	switch k.Name {
	case "box":
		return b.nums(size, map[string][2]float64{"length_mm": {50, 300}, "width_mm": {40, 200}, "height_mm": {30, 120}})
	case "cylinder", "tube":
		size["lies"] = scene.Value{Text: []string{"along", "across", "upright"}[b.Intn(3)]}
		return b.nums(size, map[string][2]float64{"diameter_mm": {25, 110}, "length_mm": {80, 350}})
	case "plate":
		return b.nums(size, map[string][2]float64{"length_mm": {60, 260}, "width_mm": {50, 180}, "thick_mm": {3, 12}})
	case "exhaust_run":
		size["mufflers"] = scene.Value{}
		fallthrough
	case "brake_line", "fuel_line", "air_line", "wiring":
		size["vertices"] = scene.Value{Rows: b.run()}
		return size
	}
	by := b.in(0.5, 0.8)
	small := size.Clone()
	for _, f := range k.Fields {
		if f.Type == scene.Length {
			small[f.Name] = scene.Value{Num: min(max(size.Num(f.Name)*by, f.Min), f.Max)}
		}
	}
	if k.Check != nil && k.Check(small) != nil {
		return size
	}
	return small
}

func (b *builder) nums(size scene.Size, of map[string][2]float64) scene.Size {
	for _, f := range scene.KindNamed("box").Fields {
		if r, ok := of[f.Name]; ok {
			size[f.Name] = scene.Value{Num: b.whole(r[0], r[1])}
		}
	}
	for _, name := range [2]string{"diameter_mm", "thick_mm"} {
		if r, ok := of[name]; ok {
			size[name] = scene.Value{Num: b.whole(r[0], r[1])}
		}
	}
	return size
}

// run is a bent line of three or four legs, each long enough for its bends.
func (b *builder) run() []scene.Row {
	const bend = 60
	rows := []scene.Row{{0, 0, 0, 0}}
	x, y, z := 0.0, 0.0, 0.0
	for leg := range 3 + b.Intn(2) {
		switch leg % 2 {
		case 0:
			x += b.whole(140, 300)
		default:
			y += b.whole(130, 260) * float64(1-2*b.Intn(2))
			z += b.whole(-30, 30)
		}
		rows = append(rows, scene.Row{x, y, z, bend})
	}
	rows[len(rows)-1][3] = 0
	return rows
}
