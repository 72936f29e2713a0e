package fitment

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"scrubline/scene"
)

// randomScene is one end of a vehicle full of parts on the body and on what
// moves there, with roll or steer, close enough together that many touch.
func randomScene(t *rapid.T) *scene.Document {
	doc := bench()
	rear := rapid.Bool().Draw(t, "rear")
	doc.Vehicle.Front.SteerDeg = 20
	doc.Vehicle.Rear.CrossMM = float64(rapid.IntRange(0, 1).Draw(t, "cross") * 40)
	if rapid.Bool().Draw(t, "on a suspension") { // a share of the scenes for each kind
		kinds := scene.SuspensionKinds()[1:]
		hang(doc, "front", rapid.SampledFrom(kinds).Draw(t, "front").Name)
		hang(doc, "rear", rapid.SampledFrom(kinds).Draw(t, "back").Name)
		doc.Vehicle.Front.CrossMM = float64(rapid.IntRange(0, 1).Draw(t, "front cross") * 40)
	}
	coord := rapid.Float64Range(-450, 450)
	n := rapid.IntRange(2, 5).Draw(t, "parts")
	for i := 0; i < n; i++ {
		doc.Parts = append(doc.Parts, randomPart(t, fmt.Sprintf("p%d", i),
			scene.Vec{coord.Draw(t, "x"), coord.Draw(t, "y"), coord.Draw(t, "z") / 2}, rear))
	}
	return doc
}

func randomPart(t *rapid.T, id string, at scene.Vec, rear bool) scene.Part {
	carriers := []scene.Carrier{scene.Body, scene.FrontAxle, scene.WheelFL}
	if rear {
		carriers = []scene.Carrier{scene.Body, scene.RearAxle, scene.WheelRL}
	}
	on := rapid.SampledFrom(carriers).Draw(t, "carrier")
	if rear && on == scene.Body {
		at[0] += 3000
	}
	size := rapid.Float64Range(20, 300)
	turn := rapid.Float64Range(-90, 90)
	var p scene.Part
	switch rapid.IntRange(0, 3).Draw(t, "kind") {
	case 0:
		p = block(id, on, at, size.Draw(t, "l"), size.Draw(t, "w"), size.Draw(t, "h"))
	case 1:
		p = part(id, "cylinder", on, at, map[string]float64{"diameter_mm": size.Draw(t, "d"), "length_mm": size.Draw(t, "l")})
	case 2:
		if on != scene.Body && rear {
			at[0] += 3000
		}
		at[2] = 260 + at[2]/8 // a spring that stands, and keeps some length at full drop
		p = part(id, "air_spring", scene.Body, at, nil)
		p.Size["lower_x_mm"] = scene.Value{Num: rapid.Float64Range(-60, 60).Draw(t, "lx") + at[0]}
		p.Size["lower_on"] = scene.Value{Text: "front_axle"}
		if rear {
			p.Size["lower_x_mm"] = scene.Value{Num: p.Size.Num("lower_x_mm") - 3000}
			p.Size["lower_on"] = scene.Value{Text: "rear_axle"}
		}
		p.Size["lower_y_mm"] = scene.Value{Num: at[1] + 30}
		return p
	default:
		p = part(id, "exhaust_run", on, at, map[string]float64{"tube_mm": 60})
		p.Size["vertices"] = scene.Value{Rows: []scene.Row{{0, 0, 0, 0}, {300, 0, 0, 100}, {300, 250, 60, 0}}}
	}
	p.TurnDeg = scene.Vec{turn.Draw(t, "roll"), turn.Draw(t, "pitch"), turn.Draw(t, "yaw")}
	return p
}

// deepMM: how deep an overlap is that runs through the middle of a part may be
// given up as undecided when many movements reach it. No real mend asks for it
// to the tenth.
const deepMM = -30

