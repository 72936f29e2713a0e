package browser

import (
	"context"
	"time"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// Pointer is what else than a finger points: a pen or a mouse.
type Pointer = input.DispatchMouseEventPointerType

// The two of them.
const (
	Pen   = input.DispatchMouseEventPointerTypePen
	Mouse = input.DispatchMouseEventPointerTypeMouse
)

// Stroke presses with a pen or a mouse, moves in steps and lets go.
func (p *Page) Stroke(with Pointer, from, to Point, steps int) error {
	if err := p.point(with, "mouseMoved", from, 0); err != nil {
		return err
	}
	if err := p.point(with, "mousePressed", from, 0.5); err != nil {
		return err
	}
	for i := 1; i <= steps; i++ {
		f := float64(i) / float64(steps)
		if err := p.point(with, "mouseMoved", Point{from.X + f*(to.X-from.X), from.Y + f*(to.Y-from.Y)}, 0.5); err != nil {
			return err
		}
		time.Sleep(frame)
	}
	return p.point(with, "mouseReleased", to, 0)
}

func (p *Page) point(with Pointer, kind input.DispatchMouseEventType, at Point, pressure float64) error {
	return chromedp.Do(p.ctx, chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		params := input.DispatchMouseEventParams{Type: kind, X: at.X, Y: at.Y, PointerType: with, Force: pressure}
		if kind != "mouseMoved" {
			params.Button, params.ClickCount = "left", 1
		}
		if pressure > 0 {
			params.Buttons = 1
		}
		_, err := chromedp.Call(ctx, input.DispatchMouseEvent, params)
		return err
	}))
}
