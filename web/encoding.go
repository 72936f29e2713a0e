package web

import (
	"compress/gzip"
	"context"
	"io"
	"strconv"
	"strings"

	"github.com/andybalholm/brotli"
)

// encoding is one way to send a file packed.
type encoding struct {
	name   string // as in Content-Encoding
	suffix string // of the packed file beside the plain one
	pack   func(ctx context.Context, to io.Writer, data []byte) error
}

// encodings lists what is offered, the smallest first.
var encodings = [2]encoding{
	{"br", ".br", packBrotli},
	{"gzip", ".gz", packGzip},
}

// brotliWindow is the largest that RFC 7932 (9.1) allows, 16 MB: the sketcher
// repeats itself over longer ways than the usual 4 MB.
const brotliWindow = 24

func packBrotli(ctx context.Context, to io.Writer, data []byte) error {
	w := brotli.NewWriterOptions(to, brotli.WriterOptions{Quality: brotli.BestCompression, LGWin: brotliWindow})
	return packInto(ctx, w, data)
}

func packGzip(ctx context.Context, to io.Writer, data []byte) error {
	w, err := gzip.NewWriterLevel(to, gzip.BestCompression)
	if err != nil {
		return err
	}
	return packInto(ctx, w, data)
}

// packInto writes data in slices, so that a packing that takes seconds can be
// stopped between them.
func packInto(ctx context.Context, w io.WriteCloser, data []byte) error {
	const slice = 1 << 18
	for len(data) > 0 {
		if err := ctx.Err(); err != nil {
			return err
		}
		n := min(slice, len(data))
		if _, err := w.Write(data[:n]); err != nil {
			return err
		}
		data = data[n:]
	}
	return w.Close()
}

// accepts says whether an Accept-Encoding header allows the named encoding
// (RFC 9110, 12.5.3: a weight of zero forbids it, "*" stands for the unnamed).
func accepts(header, name string) bool {
	star := false
	for _, item := range strings.Split(header, ",") {
		coding, params, _ := strings.Cut(item, ";")
		allowed := weight(params) > 0
		switch coding = strings.TrimSpace(coding); {
		case strings.EqualFold(coding, name):
			return allowed
		case coding == "*":
			star = allowed
		}
	}
	return star
}

// weight reads "q=0.5"; without one it is 1, and a broken one counts as 0.
func weight(params string) float64 {
	for _, p := range strings.Split(params, ";") {
		key, value, found := strings.Cut(strings.TrimSpace(p), "=")
		if found && strings.EqualFold(strings.TrimSpace(key), "q") {
			q, err := strconv.ParseFloat(strings.TrimSpace(value), 64)
			if err != nil {
				return 0
			}
			return q
		}
	}
	return 1
}
