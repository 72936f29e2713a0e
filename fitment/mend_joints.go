package fitment

import (
	"math"
	"sort"

	"scrubline/fitment/internal/gap"
	"scrubline/fitment/internal/geom"
)

// partedMM is how far apart two joined parts must come to be said to: less is
// taken up where they are bolted.
const partedMM = 1.0

// parted lists what a place takes the part, or one that goes with it, away from
// although they are joined: the gap at ride of each that was nearer before, the
// widest first.
func (d *Mender) parted(p *stance) (out []Parted) {
	here := d.s.at(geom.Still)
	for _, id := range d.out.Joined {
		other := d.s.m.parts[d.s.m.index[id]]
		widest := 0.0
		for _, own := range d.s.members {
			if !d.s.m.needs.joined[ordered(own.part.ID, id)] {
				continue
			}
			before, after := here.joint(own, other), p.joint(own, other)
			if after > partedMM && after > before+partedMM {
				widest = max(widest, after)
			}
		}
		if widest > 0 {
			out = append(out, Parted{id, widest})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].GapMM > out[j].GapMM })
	return out
}

// joint is the gap at ride of a part in the place and one that stays.
func (p *stance) joint(own, other *placed) float64 {
	least := math.Inf(1)
	for i, it := range p.s.items {
		if it.part != own || it.room != "" {
			continue
		}
		solids := p.item(i).solids
		for k := range other.items {
			if other.items[k].room != "" {
				continue
			}
			for n := range solids {
				for l := range other.items[k].solids {
					least = min(least, gap.Between(&solids[n], &other.items[k].solids[l]).Gap)
				}
			}
		}
	}
	return least
}
