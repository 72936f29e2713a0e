package draw

import (
	"math"
	"sort"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"scrubline/fitment"
	"scrubline/wasm/view"
)

func rect(x0, y0, x1, y1 float64) []fitment.Pt {
	return []fitment.Pt{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
}

func pathLength(paths []Path) float64 {
	sum := 0.0
	for _, p := range paths {
		n := len(p.Pts)
		for i := 1; i < n; i++ {
			sum += math.Hypot(p.Pts[i][0]-p.Pts[i-1][0], p.Pts[i][1]-p.Pts[i-1][1])
		}
		if p.Closed {
			sum += math.Hypot(p.Pts[0][0]-p.Pts[n-1][0], p.Pts[0][1]-p.Pts[n-1][1])
		}
	}
	return sum
}

func TestBorderOfAUnion(t *testing.T) {
	clockwise := rect(0, 0, 10, 10)
	clockwise[1], clockwise[3] = clockwise[3], clockwise[1]
	cases := []struct {
		name   string
		pieces [][]fitment.Pt
		want   float64 // perimeter, by hand
	}{
		{"one square", [][]fitment.Pt{rect(0, 0, 10, 10)}, 40},
		{"the same turning the other way", [][]fitment.Pt{clockwise}, 40},
		{"two apart", [][]fitment.Pt{rect(0, 0, 10, 10), rect(20, 0, 30, 10)}, 80},
		{"side by side: no seam", [][]fitment.Pt{rect(0, 0, 10, 10), rect(10, 0, 20, 10)}, 60},
		{"side by side, one longer", [][]fitment.Pt{rect(0, 0, 10, 10), rect(10, -5, 20, 15)}, 80},
		{"twice the same: drawn once", [][]fitment.Pt{rect(0, 0, 10, 10), rect(0, 0, 10, 10)}, 40},
		{"a cross", [][]fitment.Pt{rect(-15, -5, 15, 5), rect(-5, -15, 5, 15)}, 120},
		{"one inside another", [][]fitment.Pt{rect(0, 0, 30, 30), rect(10, 10, 20, 20)}, 120},
		{"one flush in a corner", [][]fitment.Pt{rect(0, 0, 30, 30), rect(0, 0, 10, 10)}, 120},
	}
	for _, c := range cases {
		require.InDelta(t, c.want, pathLength(Border(c.pieces)), 0.1, c.name)
	}
}

// unionOf measures a union of rectangles on the grid of all their sides: the
// plain way, without any clipping.
func unionOf(rects [][]fitment.Pt) (area, perimeter float64) {
	var xs, ys []float64
	for _, r := range rects {
		xs, ys = append(xs, r[0][0], r[2][0]), append(ys, r[0][1], r[2][1])
	}
	sort.Float64s(xs)
	sort.Float64s(ys)
	full := func(i, j int) bool {
		if i < 0 || j < 0 || i+1 >= len(xs) || j+1 >= len(ys) {
			return false
		}
		x, y := (xs[i]+xs[i+1])/2, (ys[j]+ys[j+1])/2
		for _, r := range rects {
			if x > r[0][0] && x < r[2][0] && y > r[0][1] && y < r[2][1] {
				return true
			}
		}
		return false
	}
	for i := 0; i+1 < len(xs); i++ {
		for j := 0; j+1 < len(ys); j++ {
			dx, dy := xs[i+1]-xs[i], ys[j+1]-ys[j]
			if !full(i, j) {
				continue
			}
			area += dx * dy
			for _, side := range [4]struct {
				i, j int
				l    float64
			}{{i - 1, j, dy}, {i + 1, j, dy}, {i, j - 1, dx}, {i, j + 1, dx}} {
				if next := nextCell(xs, ys, side.i, side.j, i, j); !full(next[0], next[1]) {
					perimeter += side.l
				}
			}
		}
	}
	return area, perimeter
}

// nextCell steps over cells without width: two sides at one figure.
func nextCell(xs, ys []float64, i, j, fromI, fromJ int) [2]int {
	di, dj := i-fromI, j-fromJ
	for i >= 0 && i+1 < len(xs) && xs[i] == xs[i+1] && di != 0 {
		i += di
	}
	for j >= 0 && j+1 < len(ys) && ys[j] == ys[j+1] && dj != 0 {
		j += dj
	}
	return [2]int{i, j}
}

func drawRects(t *rapid.T) [][]fitment.Pt {
	var list [][]fitment.Pt
	for range rapid.IntRange(1, 7).Draw(t, "n") {
		at := func(n string) float64 { return 10 * float64(rapid.IntRange(0, 12).Draw(t, n)) }
		x, y := at("x"), at("y")
		list = append(list, rect(x, y, x+10+at("w"), y+10+at("h")))
	}
	return list
}

func TestBorderAgainstAGridOfCells(t *testing.T) {
	merged, apart := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		rects := drawRects(t)
		_, want := unionOf(rects)
		if got := pathLength(Border(rects)); math.Abs(got-want) > 0.5 {
			t.Fatalf("border %v, the grid says %v", got, want)
		}
		single := 0.0
		for _, r := range rects {
			single += 2 * (r[2][0] - r[0][0] + r[2][1] - r[0][1])
		}
		if want < single-1 {
			merged++
		} else {
			apart++
		}
	})
	require.NotZero(t, merged, "no case overlapped")
	require.NotZero(t, apart, "every case overlapped")
}

