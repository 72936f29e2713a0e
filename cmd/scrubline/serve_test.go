package main

import (
	"bytes"
	"context"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"io"
	"math/big"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestServeRefusesWhatItDoesNotKnow(t *testing.T) {
	for _, args := range [][]string{{"-port", "1"}, {"-listen"}, {"page"}, {"-listen", "nowhere:port"},
		{"-cert", "only.pem"}, {"-cert", "none.pem", "-key", "none.pem"}} {
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
	local, others := describe(&out, &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 8765}, false)
	assert.Equal(t, "http://127.0.0.1:8765/", local)
	assert.Empty(t, others)
	assert.Contains(t, out.String(), "-listen :8765")

	out.Reset()
	// RFC 5737: 192.0.2.0/24 is for examples.
	local, others = describe(&out, &net.TCPAddr{IP: net.IPv4(192, 0, 2, 7), Port: 80}, false)
	assert.Equal(t, "http://192.0.2.7:80/", local)
	assert.Equal(t, []string{local}, others)
	assert.Contains(t, out.String(), "On a tablet in the same network: http://192.0.2.7:80/")
	// What W3C Secure Contexts takes away: service workers, and so installing and
	// working without a network; Web Share; Screen Wake Lock; StorageManager.persist.
	works, withheld, both := strings.Cut(out.String(), "does not work")
	require.True(t, both)
	for _, word := range []string{"drawing", "checking", "opening and saving files", "kept on the tablet"} {
		assert.Contains(t, works, word)
	}
	for _, word := range []string{"without the network", "home screen", "sharing", "awake", "clear", "-cert", "scrubline export"} {
		assert.Contains(t, withheld, word)
	}

	out.Reset()
	local, _ = describe(&out, &net.TCPAddr{IP: net.IPv4(192, 0, 2, 7), Port: 443}, true)
	assert.Equal(t, "https://192.0.2.7:443/", local)
	assert.NotContains(t, out.String(), "does not work")
}

func TestACertificateMakesItHTTPS(t *testing.T) {
	cert, key, roots := selfSigned(t)
	socket, err := listen(serving{listen: "127.0.0.1:0", cert: cert, key: key})
	require.NoError(t, err)
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	ended := make(chan error, 1)
	page := http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { io.WriteString(w, "here") })
	go func() { ended <- serveOn(ctx, socket, page) }()
	client := &http.Client{Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: roots}}}
	defer client.CloseIdleConnections()
	r, err := client.Get("https://" + socket.Addr().String())
	require.NoError(t, err)
	r.Body.Close()
	assert.Equal(t, http.StatusOK, r.StatusCode)
	stop()
	assert.NoError(t, <-ended)
}

// selfSigned writes a certificate for 127.0.0.1 and its key, and returns a
// pool that trusts it.
func selfSigned(t *testing.T) (cert, key string, roots *x509.CertPool) {
	t.Helper()
	private, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	require.NoError(t, err)
	template := &x509.Certificate{
		SerialNumber: big.NewInt(1), NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(time.Hour),
		IPAddresses: []net.IP{net.IPv4(127, 0, 0, 1)}, IsCA: true, BasicConstraintsValid: true,
	}
	der, err := x509.CreateCertificate(rand.Reader, template, template, &private.PublicKey, private)
	require.NoError(t, err)
	secret, err := x509.MarshalPKCS8PrivateKey(private)
	require.NoError(t, err)
	cert, key = filepath.Join(t.TempDir(), "cert.pem"), filepath.Join(t.TempDir(), "key.pem")
	block := pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der})
	require.NoError(t, os.WriteFile(cert, block, 0o600))
	require.NoError(t, os.WriteFile(key, pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: secret}), 0o600))
	roots = x509.NewCertPool()
	require.True(t, roots.AppendCertsFromPEM(block))
	return cert, key, roots
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
