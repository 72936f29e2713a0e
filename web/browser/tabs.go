package browser

import (
	"context"
	"errors"
	"sync"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/inspector"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// Another opens a second tab of the same browser: what the first one keeps, it
// finds too.
func (p *Page) Another(size Size) (*Page, error) {
	ctx, stop := chromedp.NewContext(p.ctx)
	q := &Page{ctx: ctx, close: []context.CancelFunc{stop}}
	if err := q.Resize(size); err != nil {
		q.Close()
		return nil, err
	}
	return q, nil
}

// Kill ends the tab as a crash does: nothing in it runs any more, not even
// what a page does when it is closed.
func (p *Page) Kill() error {
	gone := make(chan struct{})
	var once sync.Once
	err := chromedp.Listen(p.ctx, func(ev any) {
		if _, ok := ev.(*inspector.EventTargetCrashed); ok {
			once.Do(func() { close(gone) })
		}
	})
	if err != nil {
		return err
	}
	late, stop := context.WithTimeout(p.ctx, 10*time.Second)
	defer stop()
	go chromedp.Call(late, page.Crash, cdp.Empty{}) // a tab that crashes does not answer
	select {
	case <-gone:
		return nil
	case <-late.Done():
		return errors.New("the tab lives on")
	}
}

// TextSize sets the size of text that the reader has chosen in the browser, in
// pixels; 16 is the usual one.
func (p *Page) TextSize(px int64) error {
	_, err := chromedp.Call(p.ctx, page.SetFontSizes, page.SetFontSizesParams{FontSizes: &page.FontSizes{Standard: px, Fixed: px}})
	return err
}

// Zoom makes the screen one of the given size at a browser zoom of twice.
func (p *Page) Zoom(size Size) error {
	return chromedp.Do(p.ctx, chromedp.EmulateViewport(size.W/2, size.H/2, chromedp.EmulateTouch, chromedp.EmulateScale(2)))
}
