//go:build e2e

package web_test

import (
	"context"
	"net/http/httptest"
	"os"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/web/browser"
)

// shared is the browser that tests open their tabs in. Its first tab holds the
// sketcher, which the others then need not compile again.
var shared oneBrowser

type oneBrowser struct {
	mu     sync.Mutex
	first  *browser.Page
	server *httptest.Server
}

// another is a new tab; the browser is started when there is none that answers.
func (b *oneBrowser) another(t *testing.T, size browser.Size) (*browser.Page, error) {
	t.Helper()
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.first != nil {
		if _, err := browser.Eval[bool](b.first, "true"); err != nil {
			b.close()
		}
	}
	if b.first == nil {
		p, err := browser.OpenShared(context.Background(), browser.Landscape)
		require.NoError(t, err)
		b.first, b.server = p, httptest.NewServer(handler(t))
		if err := p.Goto(b.server.URL); err != nil {
			b.close()
			return nil, err
		}
	}
	return b.first.Another(size)
}

func (b *oneBrowser) close() {
	if b.first != nil {
		b.first.Close()
		b.server.Close()
		b.first, b.server = nil, nil
	}
}

func TestMain(m *testing.M) {
	code := m.Run()
	shared.close()
	os.Exit(code)
}
