package scene

import (
	"fmt"
	"math"
	"reflect"
	"strings"
)

// Difference is one thing in which a document differs from another, for
// people. Part is empty for the vehicle, a height, a movement.
type Difference struct {
	Part string // id
	Name string // what it is about: "Battery", "Rear tyre"
	Text string // how it differs: "800 rearward"
}

// Differences says how edited differs from base, in lengths as base shows
// them: the vehicle first, then heights, movements, parts, needs and joins.
func Differences(base, edited *Document) []Difference {
	w := &differ{base: base, now: edited, show: base.Show}
	w.vehicle()
	w.heights()
	w.movements()
	w.parts()
	w.pairs()
	return w.list
}

// differ collects differences.
type differ struct {
	base, now *Document
	show      Units
	list      []Difference
}

func (w *differ) add(part, name, text string) {
	w.list = append(w.list, Difference{part, name, text})
}

// instead says what stands in the place of what.
func (w *differ) instead(name, now, was string) {
	if now != was {
		w.add("", name, now+" in place of "+was)
	}
}

func (w *differ) length(mm float64) string { return FormatLength(mm, w.show) }

func (w *differ) vehicle() {
	a, b := &w.base.Vehicle, &w.now.Vehicle
	w.number("Wheelbase", a.WheelbaseMM, b.WheelbaseMM)
	w.end("Front", &a.Front, &b.Front)
	w.end("Rear", &a.Rear, &b.Rear)
}

func (w *differ) number(name string, was, now float64) {
	if was != now {
		w.add("", name, w.length(now)+" in place of "+w.length(was))
	}
}

func (w *differ) end(name string, a, b *End) {
	w.number(name+" track", a.TrackMM, b.TrackMM)
	w.instead(name+" tyre", w.tyre(b.Tyre), w.tyre(a.Tyre))
	w.number(name+" tyre squash", a.Tyre.DeflectionMM, b.Tyre.DeflectionMM)
	w.number(name+" frame height", a.FrameHeightMM, b.FrameHeightMM)
	w.instead(name+" wheels", wheelsOf(b), wheelsOf(a))
	if a.Form().Name != b.Form().Name {
		w.instead(name+" suspension", strings.ToLower(b.Form().Label), strings.ToLower(a.Form().Label))
	} else if !reflect.DeepEqual(a.Suspension, b.Suspension) {
		w.add("", name+" suspension", "other points")
	}
	w.instead(name+" steer each way", degrees(b.SteerDeg), degrees(a.SteerDeg))
	w.number(name+" left and right apart", a.CrossMM, b.CrossMM)
}

func wheelsOf(e *End) string {
	if e.Independent {
		return "each by itself"
	}
	return "on an axle"
}

func degrees(v float64) string { return number(v) + "°" }

func (w *differ) tyre(t Tyre) string {
	if t.Code != "" {
		return t.Code
	}
	return w.length(t.DiameterMM) + " by " + w.length(t.WidthMM) + ", rim " + w.length(t.RimMM)
}

func (w *differ) heights() {
	had := map[string]*Height{}
	for i := range w.base.Heights {
		had[w.base.Heights[i].ID] = &w.base.Heights[i]
	}
	for _, h := range w.now.Heights {
		old := had[h.ID]
		delete(had, h.ID)
		at := w.length(h.FrontMM) + " front, " + w.length(h.RearMM) + " rear"
		switch {
		case old == nil:
			w.add("", h.Name, "a height of its own: "+at)
		case old.FrontMM != h.FrontMM || old.RearMM != h.RearMM:
			w.add("", h.Name, at+" in place of "+w.length(old.FrontMM)+" front, "+w.length(old.RearMM)+" rear")
		case old.Name != h.Name:
			w.add("", h.Name, "called "+h.Name+" in place of "+old.Name)
		}
	}
	for _, h := range w.base.Heights {
		if had[h.ID] != nil {
			w.add("", h.Name, "this height is left out")
		}
	}
}

