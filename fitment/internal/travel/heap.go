package travel

// entry is a cell of the heap: a copy of its bound, and its place among the cells.
type entry struct {
	bound float64
	at    int
}

// A binary heap of cells by bound, written out because container/heap boxes
// every entry it moves.
func (s *searcher) up(i int) {
	for i > 0 {
		parent := (i - 1) / 2
		if s.heap[parent].bound <= s.heap[i].bound {
			return
		}
		s.heap[parent], s.heap[i] = s.heap[i], s.heap[parent]
		i = parent
	}
}

// pop takes out the cell with the least bound.
func (s *searcher) pop() (at int) {
	at = s.heap[0].at
	last := len(s.heap) - 1
	s.heap[0] = s.heap[last]
	s.heap = s.heap[:last]
	for i := 0; ; {
		least, l, r := i, 2*i+1, 2*i+2
		if l < last && s.heap[l].bound < s.heap[least].bound {
			least = l
		}
		if r < last && s.heap[r].bound < s.heap[least].bound {
			least = r
		}
		if least == i {
			return at
		}
		s.heap[i], s.heap[least] = s.heap[least], s.heap[i]
		i = least
	}
}