// The certified bound against sampled states: no state has a gap below it, and
// a pair without a finding never falls short. The mix is asserted, so that the
// test cannot become empty.
func TestBoundAgainstSampling(t *testing.T) {
	found, pairs, open := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		doc := randomScene(t)
		hung := doc.Vehicle.Front.Suspension != nil
		m, err := Compile(doc)
		require.NoError(t, err)
		r := m.Check()
		deep := 0
		byPair := map[[2]string]*Finding{}
		for i := range r.Findings {
			f := &r.Findings[i]
			byPair[[2]string{f.A, f.B}] = f
			g, err := m.GapBetween(f.A, f.B, f.At)
			require.NoError(t, err)
			require.InDelta(t, g.GapMM, f.GapMM, near, "the reported state has the reported gap")
			require.LessOrEqual(t, f.BoundMM, f.GapMM)
			if f.GapMM < deepMM {
				deep++
				continue
			}
			if hung && f.GapMM-f.BoundMM > 0.1+near {
				continue // undecided: counted below
			}
			require.LessOrEqual(t, f.GapMM-f.BoundMM, 0.1+near)
		}
		if hung {
			open += max(0, r.Summary.Undecided-deep)
		} else {
			require.LessOrEqual(t, r.Summary.Undecided, deep, "only what is deep inside another part may be given up")
		}
		pairs += r.Summary.Pairs
		found += len(r.Findings)
		for k := 0; k < 25; k++ {
			st := sampledState(m, k)
			for i := range doc.Parts {
				for j := i + 1; j < len(doc.Parts); j++ {
					a, b := doc.Parts[i].ID, doc.Parts[j].ID
					g, err := m.GapBetween(a, b, st)
					require.NoError(t, err)
					if f := byPair[[2]string{a, b}]; f != nil {
						require.GreaterOrEqual(t, g.GapMM, f.BoundMM-near, "%s %s at %+v", a, b, st)
					} else {
						require.GreaterOrEqual(t, g.GapMM, g.NeedMM-2*near, "%s %s at %+v", a, b, st)
					}
				}
			}
		}
	})
	// On a suspension a spring and a bend far behind an axle that pitches may take
	// more than the search's limit; that must stay rare.
	require.LessOrEqual(t, open*100, found, "too many pairs are given up")
	require.Greater(t, found*10, pairs*2, "too few pairs fall short for the test to mean anything")
	require.Less(t, found*10, pairs*8, "too few pairs are clear for the test to mean anything")
}

// sampledState covers the box evenly: additive recurrences with the powers of
// the plastic number's five-dimensional relative; roots of primes for movements.
func sampledState(m *Model, k int) State {
	var p whole
	for i, a := range [paramCount]float64{0.8566748838545029, 0.733891856627126, 0.6287067210378087, 0.5385972572236101, 0.4614018, 0.41421356237, 0.73205080757} {
		_, f := math.Modf(float64(k)*a + 0.5)
		p[i] = m.box.lo[i] + f*(m.box.hi[i]-m.box.lo[i])
	}
	return m.box.state(&p)
}

// The other side of the vehicle gives the same findings: mirrored parts, the
// same gaps.
func TestMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		doc := randomScene(t)
		other := *doc
		other.Parts = nil
		for _, p := range doc.Parts {
			q := p
			q.AtMM[1] = -q.AtMM[1]
			q.TurnDeg[0], q.TurnDeg[2] = -q.TurnDeg[0], -q.TurnDeg[2]
			q.Size = p.Size.Clone()
			for _, f := range scene.KindNamed(p.Kind).Fields {
				if f.Handed {
					v := q.Size[f.Name]
					v.Num = -v.Num
					q.Size[f.Name] = v
				}
				for c, col := range f.Columns {
					for _, row := range q.Size[f.Name].Rows {
						if col.Handed {
							row[c] = -row[c]
						}
					}
				}
			}
			if on := q.Size.Text("lower_on"); on != "" {
				q.Size["lower_on"] = scene.Value{Text: string(across(scene.Carrier(on)))}
			}
			q.Carrier = across(q.Carrier)
			other.Parts = append(other.Parts, q)
		}
		mirrorSuspension(&other.Vehicle.Front)
		mirrorSuspension(&other.Vehicle.Rear)
		sameFindings(t, doc, &other, nil)
	})
}

// across is the carrier on the right of one on the left.
func across(on scene.Carrier) scene.Carrier {
	switch on {
	case scene.WheelFL:
		return scene.WheelFR
	case scene.WheelRL:
		return scene.WheelRR
	}
	return on
}