func (w *differ) movements() {
	changed, without := changes(w.base.Movements, w.now.Movements, movementKey, same[Movement])
	for i := range changed {
		text := "goes another way"
		if w.base.MovementNamed(changed[i].ID) == nil {
			text = "added"
		}
		w.add("", changed[i].Name, text)
	}
	for _, id := range without {
		w.add("", w.base.MovementNamed(id).Name, "left out")
	}
}

func (w *differ) parts() {
	now := map[string]*Part{}
	for i := range w.now.Parts {
		now[w.now.Parts[i].ID] = &w.now.Parts[i]
	}
	for i := range w.base.Parts {
		old := &w.base.Parts[i]
		p := now[old.ID]
		delete(now, old.ID)
		switch {
		case p == nil:
			w.add(old.ID, called(old), "left out")
		case p.Kind != old.Kind:
			w.add(p.ID, called(p), "a "+strings.ToLower(KindNamed(p.Kind).Label)+" in place of a "+strings.ToLower(KindNamed(old.Kind).Label))
		default:
			if say := w.part(old, p); len(say) > 0 {
				w.add(p.ID, called(p), strings.Join(say, "; "))
			}
		}
	}
	for i := range w.now.Parts {
		if p := &w.now.Parts[i]; now[p.ID] != nil {
			w.add(p.ID, called(p), "added")
		}
	}
}

func called(p *Part) string {
	if p.Name == "" {
		return p.ID
	}
	return p.Name
}

// part says how one part differs from another of its kind.
func (w *differ) part(a, b *Part) (say []string) {
	if a.Name != b.Name {
		say = append(say, "called "+called(b)+" in place of "+called(a))
	}
	if a.Carrier != b.Carrier {
		say = append(say, "on the "+carrierWord(b.Carrier)+" in place of the "+carrierWord(a.Carrier))
	}
	if moved := w.moved(a, b); moved != "" {
		say = append(say, moved)
	}
	if a.TurnDeg != b.TurnDeg {
		say = append(say, "turned to roll "+degrees(b.TurnDeg[0])+", pitch "+degrees(b.TurnDeg[1])+", yaw "+degrees(b.TurnDeg[2]))
	}
	say = append(say, w.size(KindNamed(b.Kind), a.Size, b.Size)...)
	if !reflect.DeepEqual(TraitsOf(a), TraitsOf(b)) {
		say = append(say, "counts as "+traitList(TraitsOf(b))+" in place of "+traitList(TraitsOf(a)))
	}
	if strings.Join(a.Moves, " ") != strings.Join(b.Moves, " ") {
		say = append(say, "moves otherwise")
	}
	return append(say, w.stock(a, b)...)
}

// moved says how far a part stands from where it stood, in body axes at ride.
func (w *differ) moved(a, b *Part) string {
	from, to := w.base.Vehicle.origin(a.Carrier).add(a.AtMM), w.now.Vehicle.origin(b.Carrier).add(b.AtMM)
	if a.Carrier == b.Carrier { // what its carrier does is the vehicle's
		from, to = a.AtMM, b.AtMM
	}
	ways := [3][2]string{{"forward", "rearward"}, {"to the left", "to the right"}, {"down", "up"}}
	var steps []string
	for i := range ways {
		d := to[i] - from[i]
		if math.Abs(d) < 0.05 {
			continue
		}
		way := ways[i][0]
		if d > 0 {
			way = ways[i][1]
		}
		steps = append(steps, w.length(math.Abs(d))+" "+way)
	}
	return strings.Join(steps, ", ")
}

func (w *differ) size(k *Kind, a, b Size) (say []string) {
	for i := range k.Fields {
		f := &k.Fields[i]
		was, now := a[f.Name], b[f.Name]
		if reflect.DeepEqual(was, now) || len(was.Rows)+len(now.Rows) == 0 && f.Type == Table {
			continue
		}
		label := strings.ToLower(f.Label)
		if f.Type == Table {
			say = append(say, label+" otherwise")
			continue
		}
		say = append(say, label+" "+w.value(f, now)+" in place of "+w.value(f, was))
	}
	return say
}

