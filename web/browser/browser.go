// Package browser opens the served page in a real Chromium and works it the
// way a finger does, for the browser tests and the measured figures. Nothing
// of the product imports it.
package browser

import (
	"context"
	"encoding/json"
	"fmt"
	"os/exec"
	"time"

	"github.com/chromedp/chromedp"

	"scrubline/wasm/app"
)

// names are what Chromium is called on Debian, Ubuntu and elsewhere.
var names = []string{"chromium", "chromium-browser", "google-chrome"}

// Page is one tab. Its methods return the first error of the tab: after one,
// nothing that follows can be trusted.
type Page struct {
	ctx   context.Context
	close []context.CancelFunc
}

// Size is a screen in CSS pixels.
type Size struct{ W, H int64 }

// The screens everything has to work on: a tablet both ways round, a phone.
var (
	Landscape = Size{1180, 820}
	Portrait  = Size{820, 1180}
	Phone     = Size{390, 844}
)

// Open starts a browser of its own with an empty profile and a touch screen of
// the given size.
func Open(parent context.Context, size Size) (*Page, error) { return OpenAs(parent, size, "") }

// OpenAs is [Open] for a browser in which a host name stands for this machine,
// as one in a shop's network would: a name that is not localhost gets none of
// what browsers keep for trusted addresses.
func OpenAs(parent context.Context, size Size, name string) (*Page, error) {
	if name == "" {
		return start(parent, size)
	}
	return start(parent, size, chromedp.Flag("host-resolver-rules", "MAP "+name+" 127.0.0.1"))
}

// OpenShared is [Open] for a browser that many tests open tabs in: tabs of one
// host run in one process, so that a sketcher compiled in one, as long as that
// stays open, is there at once in the next. Servers on ports of their own keep
// what such tabs store apart.
func OpenShared(parent context.Context, size Size) (*Page, error) {
	return start(parent, size, chromedp.Flag("process-per-site", true))
}

func start(parent context.Context, size Size, more ...chromedp.ExecAllocatorOption) (*Page, error) {
	bin, err := find()
	if err != nil {
		return nil, err
	}
	opts := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(bin),
		chromedp.NoSandbox, // tests run as root in containers
		chromedp.Flag("enable-unsafe-swiftshader", true),
		chromedp.Flag("use-angle", "swiftshader"),
		chromedp.Flag("disable-quic", true),
		chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-background-networking", true),
		chromedp.WindowSize(int(size.W), int(size.H)),
	)
	p := &Page{}
	alloc, stopAlloc := chromedp.NewExecAllocator(parent, append(opts, more...)...)
	ctx, stop := chromedp.NewContext(alloc)
	p.ctx, p.close = ctx, []context.CancelFunc{stop, stopAlloc}
	if err := p.Resize(size); err != nil {
		p.Close()
		return nil, fmt.Errorf("the browser does not start: %w", err)
	}
	return p, nil
}

func find() (string, error) {
	for _, n := range names {
		if bin, err := exec.LookPath(n); err == nil {
			return bin, nil
		}
	}
	return "", fmt.Errorf("no Chromium on this machine: go run ./cmd/verify installs one")
}

// Close ends the browser.
func (p *Page) Close() {
	for _, f := range p.close {
		f()
	}
}

// Context is the tab's context, for calls this package has no method for.
func (p *Page) Context() context.Context { return p.ctx }

// Resize makes the screen another size, with touch.
func (p *Page) Resize(size Size) error {
	return chromedp.Do(p.ctx, chromedp.EmulateViewport(size.W, size.H, chromedp.EmulateTouch))
}

// Goto loads an address and waits until the sketcher has drawn.
func (p *Page) Goto(url string) error {
	if err := p.Navigate(url); err != nil {
		return err
	}
	return p.ready()
}

// ready waits until the page is whole and the sketcher has drawn.
func (p *Page) ready() error {
	return p.Wait(`!!(window.scrub && document.documentElement.dataset.ready === "1" && JSON.parse(scrub.look()).frames > 1)`)
}

// Navigate loads an address.
func (p *Page) Navigate(url string) error { return chromedp.Do(p.ctx, chromedp.Navigate(url)) }

// Wait polls until an expression is true, for at most two minutes. Polling from
// outside needs no eval in the page, which its policy forbids.
func (p *Page) Wait(expr string) error {
	late := time.Now().Add(2 * time.Minute)
	for {
		ok, err := Eval[bool](p, expr)
		if err == nil && ok {
			return nil
		}
		if time.Now().After(late) {
			return fmt.Errorf("still not so after two minutes: %s (%v)", expr, err)
		}
		time.Sleep(30 * time.Millisecond)
	}
}

// Eval runs a JavaScript expression in the page.
func Eval[T any](p *Page, expr string) (T, error) {
	return chromedp.Run(p.ctx, chromedp.Evaluate[T](expr))
}

// Look asks the sketcher where things are on the canvas.
func (p *Page) Look() (app.Look, error) {
	var l app.Look
	text, err := Eval[string](p, "scrub.look()")
	if err == nil {
		err = json.Unmarshal([]byte(text), &l)
	}
	return l, err
}

// Send gives the sketcher a command, as the page's buttons do.
func (p *Page) Send(c app.Command) (app.Reply, error) {
	var r app.Reply
	cmd, err := json.Marshal(c)
	if err != nil {
		return r, err
	}
	text, err := Eval[string](p, "scrub.send("+quote(string(cmd))+")")
	if err == nil {
		err = json.Unmarshal([]byte(text), &r)
	}
	return r, err
}

// Shot is a picture of the screen, PNG.
func (p *Page) Shot() ([]byte, error) {
	return chromedp.Run(p.ctx, chromedp.CaptureScreenshot())
}

// quote makes a Go string a JavaScript one.
func quote(s string) string {
	b, _ := json.Marshal(s) // a string always marshals
	return string(b)
}
