package fitment

import "fmt"

// RoomTitle says in one sentence how a part stands in its room.
func (w *Words) RoomTitle(r *Room) string {
	name := w.Begin(r.Part)
	by, _ := r.At(r.AtMM[0], r.AtMM[1])
	switch {
	case by == "":
		return name + " keeps all its needs where it stands"
	case r.FreeShare() == 0:
		return name + " has no room within this map: " + w.roomBy(by) + " is in the way where it stands"
	}
	return name + " falls short of " + w.roomBy(by) + " where it stands"
}

// RoomBy names what bounds a room.
func (w *Words) roomBy(by string) string {
	if by == RimLineName {
		return "the rim line"
	}
	return w.Plain(by)
}

// BorderName is the name to write at a border.
func (w *Words) BorderName(b *Border) string { return upperFirst(w.roomBy(b.By)) }

// BorderWords says how much of a room's border something makes.
func (w *Words) BorderWords(b *Border) string {
	return fmt.Sprintf("%s, for %s of it", w.roomBy(b.By), w.Length(b.LengthMM))
}
