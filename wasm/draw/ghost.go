package draw

// ghost is a part where a move would put it: its outer border, dashed in the
// hand's colour, over everything that is there now.
func (s *Sheet) ghost(l *List) {
	if len(s.Ghost) > 0 {
		s.strokePaths(l, Border(s.Ghost), Paint{Tone: Hand}, Wide, Dashed)
	}
}
