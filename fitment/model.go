package fitment

import (
	"fmt"
	"slices"

	"scrubline/fitment/internal/gap"
	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/motion"
	"scrubline/fitment/internal/solid"
	"scrubline/scene"
)

// Model is a compiled document: solids, carriers and needs, ready to answer.
// It is never changed by an edit; an edit makes a new model with [Model.With].
// A model is not safe for use from several goroutines at once.
type Model struct {
	Doc *scene.Document
	// Variant is the id of the variant Doc was resolved for, to be said in reports.
	Variant string

	mover
	parts []*placed // in document order
	index map[string]int
	needs *needBook
	// verdicts are what the last check said of pairs: this model's, or that of the
	// one it was made from.
	verdicts map[[2]*placed]*verdict
	// elsewhere are those of another alternative, for what the two have in common.
	elsewhere map[[2]*placed]*verdict
	report    *Report
	groups    []Group        // the report's findings, gathered; nil: not yet
	lacking   *scene.Lacking // what is not measured; nil: not yet looked for
	running   *checking      // a check begun and not finished
	books     [endsCount]*ladderBook
	freed     [4]*Model // with suspensions that lock made plain guides, by the ends' bits
	free      [4]*Model // the same of the model this one was made from, to begin with

	// hulls are the faces of hulls, by their points.
	hulls map[*geom.Vec][]hullFace
}

// pairKey is a pair of compiled parts and what it was measured for. room picks
// the service rooms of a (against b) instead of the parts themselves.
type pairKey struct {
	a, b *placed
	need float64
	room bool
}

// Compile builds the model of a document. The document must be valid; an error
// names the part whose dimensions make no solid.
func Compile(doc *scene.Document) (*Model, error) { return build(doc, nil) }

// With is the model of an edited document. Answers about pairs whose parts,
// needs and travel are unchanged are kept, so that moving one part costs only
// that part's pairs.
func (m *Model) With(doc *scene.Document) (*Model, error) { return build(doc, m) }

func build(doc *scene.Document, old *Model) (*Model, error) {
	m := &Model{Doc: doc, index: make(map[string]int, len(doc.Parts))}
	if old != nil && sameChassis(doc, old.Doc) {
		m.mover, m.verdicts = old.mover, old.verdicts
		m.moves = newMoves(doc, m.ch)
		if slices.Equal(doc.Needs, old.Doc.Needs) && slices.Equal(doc.Joined, old.Doc.Joined) {
			m.needs = old.needs
		}
	} else {
		old = nil
		var err error
		if m.mover, err = newMover(doc); err != nil {
			return nil, err
		}
	}
	if m.needs == nil {
		m.needs = newNeedBook(doc)
	}
	m.takeFreed(old)
	for i := range doc.Parts {
		p := &doc.Parts[i]
		m.index[p.ID] = i
		if old != nil {
			if k, ok := old.index[p.ID]; ok && samePart(p, &old.Doc.Parts[k]) && sameCarrying(p, doc, old.Doc) {
				m.parts = append(m.parts, old.parts[k])
				continue
			}
		}
		c, err := lower(doc, p, m.ch)
		if err != nil {
			return nil, err
		}
		m.parts = append(m.parts, m.place(c))
	}
	return m, nil
}

func newChassis(v *scene.Vehicle) *motion.Chassis {
	end := func(e *scene.End) motion.End {
		return motion.End{Track: e.TrackMM, Loaded: e.Tyre.LoadedRadius(),
			FrameHeight: e.FrameHeightMM, Independent: e.Independent}
	}
	return motion.NewChassis(v.WheelbaseMM, end(&v.Front), end(&v.Rear))
}

// sameChassis says whether two documents have the same vehicle, travel and
// default tolerance, so that compiled parts can be shared.
func sameChassis(a, b *scene.Document) bool {
	return sameVehicle(&a.Vehicle, &b.Vehicle) && a.ToleranceMM == b.ToleranceMM && slices.Equal(a.Heights, b.Heights) &&
		slices.EqualFunc(a.Movements, b.Movements, func(m, n scene.Movement) bool {
			m.AtMM, m.Axis, m.Name = n.AtMM, n.Axis, n.Name // where it stands matters to what it carries only
			return m == n
		})
}

// sameCarrying says whether the movements that carry a part are the same in two
// documents of one chassis.
func sameCarrying(p *scene.Part, a, b *scene.Document) bool {
	for _, id := range p.Moves {
		m, n := a.MovementNamed(id), b.MovementNamed(id)
		if m == nil || n == nil || *m != *n {
			return false
		}
	}
	return true
}