func (w *differ) value(f *Field, v Value) string {
	switch f.Type {
	case Length:
		return w.length(v.Num)
	case Angle:
		return degrees(v.Num)
	case Flag:
		if v.Flag {
			return "yes"
		}
		return "no"
	case Choice:
		for i, c := range f.Choices {
			if c == v.Text && i < len(f.ChoiceLabels) {
				return f.ChoiceLabels[i]
			}
		}
		return v.Text
	}
	return number(v.Num)
}

func (w *differ) stock(a, b *Part) (say []string) {
	mass := func(kg *float64) string {
		if kg == nil {
			return "unknown"
		}
		return FormatMass(*kg, w.show) + " " + MassUnit(w.show)
	}
	price := func(v *float64) string {
		if v == nil {
			return "unknown"
		}
		return w.base.Money(*v)
	}
	if now, was := mass(b.MassKG), mass(a.MassKG); now != was {
		say = append(say, "mass "+now+" in place of "+was)
	}
	if now, was := price(b.Price), price(a.Price); now != was {
		say = append(say, "price "+now+" in place of "+was)
	}
	if a.State != b.State {
		say = append(say, "state: "+stateWord(b.State))
	}
	return say
}

func stateWord(s PartState) string {
	if s == "" {
		return "not said"
	}
	return strings.ToLower(s.Label())
}

func carrierWord(on Carrier) string {
	return map[Carrier]string{Body: "body", FrontAxle: "front axle", RearAxle: "rear axle", WheelFL: "front left wheel",
		WheelFR: "front right wheel", WheelRL: "rear left wheel", WheelRR: "rear right wheel", Ground: "ground"}[on]
}

func traitList(traits []Trait) string {
	words := make([]string, len(traits))
	for i, t := range traits {
		words[i] = string(t)
	}
	return strings.Join(words, ", ")
}

// pairs says which needs and joins differ between parts that are in both.
func (w *differ) pairs() {
	bare := *w.base
	bare.Parts, bare.Movements = w.now.Parts, w.now.Movements
	bare.dropLost()
	needs, noNeeds := changes(bare.Needs, w.now.Needs, needKey, same[Need])
	for i := range needs {
		w.add("", w.pairOf(&needs[i]), w.need(&needs[i])+w.wasNeed(&needs[i]))
	}
	for i := range bare.Needs {
		if n := &bare.Needs[i]; contains(noNeeds, needKey(n)) {
			w.add("", w.pairOf(n), "no need of their own in place of "+w.need(n))
		}
	}
	joined, parted := changes(bare.Joined, w.now.Joined, joinedKey, func(a, b *Joined) bool { return true })
	for _, j := range joined {
		w.add("", w.names(j.A, j.B), "joined")
	}
	for i := range bare.Joined {
		if j := &bare.Joined[i]; contains(parted, joinedKey(j)) {
			w.add("", w.names(j.A, j.B), "not joined")
		}
	}
}

func (w *differ) names(a, b string) string {
	name := func(id string) string {
		for _, doc := range []*Document{w.now, w.base} {
			if i, err := doc.partAt(id); err == nil {
				return called(&doc.Parts[i])
			}
		}
		return id
	}
	return name(a) + " and " + name(b)
}

func (w *differ) pairOf(n *Need) string {
	if n.Parts == [2]string{} {
		return fmt.Sprintf("Anything %s and anything %s", n.Traits[0], n.Traits[1])
	}
	return w.names(n.Parts[0], n.Parts[1])
}

func (w *differ) need(n *Need) string {
	if n.Shielded {
		return "a heat shield between"
	}
	return "need " + w.length(n.NeedMM)
}

func (w *differ) wasNeed(n *Need) string {
	for i := range w.base.Needs {
		if old := &w.base.Needs[i]; needKey(old) == needKey(n) && w.need(old) != w.need(n) {
			return " in place of " + w.need(old)
		}
	}
	return ""
}
