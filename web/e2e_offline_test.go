//go:build e2e

package web_test

import (
	"net/http/httptest"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/web/browser"
)

// Loaded once, the page works without the server: it opens again, with the
// work in it, and takes further edits.
func TestE2EWithoutANetworkTheWorkOpensAgain(t *testing.T) {
	server := httptest.NewServer(handler(t))
	stopped := false
	stop := func() {
		if !stopped {
			stopped = true
			server.CloseClientConnections()
			server.Close()
		}
	}
	t.Cleanup(stop)
	x := openAt(t, browser.Landscape, server.URL+"/")
	x.wait(`!!navigator.serviceWorker.controller`)
	x.placePart("box")
	placed := x.file()
	x.eventually("the work is kept", func() bool { return x.kept("current") == placed })

	stop()
	_, err := server.Client().Get(server.URL)
	require.Error(t, err, "the server is down")
	x.must(x.Reload())
	x.checked()
	assert.Equal(t, placed, x.file())
	assert.Len(t, x.rows(), x.look().Findings)

	x.tap(".menu-top")
	x.wait(`[...document.querySelectorAll(".menu-status")].some((e) => e.textContent === "Works without a network.")`)
	x.tap(".menu-top")
	x.placePart("air_tank")
	more := x.file()
	assert.NotEqual(t, placed, more)
	x.eventually("the work is kept", func() bool { return x.kept("current") == more })
	x.must(x.Reload())
	x.checked()
	assert.Equal(t, more, x.file())
}
