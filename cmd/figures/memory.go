package main

import (
	"fmt"
	"sync"

	"scrubline/web/browser"
)

func memoryFigures() []figure {
	var once sync.Once
	var few, many float64
	var err error
	both := func() { once.Do(func() { few, many, err = memoryAfterEdits() }) }
	return []figure{
		{"page-memory-after-5000-edits", "MB", "<=256", func() (float64, error) { both(); return many, err }},
		{"page-memory-after-5000-over-100-edits", "ratio", "<=3", func() (float64, error) { both(); return many / few, err }},
	}
}

// keepMemory holds on to the sketcher's linear memory, which the page keeps to itself.
const keepMemory = `for (const name of ["instantiateStreaming", "instantiate"]) {
  const real = WebAssembly[name];
  WebAssembly[name] = async (...a) => {
    const r = await real.apply(WebAssembly, a);
    window.sketcherMemory = (r.instance ?? r).exports.mem; // of a compiled module comes the instance itself
    return r;
  };
}`

// edits makes a number of edits, with a frame after each ten, as a long day does.
const edits = `(async (from, to) => {
  for (let i = from; i < to; i++) {
    const r = JSON.parse(scrub.send(JSON.stringify({ do: "edit", target: "scene", field: "name", text: "Van " + i })));
    if (r.error) return r.error;
    if (i %% 10 === 0) await new Promise((done) => requestAnimationFrame(done));
  }
  await new Promise((done) => setTimeout(done, 1000));
  return "";
})(%d, %d)`

// memoryAfterEdits is what the page holds after a hundred and after five
// thousand edits, in MB: the sketcher's memory, which never shrinks, and the
// page's own objects after a collection.
func memoryAfterEdits() (few, many float64, err error) {
	p, stop, err := openDemo(keepMemory)
	if err != nil {
		return 0, 0, err
	}
	defer stop()
	var held [2]float64
	for i, run := range [2][2]int{{0, 100}, {100, 5000}} {
		said, err := browser.Await[string](p, fmt.Sprintf(edits, run[0], run[1]))
		if err == nil && said != "" {
			err = fmt.Errorf("an edit was refused: %s", said)
		}
		if err == nil {
			err = p.Collect()
		}
		if err == nil {
			held[i], err = browser.Eval[float64](p, `(sketcherMemory.buffer.byteLength + performance.memory.usedJSHeapSize) / 1e6`)
		}
		if err != nil {
			return 0, 0, err
		}
	}
	return held[0], held[1], nil
}