// mirrorSuspension puts an axle's bars on the other side; those of wheels that
// move by themselves are mirrored already.
func mirrorSuspension(e *scene.End) {
	if e.Suspension == nil || e.Independent {
		return
	}
	s := *e.Suspension
	s.Bars = slices.Clone(s.Bars)
	for i := range s.Bars {
		b := &s.Bars[i]
		b.BodyMM[1], b.CarriedMM[1] = -b.BodyMM[1], -b.CarriedMM[1]
	}
	e.Suspension = &s
}

// The order of the parts changes nothing but the order of a pair's names.
func TestOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		doc := randomScene(t)
		other := *doc
		other.Parts = slices.Clone(doc.Parts)
		slices.Reverse(other.Parts)
		sameFindings(t, doc, &other, nil)
	})
}

// sameFindings holds two documents' reports to each other: the same pairs with
// the same gaps, within what a bound allows.
func sameFindings(t require.TestingT, a, b *scene.Document, m *Model) {
	ma, err := Compile(a)
	require.NoError(t, err)
	mb := m
	if mb == nil {
		mb, err = Compile(b)
		require.NoError(t, err)
	}
	gaps := func(r *Report) map[[2]string]float64 {
		g := map[[2]string]float64{}
		for _, f := range r.Findings {
			g[ordered(f.A, f.B)] = f.GapMM
		}
		return g
	}
	ga, gb := gaps(ma.Check()), gaps(mb.Check())
	for pair, g := range ga {
		h, ok := gb[pair]
		if !ok { // a shortfall as small as a bound is wide may be decided either way
			require.Greater(t, g, -0.1)
			continue
		}
		require.InDelta(t, g, h, 0.1+2*near, "%v", pair)
	}
	require.InDelta(t, len(ga), len(gb), 1)
}

// An edit gives the same report as compiling the edited document anew, byte
// for byte.
func TestWithIsCompile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		doc := randomScene(t)
		m, err := Compile(doc)
		require.NoError(t, err)
		m.Check()
		for step := 0; step < 3; step++ {
			next := *m.Doc
			next.Parts = slices.Clone(m.Doc.Parts)
			i := rapid.IntRange(0, len(next.Parts)-1).Draw(t, "moved")
			next.Parts[i].AtMM[rapid.IntRange(0, 2).Draw(t, "axis")] += rapid.Float64Range(-60, 60).Draw(t, "by")
			if rapid.IntRange(0, 3).Draw(t, "travel") == 0 {
				next.Heights = slices.Clone(m.Doc.Heights)
				next.Heights[0].RearMM -= 5
			}
			editOther(t, &next)
			m, err = m.With(&next)
			require.NoError(t, err)
			if rapid.Bool().Draw(t, "unchecked") { // an edit that comes before the check is done
				continue
			}
			fresh, err := Compile(&next)
			require.NoError(t, err)
			require.Equal(t, string(fresh.ReportJSON()), string(m.ReportJSON()))
		}
	})
}

// editOther does some of the other things that an edit may do: what pairs need,
// which are joined, a name, a part taken away, the order of the list.
func editOther(t *rapid.T, doc *scene.Document) {
	n := len(doc.Parts)
	at := func(what string) int { return rapid.IntRange(0, n-1).Draw(t, what) }
	a, b := at("one"), at("other")
	switch rapid.IntRange(0, 7).Draw(t, "edit") {
	case 0:
		if a != b {
			doc.Needs = append(slices.Clone(doc.Needs), scene.Need{Parts: [2]string{doc.Parts[a].ID, doc.Parts[b].ID}, NeedMM: 80, Why: "test"})
		}
	case 1:
		if a != b {
			doc.Joined = append(slices.Clone(doc.Joined), scene.Joined{A: doc.Parts[a].ID, B: doc.Parts[b].ID})
		}
	case 2:
		doc.Parts[a].Name += " two"
	case 3:
		if n > 2 {
			doc.Parts = slices.Delete(doc.Parts, a, a+1)
		}
	case 4:
		doc.Parts[a], doc.Parts[b] = doc.Parts[b], doc.Parts[a]
	case 5:
		doc.Needs = nil
	}
}
