package scene

import (
	"errors"
	"math"
)

// What an edit leaves behind of measurements is put right by [Settle]: the
// part that was measured either follows, and its number stays, or stays, and
// its number is read anew. Which of the two its [Moves] says. A number in a document is never one that was.

// readTol is how far a reading may be off before it counts as another (mm):
// positions are kept to a millionth.
const readTol = 2e-6

// settling is one edit being put right.
type settling struct {
	ruler           // over the edited document
	old   ruler     // over the one before
	was   []int     // by part: its index before, −1 for a new one
	hands [][3]bool // by part and axis: the edit itself placed or shaped it there
}

func newSettling(before, after *Document, boxes Boxes) *settling {
	n := len(after.Parts)
	s := &settling{ruler: ruler{doc: after, boxes: boxes, shift: make([]Vec, n)}, old: ruler{doc: before, boxes: boxes},
		was: make([]int, n), hands: make([][3]bool, n)}
	index := make(map[string]int, len(before.Parts))
	for i := range before.Parts {
		index[before.Parts[i].ID] = i
	}
	for i := range after.Parts {
		p := &after.Parts[i]
		k, ok := index[p.ID]
		if !ok {
			s.was[i], s.hands[i] = -1, [3]bool{true, true, true}
			continue
		}
		q := &before.Parts[k]
		s.was[i], s.hands[i] = k, placedBy(p, q)
	}
	return s
}

// placedBy says along which axes an edit has placed a part: where it has moved
// it, and along all when it has turned, reshaped or otherwise put it elsewhere.
func placedBy(p, q *Part) (hands [3]bool) {
	moved := *q
	moved.AtMM = p.AtMM
	whole := !samePlace(p, &moved) || !sameShape(p, q)
	for axis := range hands {
		hands[axis] = whole || p.AtMM[axis] != q.AtMM[axis]
	}
	return hands
}

// placed says whether the edit itself put part i where a reference reads now.
// How far the ground is depends on the station too.
func (s *settling) placed(i int, m *Measured) bool {
	return s.hands[i][m.Axis] || m.Datum == FromGround && s.hands[i][0]
}

// wanted is what a reference of part i read before the edit; ok is false for
// a new reference and for a part the edit itself placed.
func (s *settling) wanted(i int, m *Measured) (mm float64, ok bool) {
	if s.placed(i, m) {
		return 0, false
	}
	old := s.old.doc.Parts[s.was[i]].MeasuredAlong(m.Axis)
	if old == nil || !sameReference(old, m) {
		return 0, false
	}
	mm, _ = s.old.read(s.was[i], old)
	return mm, true
}

// off is how far a part would have to go for a reference to read as before.
func (s *settling) off(i int, m *Measured) float64 {
	want, ok := s.wanted(i, m)
	if !ok {
		return 0
	}
	is, slope := s.read(i, m)
	if math.Abs(want-is) <= readTol || slope == 0 {
		return 0
	}
	return (want - is) / slope
}

// held says whether a part cannot follow: it stays where it is, or one of its
// group does.
func (s *settling) held(i int) bool {
	for _, id := range s.doc.Together([]string{s.doc.Parts[i].ID}) {
		if k, err := s.doc.partAt(id); err == nil && s.doc.Parts[k].Held() != nil {
			return true
		}
	}
	return false
}

// Following is who would follow an edit.
type Following struct {
	Parts  []string // ids of parts that were measured from something that moved, and that is asked for
	Locked []string // ids of parts that would follow, or be asked for, and stay, being locked or grouped with what is
	From   []string // what they were measured from: names of parts, words of datums
}

// Followers finds the parts whose reference has moved in an edit and of which
// nothing is decided beforehand.
func Followers(before, after *Document, boxes Boxes) (f Following) {
	if !anyMeasured(after) {
		return f
	}
	s := newSettling(before, after, boxes)
	for i := range after.Parts {
		p := &after.Parts[i]
		for k := range p.MeasuredFrom {
			m := &p.MeasuredFrom[k]
			if m.Moves == Never || s.off(i, m) == 0 {
				continue
			}
			list := &f.Parts
			if s.held(i) {
				list = &f.Locked
			}
			if !contains(*list, p.ID) {
				*list = append(*list, p.ID)
			}
			if from := after.fromWords(m); !contains(f.From, from) {
				f.From = append(f.From, from)
			}
		}
	}
	return f
}

