package fitment

// jsonGroup is findings that are one thing, by their places in the list.
type jsonGroup struct {
	Text     string `json:"text"`
	More     string `json:"more,omitempty"`
	Findings []int  `json:"findings"`
}

func (m *Model) groupsJSON(r *Report) []jsonGroup {
	w, out := NewWords(m.Doc), []jsonGroup{}
	for _, g := range m.Groups() {
		out = append(out, jsonGroup{w.GroupText(r, g, m.Spans(&r.Findings[g.Findings[0]])), w.GroupMore(r, g), g.Findings})
	}
	return out
}
