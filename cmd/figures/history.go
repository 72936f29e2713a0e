package main

import (
	"os"
	"runtime"
	"time"

	"scrubline/scene"
)

// historyFigures measure what undo costs over a long day on the demo vehicle:
// the heap after 5,000 edits, and that it does not go on growing after the
// first thousand; the text of the steps kept beside the document; and the time
// an edit takes to be put into it, natively.
func historyFigures() []figure {
	return []figure{
		{"history-heap-5000-edits", "MB", "<=64", func() (float64, error) {
			_, heap, err := edited(5000)
			return heap, err
		}},
		{"history-heap-5000-over-1000-edits", "ratio", "<=1.1", func() (float64, error) {
			_, less, err := edited(1000)
			if err != nil {
				return 0, err
			}
			_, more, err := edited(5000)
			return more / less, err
		}},
		{"history-packed-5000-edits", "kB", "<=2048", func() (float64, error) {
			h, _, err := edited(5000)
			if err != nil {
				return 0, err
			}
			return float64(len(h.Pack())) / 1000, nil
		}},
		{"history-keep-an-edit", "ms", "<=5", keepTime},
	}
}

// edited is the demo vehicle's history after n moves of its parts in turn, and
// the heap it takes, in MB. It is packed now and then: the text of a step stays with it.
func edited(n int) (*scene.History, float64, error) {
	data, err := os.ReadFile("testdata/scenes/bakery-van.json")
	if err != nil {
		return nil, 0, err
	}
	doc, err := scene.Decode(data)
	if err != nil {
		return nil, 0, err
	}
	before := heapMB()
	h := scene.NewHistory(doc)
	for i := range n {
		if err := moveOne(h, i); err != nil {
			return nil, 0, err
		}
		if i%100 == 99 {
			h.Pack()
		}
	}
	after := heapMB()
	runtime.KeepAlive(h)
	return h, after - before, nil
}

// moveOne makes the i-th move a step; parts that stand where others have them
// are left out.
func moveOne(h *scene.History, i int) error {
	var free []*scene.Part
	for j := range h.Doc().Parts {
		if p := &h.Doc().Parts[j]; !scene.KindNamed(p.Kind).Derived {
			free = append(free, p)
		}
	}
	p := free[i%len(free)]
	at := p.AtMM
	at[0] += float64(1 - 2*(i/len(free)%2)) // there, and back the next time round
	doc, label, err := scene.MovePart(h.Doc(), p.ID, at)
	if err != nil {
		return err
	}
	h.Do(doc, label)
	return nil
}

func heapMB() float64 {
	runtime.GC()
	runtime.GC() // what the first one finalised
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return float64(m.HeapAlloc) / 1e6
}

// keepTime is the median time in which one more edit is packed.
func keepTime() (float64, error) {
	h, _, err := edited(200)
	if err != nil {
		return 0, err
	}
	h.Pack()
	var ms []float64
	for i := range 100 {
		if err := moveOne(h, i); err != nil {
			return 0, err
		}
		start := time.Now()
		h.Pack()
		ms = append(ms, float64(time.Since(start).Microseconds())/1000)
	}
	return median(ms), nil
}