func anyMeasured(doc *Document) bool {
	for i := range doc.Parts {
		if len(doc.Parts[i].MeasuredFrom) > 0 {
			return true
		}
	}
	return false
}

// Settle puts measurements right after an edit from before to after. A part that
// always goes along, and with yes one that is asked for, moves along with what it
// was measured from, its group with it and what was measured from it in turn, so
// that the numbers stay; parts that the edit itself placed, and locked ones, do
// not. Every other number is read off anew.
func Settle(before, after *Document, boxes Boxes, yes bool) (*Document, error) {
	if !anyMeasured(after) {
		return after, nil
	}
	s := newSettling(before, after, boxes)
	if yes || anyAlways(after) {
		if err := s.follow(yes); err != nil {
			return nil, err
		}
		var list []placing
		for i, by := range s.shift {
			if by != (Vec{}) {
				list = append(list, after.shifted(i, by))
			}
		}
		moved, err := after.withPlaced(list)
		if err != nil {
			return nil, err
		}
		s.doc, s.shift = moved, nil
	}
	return s.readAnew(), nil
}

// Elsewhere lists the parts that stand elsewhere in settled than in the document
// it was settled from: what went along.
func Elsewhere(after, settled *Document) (ids []string) {
	if after == settled {
		return nil
	}
	for i := range settled.Parts {
		if settled.Parts[i].AtMM != after.Parts[i].AtMM {
			ids = append(ids, settled.Parts[i].ID)
		}
	}
	return ids
}

func anyAlways(doc *Document) bool {
	for i := range doc.Parts {
		for _, m := range doc.Parts[i].MeasuredFrom {
			if m.Moves == Always {
				return true
			}
		}
	}
	return false
}

// follow finds how far every part has to go. A part that has moved may carry
// others with it, so it goes around until nothing moves any more.
func (s *settling) follow(yes bool) error {
	// A chain of n parts settles in n rounds at the latest, and once more where
	// the ground falls away under what has moved along the vehicle.
	for range 2*len(s.doc.Parts) + 2 {
		moved := false
		for i := range s.doc.Parts {
			for k := range s.doc.Parts[i].MeasuredFrom {
				m := &s.doc.Parts[i].MeasuredFrom[k]
				if goes := m.Moves == Always || yes && m.Moves == Asks; !goes {
					continue
				}
				if by := s.off(i, m); by != 0 && !s.held(i) {
					s.take(i, m.Axis, by)
					moved = true
				}
			}
		}
		if !moved {
			return nil
		}
	}
	return errors.New("the parts cannot follow: their measurements and groups pull them two ways")
}

// take moves a part along an axis, with those of its group that have no
// reference of their own there and were not placed by hand.
func (s *settling) take(i, axis int, by float64) {
	s.shift[i][axis] += by
	g := s.doc.GroupOf(s.doc.Parts[i].ID)
	if g == nil {
		return
	}
	for _, id := range g.Parts {
		k, err := s.doc.partAt(id)
		if err == nil && k != i && !s.hands[k][axis] && s.doc.Parts[k].MeasuredAlong(axis) == nil {
			s.shift[k][axis] += by
		}
	}
}

// readAnew is the document with every number as the tape reads it now. One
// that reads as before keeps its digits.
func (s *settling) readAnew() *Document {
	c := *s.doc
	c.Parts = append([]Part(nil), s.doc.Parts...)
	for i := range c.Parts {
		p := &c.Parts[i]
		if len(p.MeasuredFrom) == 0 {
			continue
		}
		p.MeasuredFrom = append([]Measured(nil), p.MeasuredFrom...)
		for k := range p.MeasuredFrom {
			m := &p.MeasuredFrom[k]
			if is, _ := s.read(i, m); math.Abs(is-m.MM) > readTol {
				m.MM = round6(is)
			}
		}
	}
	return &c
}
