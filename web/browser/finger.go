package browser

import (
	"context"
	"time"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// Point is a place on the screen in CSS pixels.
type Point struct{ X, Y float64 }

// OnCanvas turns a place the sketcher named (within its canvas) into a place
// on the screen.
func (p *Page) OnCanvas(at [2]float64) (Point, error) {
	r, err := Eval[[]float64](p, `(()=>{const r=document.getElementById("host").getBoundingClientRect();return [r.left,r.top]})()`)
	if err != nil {
		return Point{}, err
	}
	return Point{at[0] + r[0], at[1] + r[1]}, nil
}

// Middle is the middle of the first element that matches, scrolled into view.
func (p *Page) Middle(selector string) (Point, error) {
	r, err := Eval[[]float64](p, `(()=>{const e=document.querySelector(`+quote(selector)+`);e.scrollIntoView({block:"center"});`+
		`const r=e.getBoundingClientRect();return [r.left+r.width/2,r.top+r.height/2]})()`)
	if err != nil {
		return Point{}, err
	}
	return Point{r[0], r[1]}, nil
}

// TapOn taps the first element that matches.
func (p *Page) TapOn(selector string) error {
	at, err := p.Middle(selector)
	if err != nil {
		return err
	}
	return p.Tap(at)
}

// Tap puts one finger down and lifts it.
func (p *Page) Tap(at Point) error {
	if err := p.touch("touchStart", at); err != nil {
		return err
	}
	return p.touch("touchEnd")
}

// Drag moves one finger from one place to another in a number of steps.
func (p *Page) Drag(from, to Point, steps int) error {
	if err := p.Hold(from, to, steps); err != nil {
		return err
	}
	return p.Lift()
}

// Hold moves one finger from one place to another and leaves it down.
func (p *Page) Hold(from, to Point, steps int) error {
	if err := p.touch("touchStart", from); err != nil {
		return err
	}
	for i := 1; i <= steps; i++ {
		f := float64(i) / float64(steps)
		if err := p.touch("touchMove", Point{from.X + f*(to.X-from.X), from.Y + f*(to.Y-from.Y)}); err != nil {
			return err
		}
		time.Sleep(frame)
	}
	return nil
}

// Lift takes away the finger that [Page.Hold] left down.
func (p *Page) Lift() error { return p.touch("touchEnd") }

// Pinch moves two fingers from a first pair of places to a second.
func (p *Page) Pinch(a0, b0, a1, b1 Point, steps int) error {
	if err := p.touch("touchStart", a0); err != nil {
		return err
	}
	if err := p.touch("touchStart", a0, b0); err != nil {
		return err
	}
	for i := 1; i <= steps; i++ {
		f := float64(i) / float64(steps)
		mix := func(u, v Point) Point { return Point{u.X + f*(v.X-u.X), u.Y + f*(v.Y-u.Y)} }
		if err := p.touch("touchMove", mix(a0, a1), mix(b0, b1)); err != nil {
			return err
		}
		time.Sleep(frame)
	}
	return p.touch("touchEnd")
}

// frame is about one frame of a screen: a finger does not move faster.
const frame = 16 * time.Millisecond

func (p *Page) touch(kind input.DispatchTouchEventType, at ...Point) error {
	return chromedp.Do(p.ctx, chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		params := input.DispatchTouchEventParams{Type: kind, TouchPoints: []*input.TouchPoint{}}
		for i, q := range at {
			id, force := float64(i+1), 0.5
			params.TouchPoints = append(params.TouchPoints, &input.TouchPoint{ID: &id, X: q.X, Y: q.Y, Force: &force})
		}
		_, err := chromedp.Call(ctx, input.DispatchTouchEvent, params)
		return err
	}))
}
