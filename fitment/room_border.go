package fitment

import "sort"

// Border is one thing that bounds a part's room.
type Border struct {
	By string // part id, or RimLineName
	// LengthMM is how much of the room's border it makes, along cell sides.
	LengthMM float64
	// AtMM is a point of the border in the view's plane to write its name at: the
	// middle of its longest straight side.
	AtMM [2]float64
	// Beyond is the way from the room over the border there, in cells.
	Beyond [2]int
}

// Borders lists what bounds the free cells, the longest border first. The map's
// own edge bounds nothing.
func (r *Room) Borders() []Border {
	found := map[int32]*borderAt{}
	r.sides(func(by int32, u, w, du, dw int, n int) {
		b := found[by]
		if b == nil {
			b = &borderAt{}
			found[by] = b
		}
		b.cells += n
		if n > b.longest {
			b.longest, b.at, b.beyond = n, r.sideMiddle(u, w, du, dw, n), [2]int{du, dw}
		}
	})
	var out []Border
	for by, b := range found {
		out = append(out, Border{By: r.name(by), LengthMM: float64(b.cells) * r.CellMM, AtMM: b.at, Beyond: b.beyond})
	}
	sort.Slice(out, func(i, j int) bool {
		if out[i].LengthMM != out[j].LengthMM {
			return out[i].LengthMM > out[j].LengthMM
		}
		return out[i].By < out[j].By
	})
	return out
}

type borderAt struct {
	cells, longest int
	at             [2]float64
	beyond         [2]int
}

// Side is a straight piece of the border of the free cells, in the view's plane.
type Side struct{ FromMM, ToMM [2]float64 }

// Sides is the whole border of the free cells as straight pieces.
func (r *Room) Sides() (out []Side) {
	r.sides(func(_ int32, u, w, du, dw, n int) {
		from, to := r.side(u, w, du, dw, n)
		out = append(out, Side{from, to})
	})
	return out
}

// sides visits each straight run of sides between a free cell and one that is
// not: by what, the run's first free cell, the way beyond, how many cells.
func (r *Room) sides(visit func(by int32, u, w, du, dw, n int)) {
	at := func(u, w int) int32 { return r.blocked[w*r.Nu+u] }
	beyond := func(u, w, du, dw int) (int32, bool) {
		if u+du < 0 || w+dw < 0 || u+du >= r.Nu || w+dw >= r.Nw || at(u, w) != roomFree {
			return 0, false
		}
		by := at(u+du, w+dw)
		return by, by != roomFree
	}
	run := func(du, dw, lines, length int, cell func(line, k int) (u, w int)) {
		for line := range lines {
			for k := 0; k < length; {
				u, w := cell(line, k)
				by, ok := beyond(u, w, du, dw)
				if !ok {
					k++
					continue
				}
				n := 1
				for k+n < length {
					nu, nw := cell(line, k+n)
					if other, ok := beyond(nu, nw, du, dw); !ok || other != by {
						break
					}
					n++
				}
				visit(by, u, w, du, dw, n)
				k += n
			}
		}
	}
	along := func(line, k int) (int, int) { return k, line }
	across := func(line, k int) (int, int) { return line, k }
	for _, d := range [2]int{-1, 1} {
		run(0, d, r.Nw, r.Nu, along)
		run(d, 0, r.Nu, r.Nw, across)
	}
}

// side is a run of sides in the view's plane.
func (r *Room) side(u, w, du, dw, n int) (from, to [2]float64) {
	from = [2]float64{r.LoMM[0] + float64(u)*r.CellMM, r.LoMM[1] + float64(w)*r.CellMM}
	if du > 0 {
		from[0] += r.CellMM
	}
	if dw > 0 {
		from[1] += r.CellMM
	}
	to = from
	if du == 0 {
		to[0] += float64(n) * r.CellMM
	} else {
		to[1] += float64(n) * r.CellMM
	}
	return from, to
}

func (r *Room) sideMiddle(u, w, du, dw, n int) [2]float64 {
	a, b := r.side(u, w, du, dw, n)
	return [2]float64{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2}
}
