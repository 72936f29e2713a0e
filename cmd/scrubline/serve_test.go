package main

import (
	"bytes"
	"context"
	"io"
	"net"
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestServeRefusesWhatItDoesNotKnow(t *testing.T) {
	for _, args := range [][]string{{"-port", "1"}, {"-listen"}, {"page"}, {"-listen", "nowhere:port"}} {
		var out, complaint bytes.Buffer
		assert.Equal(t, 2, runServe(args, &out, &complaint), args)
		assert.Equal(t, 1, bytes.Count(complaint.Bytes(), []byte("\n")), "one line: %s", complaint.String())
	}
}

func TestServeOutsideTheSourcesSaysWhereToStart(t *testing.T) {
	t.Chdir(t.TempDir())
	var out, complaint bytes.Buffer
	assert.Equal(t, 2, runServe([]string{"-listen", "127.0.0.1:0"}, &out, &complaint))
	assert.Contains(t, complaint.String(), "go.mod")
	assert.Equal(t, 1, bytes.Count(complaint.Bytes(), []byte("\n")))
}

func TestServeAnswersUntilItIsStopped(t *testing.T) {
	socket, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	page := http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { io.WriteString(w, "here") })
	go func() { ended <- serveOn(ctx, socket, page) }()
	r, err := http.Get("http://" + socket.Addr().String())
	require.NoError(t, err)
	text, err := io.ReadAll(r.Body)
	require.NoError(t, err)
	r.Body.Close()
	assert.Equal(t, "here", string(text))
	stop()
	assert.NoError(t, <-ended)
	_, err = http.Get("http://" + socket.Addr().String())
	assert.Error(t, err)
}

func TestTheAddressIsToldAndHowATabletGetsThere(t *testing.T) {
	var out bytes.Buffer
	local := describe(&out, &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 8765})
	assert.Equal(t, "http://127.0.0.1:8765/", local)
	assert.Contains(t, out.String(), "-listen :8765")

	out.Reset()
	// RFC 5737: 192.0.2.0/24 is for examples.
	local = describe(&out, &net.TCPAddr{IP: net.IPv4(192, 0, 2, 7), Port: 80})
	assert.Equal(t, "http://192.0.2.7:80/", local)
	assert.Contains(t, out.String(), "On a tablet in the same network: http://192.0.2.7:80/")
	assert.Contains(t, out.String(), "certificate")
}

func TestOnlyAddressesOthersReachAreListed(t *testing.T) {
	mask := net.CIDRMask(24, 32)
	list := func() ([]net.Addr, error) {
		return []net.Addr{
			&net.IPNet{IP: net.IPv4(127, 0, 0, 1), Mask: mask},
			&net.IPNet{IP: net.IPv4(169, 254, 3, 4), Mask: mask}, // link-local, RFC 3927
			&net.IPNet{IP: net.IPv4(192, 0, 2, 7), Mask: mask},
			&net.IPNet{IP: net.ParseIP("2001:db8::1"), Mask: net.CIDRMask(64, 128)},
		}, nil
	}
	assert.Equal(t, []string{"192.0.2.7"}, ownAddresses(list))
}