// Hatching lines a distance apart cover, in total, the area over the spacing.
func TestHatchCoversTheUnionOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rects := drawRects(t)
		area, perimeter := unionOf(rects)
		const spacing = 0.5
		sum := 0.0
		for _, h := range Hatch(rects, nil, rapid.Float64Range(0.2, 1.3).Draw(t, "angle"), spacing) {
			sum += math.Hypot(h[1][0]-h[0][0], h[1][1]-h[0][1])
		}
		if math.Abs(sum*spacing-area) > perimeter*spacing {
			t.Fatalf("hatching stands for %v, the area is %v", sum*spacing, area)
		}
	})
}

func TestHatchKeepsOutOfTheBore(t *testing.T) {
	outer, bore := [][]fitment.Pt{rect(-50, -50, 50, 50)}, [][]fitment.Pt{rect(-20, -20, 20, 20)}
	lines := Hatch(outer, bore, math.Pi/4, 7)
	require.NotEmpty(t, lines)
	for _, h := range lines {
		for _, f := range []float64{0.01, 0.5, 0.99} {
			p := lerp(h[0], h[1], f)
			require.Less(t, view.Distance(p, outer[0]), 1e-6)
			require.False(t, math.Abs(p[0]) < 20-1e-6 && math.Abs(p[1]) < 20-1e-6, "%v lies in the bore", p)
		}
	}
}

// The hatching of a part that is moved stays where it is on the sheet.
func TestHatchIsAnchored(t *testing.T) {
	offset := func(dx float64) float64 {
		h := Hatch([][]fitment.Pt{rect(dx, 0, dx+100, 100)}, nil, math.Pi/4, 8)[3]
		return math.Mod((h[0][1]-h[0][0])/math.Sqrt2+800, 8)
	}
	require.InDelta(t, offset(0), offset(3.7), 1e-6)
}

func TestBordersAreKeptWhileThePiecesStay(t *testing.T) {
	b := &Borders{}
	pieces := [][]fitment.Pt{rect(0, 0, 10, 10), rect(10, 0, 20, 10)}
	first := b.Of(fitment.SideView, 3, pieces)
	again := b.Of(fitment.SideView, 3, [][]fitment.Pt{pieces[0], pieces[1]})
	require.Same(t, &first[0], &again[0])
	moved := b.Of(fitment.SideView, 3, [][]fitment.Pt{rect(0, 0, 10, 10)})
	require.InDelta(t, 40, pathLength(moved), 1e-9, "another shape, another border")
}

func TestHiddenLines(t *testing.T) {
	outs := []fitment.Outline{
		{Part: 0, Seen: [][]fitment.Pt{rect(0, 0, 100, 10)}},
		{Part: 1, Seen: [][]fitment.Pt{rect(40, -50, 60, 50)}},
	}
	hidden := Hidden(outs, fitment.SideView, nil)
	require.Empty(t, hidden[1], "the front one is seen whole")
	sum := 0.0
	for _, h := range hidden[0] {
		sum += math.Hypot(h[1][0]-h[0][0], h[1][1]-h[0][1])
	}
	require.InDelta(t, 40, sum, 1e-6, "20 above and 20 below")
}

func TestPaintOrder(t *testing.T) {
	cut := [][]fitment.Pt{rect(0, 0, 1, 1)}
	outs := []fitment.Outline{
		{Part: 0, Near: 2100, Far: 1900, Cut: cut},
		{Part: 1, Near: 1500, Far: 0},
		{Part: 2, Near: 2600, Far: 2500}, // behind the viewer
		{Part: 3, Near: 100, Far: 0},
	}
	require.Equal(t, []int{3, 1, 0}, parts(PaintOrder(fitment.SectionView, 2000, outs)))
	side := []fitment.Outline{{Part: 0, Near: -400, Far: -300}, {Part: 1, Near: 300, Far: 400}, {Part: 2, Near: -50, Far: 50}}
	require.Equal(t, []int{1, 2, 0}, parts(PaintOrder(fitment.SideView, 0, side)), "the left is nearest")
	plan := []fitment.Outline{{Part: 0, Near: 500, Far: 400}, {Part: 1, Near: 100, Far: 0}}
	require.Equal(t, []int{1, 0}, parts(PaintOrder(fitment.PlanView, 0, plan)), "the top is nearest")
}

func parts(outs []fitment.Outline) []int {
	var list []int
	for _, o := range outs {
		list = append(list, o.Part)
	}
	return list
}
