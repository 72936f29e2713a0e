package fitment

// Need is where a pair's need comes from, and what the table asks where the two
// have a figure of their own.
func (w *Words) Need(n *PairNeed) string {
	if n.Set == nil {
		says := upperFirst(w.asked(&n.Table))
		if n.ShieldMM > 0 {
			says += "; " + w.Length(n.ShieldMM) + " with a heat shield between them"
		}
		return says
	}
	says := ""
	if n.Set.Shielded && (n.ShieldMM > 0 && n.MM == n.ShieldMM || n.MM == n.Table.MM) {
		says = "A heat shield is stated between them"
	} else {
		says = "Your figure: " + w.Length(n.MM)
	}
	says += "; the table asks " + w.Length(n.Table.MM)
	if n.Table.What != "" {
		says += " (" + n.Table.What + ": " + n.Table.Standing + ")"
	}
	if n.Set.Why != "" {
		says += ". Why: " + n.Set.Why
	}
	return says
}

// asked is a figure of the table with where it comes from.
func (w *Words) asked(t *Asked) string {
	says := t.What + ": " + w.Length(t.MM)
	if t.Standing != "" {
		says += " (" + t.Standing + ")"
	}
	return says
}
