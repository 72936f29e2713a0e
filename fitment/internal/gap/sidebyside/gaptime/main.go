// Command gaptime measures the gap engine on pairs that stand apart, natively
// or as WebAssembly, for comparison with the outside judge.
//
//	gaptime pairs              the pairs as text, for the judge
//	gaptime time ROUNDS MS     lines of: group, mean gap (mm), ns a gap of each round
//	gaptime allocations        the most heap allocations of one gap of any two kinds
package main

import (
	"fmt"
	"os"
	"strconv"
	"testing"
	"time"

	"scrubline/fitment/internal/gap"
	"scrubline/fitment/internal/gap/sidebyside"
	"scrubline/fitment/internal/solid"
)

func main() {
	args := os.Args[1:]
	switch {
	case len(args) == 1 && args[0] == "pairs":
		for _, g := range groups() {
			fmt.Println("#", g.name)
			for i := range g.a {
				line, _ := sidebyside.Line(&g.a[i], &g.b[i])
				fmt.Print(line)
			}
		}
	case len(args) == 3 && args[0] == "time":
		rounds, err1 := strconv.Atoi(args[1])
		ms, err2 := strconv.ParseFloat(args[2], 64)
		if err1 != nil || err2 != nil {
			fail()
		}
		for _, g := range groups() {
			g.time(rounds, ms)
		}
	case len(args) == 1 && args[0] == "allocations":
		fmt.Println(allocations())
	default:
		fail()
	}
}

func fail() {
	fmt.Fprintln(os.Stderr, "usage: gaptime pairs | time ROUNDS MS | allocations")
	os.Exit(2)
}

// group is the pairs of two kinds.
type group struct {
	name string
	a, b []solid.Solid
}

const pairsOfGroup = 128

// groups are the kinds that both sides have, each with each. Discs are left
// out: the judge has none, and one as a cylinder would be another question.
func groups() []group {
	var out []group
	for i, ka := range sidebyside.Kinds {
		for j, kb := range sidebyside.Kinds[:i+1] {
			if ka == solid.Disc || kb == solid.Disc {
				continue
			}
			m := sidebyside.NewMaker(int64(100*i + j))
			m.Sharp = true
			g := group{name: sidebyside.Names[j] + "-" + sidebyside.Names[i]}
			for range pairsOfGroup {
				a, b := m.Apart(kb, ka)
				g.a, g.b = append(g.a, a), append(g.b, b)
			}
			out = append(out, g)
		}
	}
	return out
}

// pass measures every pair once, with both points.
func (g *group) pass() (sum float64) {
	for i := range g.a {
		r := gap.Between(&g.a[i], &g.b[i]) // no inlined call: its points are computed too
		sum += r.Gap
	}
	return sum
}

var sink gap.Result

// warmMS is how long a group runs before it is timed: WebAssembly is compiled
// anew while it runs, until it is fast.
const warmMS = 60

func (g *group) time(rounds int, ms float64) {
	start := time.Now()
	warm, mean := 0, 0.0
	for time.Since(start).Seconds()*1e3 < warmMS {
		mean = g.pass() / float64(len(g.a))
		warm++
	}
	passes := 1 + int(float64(warm)*ms/warmMS)
	fmt.Print(g.name, " ", mean)
	for range rounds {
		start = time.Now()
		for range passes {
			g.pass()
		}
		ns := float64(time.Since(start).Nanoseconds()) / float64(passes*len(g.a))
		fmt.Print(" ", ns)
	}
	fmt.Println()
}

// allocations is the most of any two kinds, arcs among them, apart and
// overlapping.
func allocations() (most float64) {
	kinds := append([]solid.Kind{solid.Arc}, sidebyside.Kinds...)
	for _, ka := range kinds {
		for _, kb := range kinds {
			m := sidebyside.NewMaker(int64(ka)*100 + int64(kb))
			for i := range 20 {
				a, b := m.Pair(ka, kb, sidebyside.Class(i%int(sidebyside.Classes)))
				most = max(most, testing.AllocsPerRun(2, func() { sink = gap.Between(&a, &b) }))
			}
		}
	}
	return most
}
