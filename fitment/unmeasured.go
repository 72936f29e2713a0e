package fitment

// unmeasured are the keys of what is not measured yet and bears on a finding.
func (m *Model) unmeasured(f *Finding) []string { return m.Doc.UnmeasuredBetween(!f.Still, f.A, f.B) }

// namedValues is how many values of one part are named before the rest is
// counted.
const namedValues = 3

// Unmeasured says what of a finding's figures rests on values that are not
// measured yet; empty when all are.
func (m *Model) Unmeasured(f *Finding) string { return m.UnmeasuredText(m.unmeasured(f)) }

// UnmeasuredText is the same for any keys.
func (m *Model) UnmeasuredText(keys []string) string {
	if len(keys) == 0 {
		return ""
	}
	return "not measured: " + m.Doc.UnmeasuredWords(keys, namedValues)
}