// samePart says whether two parts are the same to the engine.
func samePart(a, b *scene.Part) bool {
	if a.ID != b.ID || a.Kind != b.Kind || a.Carrier != b.Carrier || a.AtMM != b.AtMM || a.TurnDeg != b.TurnDeg {
		return false
	}
	if !slices.Equal(a.Traits, b.Traits) || !slices.Equal(a.Moves, b.Moves) || len(a.Size) != len(b.Size) {
		return false
	}
	if (a.ToleranceMM == nil) != (b.ToleranceMM == nil) || a.ToleranceMM != nil && *a.ToleranceMM != *b.ToleranceMM {
		return false
	}
	for name, v := range a.Size {
		w, ok := b.Size[name]
		if !ok || v.Num != w.Num || v.Text != w.Text || v.Flag != w.Flag || len(v.Rows) != len(w.Rows) {
			return false
		}
		for i := range v.Rows {
			if !slices.Equal(v.Rows[i], w.Rows[i]) {
				return false
			}
		}
	}
	return true
}

// Travel is the range (mm from ride) the body moves in at each end.
func (m *Model) Travel() (frontLow, frontHigh, rearLow, rearHigh float64) {
	return m.box.lo[frontHeave], m.box.hi[frontHeave], m.box.lo[rearHeave], m.box.hi[rearHeave]
}

// GapBetween is the tape measure: the signed gap of two parts in one state,
// with the need that applies to them.
func (m *Model) GapBetween(a, b string, st State) (Gap, error) {
	i, ok := m.index[a]
	if !ok {
		return Gap{}, fmt.Errorf("there is no part with the id %q", a)
	}
	j, ok := m.index[b]
	if !ok {
		return Gap{}, fmt.Errorf("there is no part with the id %q", b)
	}
	if i == j {
		return Gap{}, fmt.Errorf("a gap needs two different parts; both are %q", a)
	}
	x, y := m.parts[i], m.parts[j]
	r, found := m.gapIn(x, y, false, st)
	if !found {
		return Gap{}, fmt.Errorf("%q or %q has nothing solid to measure", a, b)
	}
	g := Gap{A: a, B: b, At: st, GapMM: r.Gap, PointsMM: [2]scene.Vec{unvec(r.A), unvec(r.B)}}
	if !m.needs.joined[ordered(a, b)] {
		n := m.needs.between(x.compiled, y.compiled, m.moveApart(x, y))
		g.NeedMM, g.Source = n.mm, n.source
	}
	return g, nil
}

// gapIn is the least gap of two parts in one state; with room, of the first
// one's service rooms and the second one's solids.
func (m *Model) gapIn(x, y *placed, room bool, at State) (best gap.Result, found bool) {
	for i := range x.items {
		if (x.items[i].room != "") != room {
			continue
		}
		for j := range y.items {
			if y.items[j].room != "" {
				continue
			}
			for k := range x.items[i].solids {
				s := m.stand(&x.items[i], k, &at, &m.poses.solid[0])
				c, r := s.BoundingBall()
				for l := range y.items[j].solids {
					t := m.stand(&y.items[j], l, &at, &m.poses.solid[1])
					if found && apartBy(t, c, r) > best.Gap+geom.GapTol {
						continue
					}
					if g := gap.Between(s, t); !found || g.Gap < best.Gap {
						best, found = g, true
					}
				}
			}
		}
	}
	return best, found
}

// apartBy is no more than the gap of a solid and anything in a ball.
func apartBy(s *solid.Solid, centre geom.Vec, radius float64) float64 {
	c, r := s.BoundingBall()
	return c.Dist(centre) - r - radius
}

// moveApart says whether two parts move against each other in the travel.
func (m *Model) moveApart(x, y *placed) bool {
	for i := range x.items {
		for j := range y.items {
			if params, _, _ := m.relative(&x.items[i], &y.items[j]); len(params) > 0 {
				return true
			}
		}
	}
	return false
}

// CarrierOrigin is where a carrier's origin stands in body axes at ride: what
// a part's AtMM is measured from.
func (m *Model) CarrierOrigin(on scene.Carrier) scene.Vec {
	return unvec(m.ch.Origin(carrierOf[on]))
}

// WheelCentre is where a carrier's origin stands in one state: a wheel's
// centre, or the middle of an axle.
func (m *Model) WheelCentre(on scene.Carrier, st State) scene.Vec {
	c := carrierOf[on]
	pose := m.ch.Pose(c, st.motion())
	return unvec(pose.Apply(m.ch.Origin(c)))
}

// GroundPlane is the ground in one state as n·p + c = height over the ground,
// n a unit normal in body axes.
func (m *Model) GroundPlane(st State) (n scene.Vec, c float64) {
	normal, offset := m.ch.GroundPlane(st.motion())
	return unvec(normal), offset
}

// lowest is the lowest point of one item over the ground in a state.
func (m *Model) lowest(it *placedItem, st State, n geom.Vec, c float64) (height float64, at geom.Vec) {
	for i := range it.solids {
		s := m.solidAt(it, i, st)
		if p, h := s.Lowest(n); i == 0 || h+c < height {
			height, at = h+c, p
		}
	}
	return height, at
}
