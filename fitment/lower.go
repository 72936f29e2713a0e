package fitment

import (
	"fmt"
	"math"
	"sort"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/motion"
	"scrubline/fitment/internal/solid"
	"scrubline/scene"
)

// compiled is one part as solids. It is built once and shared by every model
// in which the part, the vehicle and the traits are the same.
type compiled struct {
	part   scene.Part
	traits []scene.Trait
	tolMM  float64
	items  []item // the part itself first, its service rooms last
}

// item is a group of solids that move as one.
type item struct {
	room   string // what this room is for; empty: the part itself
	on     motion.Carrier
	moves  []int         // movements that carry it, innermost first
	solids []solid.Solid // body axes at ride
	bores  []solid.Solid // hollows, drawn only
	link   *link         // set: one solid hung between two carriers, rebuilt in every state
}

// lowerer turns one part's shapes into items.
type lowerer struct {
	chassis *motion.Chassis
	turn    geom.Mat
	at      geom.Vec
	on      motion.Carrier
}

var carrierOf = map[scene.Carrier]motion.Carrier{
	scene.Body: motion.Body, scene.FrontAxle: motion.FrontAxle, scene.RearAxle: motion.RearAxle,
	scene.WheelFL: motion.WheelFL, scene.WheelFR: motion.WheelFR,
	scene.WheelRL: motion.WheelRL, scene.WheelRR: motion.WheelRR, scene.Ground: motion.Ground,
}

const degree = math.Pi / 180

// lower builds a part's solids. An error names the part and what is wrong
// with its shape; a document that validates gives none.
func lower(doc *scene.Document, part *scene.Part, ch *motion.Chassis) (*compiled, error) {
	kind := scene.KindNamed(part.Kind)
	if kind == nil {
		return nil, fmt.Errorf("part %s: unknown kind %q", part.ID, part.Kind)
	}
	c := &compiled{part: *part, traits: scene.TraitsOf(part), tolMM: doc.ToleranceMM}
	if part.ToleranceMM != nil {
		c.tolMM = *part.ToleranceMM
	}
	on := carrierOf[part.Carrier]
	l := &lowerer{chassis: ch, on: on,
		turn: geom.Turn(part.TurnDeg[0]*degree, part.TurnDeg[1]*degree, part.TurnDeg[2]*degree),
		at:   ch.Origin(on).Add(vec(part.AtMM))}
	own := item{on: on}
	for _, sh := range kind.Form(part.Size, &doc.Vehicle, part.Carrier) {
		if err := l.add(c, &own, sh); err != nil {
			return nil, fmt.Errorf("part %s: %w", part.ID, err)
		}
	}
	if len(own.solids) > 0 {
		c.items = append([]item{own}, c.items...)
	}
	for i := range c.items {
		if c.items[i].link == nil {
			c.items[i].moves = movesOf(doc, part)
		}
	}
	sort.SliceStable(c.items, func(i, j int) bool { return c.items[i].room == "" && c.items[j].room != "" })
	return c, nil
}

// add puts a shape where it belongs: linked shapes and rooms are items of
// their own, everything else joins the part's own item.
func (l *lowerer) add(c *compiled, own *item, sh scene.Shape) error {
	switch s := sh.(type) {
	case scene.Bellows:
		k := l.bellows(s)
		c.items = append(c.items, item{on: motion.Body, link: k, solids: []solid.Solid{k.atRide()}})
		return nil
	case scene.Shaft:
		k := l.shaft(s)
		k.bar = c.part.Kind == barKind
		c.items = append(c.items, item{on: motion.Body, link: k, solids: []solid.Solid{k.atRide()}})
		return nil
	case scene.Room:
		room := item{on: l.on, room: s.For}
		solids, err := l.solids(s.Shape)
		room.solids = solids
		c.items = append(c.items, room)
		return err
	}
	solids, err := l.solids(sh)
	own.solids = append(own.solids, solids...)
	if err != nil {
		return err
	}
	bores, err := l.bores(sh)
	own.bores = append(own.bores, bores...)
	return err
}

// bores is the hollow of a tube: the same shape at the bore's radius. It is
// drawn where the section cuts it, and is never free room.
func (l *lowerer) bores(sh scene.Shape) ([]solid.Solid, error) {
	switch s := sh.(type) {
	case scene.Cylinder:
		if s.BoreRadius > 0 {
			return l.solids(scene.Cylinder{From: s.From, To: s.To, Radius: s.BoreRadius})
		}
	case scene.Run:
		if s.BoreRadius > 0 {
			return l.solids(scene.Run{Vertices: s.Vertices, Radius: s.BoreRadius})
		}
	}
	return nil, nil
}

// solids places one plain shape in body axes at ride.
func (l *lowerer) solids(sh scene.Shape) ([]solid.Solid, error) {
	one := func(s solid.Solid, err error) ([]solid.Solid, error) {
		if err != nil {
			return nil, err
		}
		return []solid.Solid{s}, nil
	}
	switch s := sh.(type) {
	case scene.Box:
		return one(solid.NewBox(l.place(s.Center), vec(s.Size), l.turn, s.Round))
	case scene.Hull:
		pts := make([]geom.Vec, len(s.Points))
		for i, p := range s.Points {
			pts[i] = l.place(p)
		}
		return one(solid.NewHull(pts, 0))
	case scene.Cylinder:
		return one(solid.NewCylinder(l.place(s.From), l.place(s.To), s.Radius, s.Round))
	case scene.Capsule:
		return one(solid.NewCapsule(l.place(s.From), l.place(s.To), s.Radius))
	case scene.Run:
		return l.run(s)
	}
	return nil, fmt.Errorf("a shape of type %T cannot be placed here", sh)
}

// place carries a point from the part's own axes to body axes at ride.
func (l *lowerer) place(p scene.Vec) geom.Vec {
	return l.turn.Apply(vec(p)).Add(l.at)
}

// anchor is where an anchor stands in body axes at ride, and what carries it.
func (l *lowerer) anchor(a scene.Anchor) (motion.Carrier, geom.Vec) {
	if a.On == "" {
		return l.on, l.at.Add(vec(a.P))
	}
	on := carrierOf[a.On]
	return on, l.chassis.Origin(on).Add(vec(a.P))
}

func vec(v scene.Vec) geom.Vec   { return geom.V(v[0], v[1], v[2]) }
func unvec(v geom.Vec) scene.Vec { return scene.Vec{v.X, v.Y, v.Z} }
