package fitment

import "scrubline/scene"

// unmeasured are the keys of what is not measured yet and bears on a finding.
func (m *Model) unmeasured(f *Finding) []string {
	return scene.Keys(m.lacks().Between(!f.Still, f.A, f.B))
}

// lacks knows what of the model's document is not measured.
func (m *Model) lacks() *scene.Lacking {
	if m.lacking == nil {
		m.lacking = m.Doc.Lacking()
	}
	return m.lacking
}

// namedValues is how many values of one part are named before the rest is
// counted.
const namedValues = 3

// Unmeasured says what of a finding's figures rests on values that are not
// measured yet; empty when all are.
func (m *Model) Unmeasured(f *Finding) string { return m.UnmeasuredBetween(!f.Still, f.A, f.B) }

// UnmeasuredBetween says the same for any parts; moves is for what the body's
// height bears on.
func (m *Model) UnmeasuredBetween(moves bool, ids ...string) string {
	list := m.lacks().Between(moves, ids...)
	if len(list) == 0 {
		return ""
	}
	return "not measured: " + scene.WordsOf(list, namedValues)
}
