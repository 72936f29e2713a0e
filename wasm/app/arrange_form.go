package app

import "scrubline/scene"

// groupPrefix begins the target of a group's fields: group:ID.
const groupPrefix = "group:"

// stepWords is the finest step for people.
func (a *App) stepWords() string {
	if a.doc.Show == scene.Inches {
		return "1/16 in"
	}
	return "1 mm"
}

// partArrange is what can be done to the place of one part.
func (a *App) partArrange(p *scene.Part) *Arrange {
	k := scene.KindNamed(p.Kind)
	r := &Arrange{Step: a.stepWords(), CanLock: k == nil || !k.Derived, Locked: p.Locked, Alone: a.arr.alone, Room: a.rooms.on, Sits: a.sits(), Names: []string{}, IDs: []string{}}
	if err := p.Held(); err != nil {
		r.Stays = sentence(err.Error())
	}
	r.putGroup(a.doc.GroupOf(p.ID))
	return r
}

func (r *Arrange) putGroup(g *scene.Group) {
	if g != nil {
		r.GroupID, r.Group, r.Mates = g.ID, g.Name, len(g.Parts)-1
	}
}

// pickedForm is the form of what is picked. When that is just a group, the
// group's name can be changed there.
func (a *App) pickedForm() *Form {
	list := a.stillPicked()
	r := &Arrange{Step: a.stepWords(), Many: true, Names: []string{}, IDs: append([]string{}, list...)}
	for _, id := range list {
		r.Names = append(r.Names, a.name(id))
	}
	f := &Form{Target: "picked", Title: "Pick several", CanMove: true, Arrange: r, Fields: []FormField{},
		Sub: "Tap parts on the drawing, or tick them in the list."}
	if n := len(list); n > 0 {
		f.Title = count(n, "part picked", "parts picked")
		if g := a.doc.GroupOf(list[0]); g != nil && len(g.Parts) == n && len(a.doc.Together(list)) == n {
			r.putGroup(g)
			f.Target = groupPrefix + g.ID
			f.Fields = append(f.Fields, textField("name", "", "Group called", "As it stands in the list of parts.", g.Name))
		}
	}
	return f
}
