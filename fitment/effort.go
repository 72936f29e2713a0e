package fitment

// Effort is how much work the last check was: for measuring the search itself.
type Effort struct {
	Pairs int // pairs of parts that are not joined
	// Parts counts the pairs of parts, and Solids the pairs of their solids,
	// whose swept boxes come so close that their travel was searched.
	Parts, Solids int
	// Gaps counts the gaps measured in those searches. An answer kept from an
	// earlier model counts with what it cost then.
	Gaps int
	// MostNeedMM is the largest need of any pair.
	MostNeedMM float64
}

// Effort is the work behind [Model.Check].
func (m *Model) Effort() Effort {
	m.Check()
	e := Effort{Pairs: m.countPairs(), MostNeedMM: m.needs.most}
	seen := map[[2]*placed]bool{}
	for pair, v := range m.verdicts {
		for _, ans := range v.answers {
			e.Gaps += ans.samples
			e.Solids += ans.met
			if ans.met > 0 && !seen[pair] {
				seen[pair] = true
				e.Parts++
			}
		}
	}
	return e
}
