package browser

import (
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/heapprofiler"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// Before has a script run in every page before the page's own ones.
func (p *Page) Before(script string) error {
	_, err := chromedp.Call(p.ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: script})
	return err
}

// Collect has the page's unused objects taken away.
func (p *Page) Collect() error {
	_, err := chromedp.Call(p.ctx, heapprofiler.CollectGarbage, cdp.Empty{})
	return err
}
