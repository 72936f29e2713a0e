package scene

// dropLostMarks takes parts that are not there out of groups, tapes, checks and
// what other parts were measured from; those stay where they are.
func (doc *Document) dropLostMarks(there map[string]bool) {
	doc.Groups = groupsOf(doc.Groups, there)
	on := func(e *TapeEnd) bool { return e.Part == "" || there[e.Part] }
	doc.Tapes = kept(doc.Tapes, func(t *Tape) bool { return on(&t.From) && on(&t.To) })
	laid := map[string]bool{}
	for i := range doc.Tapes {
		laid[doc.Tapes[i].ID] = true
	}
	doc.Checked = kept(doc.Checked, func(k *Check) bool {
		return (k.Tape == "" || laid[k.Tape]) && (k.Part == "" || there[k.Part])
	})
	own := false
	for i := range doc.Parts {
		from := doc.Parts[i].MeasuredFrom
		left := kept(from, func(m *Measured) bool { return m.Part == "" || there[m.Part] })
		if len(left) == len(from) {
			continue
		}
		if !own {
			doc.Parts, own = append([]Part(nil), doc.Parts...), true
		}
		doc.Parts[i].MeasuredFrom = left
	}
}

// groupsOf is the groups of the parts that are there; one that is left with a
// single part is no group any more.
func groupsOf(groups []Group, there map[string]bool) []Group {
	var out []Group
	for _, g := range groups {
		g.Parts = kept(g.Parts, func(id *string) bool { return there[*id] })
		if len(g.Parts) > 1 {
			out = append(out, g)
		}
	}
	return out
}
