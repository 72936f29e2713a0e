package browser

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// Watch is what a tab did that no page should do. It fills from the moment
// [Page.Watch] is called.
type Watch struct {
	mu         sync.Mutex
	complaints []string
	requests   []string
}

// Watch begins to note what the tab says on its console as an error and every
// address that it asks for.
func (p *Page) Watch() (*Watch, error) {
	w := &Watch{}
	err := chromedp.Listen(p.ctx, func(ev any) {
		w.mu.Lock()
		defer w.mu.Unlock()
		switch e := ev.(type) {
		case *runtime.EventExceptionThrown:
			w.complaints = append(w.complaints, e.ExceptionDetails.Text)
		case *runtime.EventConsoleAPICalled:
			if e.Type == runtime.ConsoleAPICalledTypeError {
				w.complaints = append(w.complaints, words(e.Args))
			}
		case *log.EventEntryAdded:
			if e.Entry.Level == log.EntryLevelError {
				w.complaints = append(w.complaints, e.Entry.Text+" "+e.Entry.URL)
			}
		case *network.EventRequestWillBeSent:
			w.requests = append(w.requests, e.Request.URL)
		}
	})
	if err == nil {
		_, err = chromedp.Call(p.ctx, network.Enable, network.EnableParams{})
	}
	return w, err
}

func words(args []*runtime.RemoteObject) string {
	var all []string
	for _, a := range args {
		if all = append(all, a.Description); a.Description == "" {
			all[len(all)-1] = string(a.Value)
		}
	}
	return strings.Join(all, " ")
}

// Complaints are the errors of the console so far.
func (w *Watch) Complaints() []string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return append([]string{}, w.complaints...)
}

// Requests are the addresses asked for so far.
func (w *Watch) Requests() []string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return append([]string{}, w.requests...)
}

// Downloads has the browser put what it downloads into a folder.
func (p *Page) Downloads(folder string) error {
	_, err := chromedp.CallBrowser(p.ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{
		Behavior: browser.SetDownloadBehaviorBehaviorAllow, DownloadPath: folder})
	return err
}

// Prefers makes the device one that is set to light or to dark.
func (p *Page) Prefers(theme string) error {
	_, err := chromedp.Call(p.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: theme}}})
	return err
}

// Choose gives the page a file when what ask does makes it ask for one.
func (p *Page) Choose(file string, ask func() error) error {
	path, err := filepath.Abs(file) // the browser is in a folder of its own
	if err != nil {
		return err
	}
	late, stop := context.WithTimeout(p.ctx, time.Minute)
	defer stop()
	if _, err := chromedp.Call(late, page.SetInterceptFileChooserDialog, page.SetInterceptFileChooserDialogParams{Enabled: true}); err != nil {
		return err
	}
	asked := chromedp.Func(func(context.Context, *chromedp.Target) error { return ask() })
	field, err := chromedp.Run(late, chromedp.WaitEvent(page.FileChooserOpened, nil, asked))
	if err != nil {
		return fmt.Errorf("the page asked for no file: %w", err)
	}
	_, err = chromedp.Call(late, dom.SetFileInputFiles, dom.SetFileInputFilesParams{Files: []string{path}, BackendNodeID: field.BackendNodeID})
	return err
}

// Type sends text, one key after the other, to what has the focus.
func (p *Page) Type(text string) error { return chromedp.Do(p.ctx, chromedp.KeyEvent(text)) }

// Reload loads the page again and waits until the sketcher has drawn.
func (p *Page) Reload() error {
	if err := chromedp.Do(p.ctx, chromedp.Reload()); err != nil {
		return err
	}
	return p.ready()
}

// Await is [Eval] for an expression that is a promise.
func Await[T any](p *Page, expr string) (T, error) {
	return chromedp.Run(p.ctx, chromedp.Evaluate[T](expr, chromedp.EvalAwaitPromise))
}
