package main

import (
	"context"
	"errors"
	"fmt"
	"math"
	"os"
	"strconv"
	"sync"
	"time"

	"scrubline/wasm/app"
	"scrubline/web"
	"scrubline/web/browser"
)

// dragParts is how many parts the scene has in which one is dragged.
const dragParts = 150

func dragFigures() []figure {
	var once sync.Once
	var share, paint float64
	var err error
	both := func() { once.Do(func() { share, paint, err = dragOnce() }) }
	return []figure{
		{"drag-frames-under-16.7ms", "share-of-frames", ">=0.99", func() (float64, error) { both(); return share, err }},
		{"drag-input-to-paint-ms", "ms-median", "-", func() (float64, error) { both(); return paint, err }},
	}
}

// watchDrag sums the time the sketcher runs for between two frames, timers and
// events included, from the first move on, and takes the time from the first move
// of a frame to the task after that frame.
const watchDrag = `(() => {
  const w = window.dragWatch = { script: [], paint: [], on: true };
  let spent = 0, depth = 0, moved = 0, begun = false;
  const real = Go.prototype._resume;
  Go.prototype._resume = function (...a) {
    const from = performance.now();
    depth++;
    try { return real.apply(this, a); } finally { if (--depth === 0) spent += performance.now() - from; }
  };
  document.getElementById("pad").addEventListener("pointermove", (e) => { moved ||= e.timeStamp; begun = true; }, true);
  const after = new MessageChannel();
  after.port1.onmessage = (e) => w.paint.push(performance.now() - e.data);
  const frame = () => {
    if (begun) w.script.push(spent);
    spent = 0;
    if (moved) after.port2.postMessage(moved);
    moved = 0;
    if (w.on) requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
  return true;
})()`

// dragOnce drags a part through the scene for two hundred moves.
func dragOnce() (share, paint float64, err error) {
	p, stop, err := openDemo("")
	if err != nil {
		return 0, 0, err
	}
	defer stop()
	n, err := browser.Eval[int](p, `JSON.parse(JSON.parse(scrub.send('{"do":"save"}')).text).parts.length`)
	x := 0
	for i := 0; err == nil && n+i < dragParts; i++ {
		x, err = placeCrate(p, i)
	}
	if err == nil { // the section through the last one
		_, err = p.Send(app.Command{Do: "station", MM: float64(x)})
	}
	if err != nil {
		return 0, 0, err
	}
	time.Sleep(3 * time.Second) // the check of all pairs
	l, err := p.Look()
	if err != nil {
		return 0, 0, err
	}
	at, ok := l.Parts[l.Selected]
	if !ok {
		return 0, 0, fmt.Errorf("the part to drag is not in the view: %q at station %g", l.Selected, l.StationMM)
	}
	from, err := p.OnCanvas(at)
	if err == nil {
		_, err = browser.Eval[bool](p, watchDrag)
	}
	if err == nil {
		err = p.Hold(from, browser.Point{X: from.X + 100, Y: from.Y - 60}, 200)
	}
	if err != nil {
		return 0, 0, err
	}
	if l, err = p.Look(); err != nil {
		return 0, 0, err
	}
	if to := l.Parts[l.Selected]; math.Hypot(to[0]-at[0], to[1]-at[1]) < 50 {
		return 0, 0, errors.New("the part did not follow the finger")
	}
	script, err := browser.Eval[[]float64](p, `(dragWatch.on = false, dragWatch.script)`)
	if err != nil {
		return 0, 0, err
	}
	paints, err := browser.Eval[[]float64](p, `dragWatch.paint`)
	if err == nil {
		err = p.Lift()
	}
	if err != nil || len(script) < 10 || len(paints) == 0 {
		return 0, 0, fmt.Errorf("too few frames to tell: %d (%v)", len(script), err)
	}
	under := 0
	for _, ms := range script {
		if ms < 16.7 {
			under++
		}
	}
	return float64(under) / float64(len(script)), median(paints), nil
}

// placeCrate puts a box on the load floor, three abreast from the rear, none on another; the
// last one placed stays selected. It says at which station.
func placeCrate(p *browser.Page, i int) (x int, err error) {
	if _, err = p.Send(app.Command{Do: "place", Kind: "box"}); err != nil {
		return 0, err
	}
	l, err := p.Look()
	if err != nil {
		return 0, err
	}
	x = 4050 - 350*(i/3)
	for k, mm := range [3]int{x, -300 + 300*(i%3), 1000} {
		c := app.Command{Do: "edit", Target: "part:" + l.Selected, Field: [3]string{"at_x", "at_y", "at_z"}[k], Text: strconv.Itoa(mm)}
		if r, err := p.Send(c); err != nil || r.Error != "" {
			return 0, fmt.Errorf("placing a box: %v %s", err, r.Error)
		}
	}
	return x, nil
}

// openDemo serves the page and opens it with the demo vehicle; first runs
// before anything else of the page.
func openDemo(first string) (p *browser.Page, stop func(), err error) {
	dir, err := web.Build(context.Background(), os.Stderr)
	if err != nil {
		return nil, nil, err
	}
	url, end, err := serve(web.Handler(dir))
	if err != nil {
		return nil, nil, err
	}
	p, err = browser.Open(context.Background(), browser.Landscape)
	if err != nil {
		end()
		return nil, nil, err
	}
	stop = func() { p.Close(); end() }
	if first != "" {
		err = p.Before(first)
	}
	if err == nil {
		err = p.Goto(url)
	}
	if err != nil {
		stop()
		return nil, nil, err
	}
	return p, stop, nil
}
