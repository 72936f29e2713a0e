package scene

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// What a file may hold at most; a reader stops there rather than fill the memory.
const (
	MaxFileBytes = 16 << 20
	MaxParts     = 5000
	maxDepth     = 12
	maxValues    = 2_000_000
)

// node is one value of a JSON file, with the order of members kept.
type node struct {
	kind  byte // o object, a array, s string, n number, b true or false, 0 null
	text  string
	yes   bool
	keys  []string
	items []*node
}

func (n *node) String() string {
	switch n.kind {
	case 'o':
		return "an object"
	case 'a':
		return "a list"
	case 's':
		return quote(n.text)
	case 'n':
		if len(n.text) > 40 {
			return "the number " + n.text[:40] + "…"
		}
		return n.text
	case 'b':
		return fmt.Sprint(n.yes)
	}
	return "null"
}

// member is the value under key, or nil.
func (n *node) member(key string) *node {
	for i, k := range n.keys {
		if k == key {
			return n.items[i]
		}
	}
	return nil
}

// treeReader reads a whole file into nodes and remembers where it is.
type treeReader struct {
	dec    *json.Decoder
	values int
}

// readTree reads one JSON value and nothing after it.
func readTree(data []byte) (*node, error) {
	if len(data) > MaxFileBytes {
		return nil, &PlaceError{Expected: fmt.Sprintf("at most %d bytes", MaxFileBytes), Got: fmt.Sprintf("%d", len(data))}
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff")) // some editors begin a file with a byte order mark
	if !utf8.Valid(data) {
		return nil, &PlaceError{Expected: "text in UTF-8", Got: "bytes that are none"}
	}
	r := &treeReader{dec: json.NewDecoder(bytes.NewReader(data))}
	r.dec.UseNumber()
	root, err := r.value("", 0)
	if err != nil {
		return nil, err
	}
	if _, err := r.dec.Token(); err != io.EOF {
		return nil, &PlaceError{Expected: "the end of the file", Got: "more after the document"}
	}
	return root, nil
}

// token reads the next token; a fault in the text is told with its place.
func (r *treeReader) token(place string) (json.Token, error) {
	t, err := r.dec.Token()
	if err == nil {
		return t, nil
	}
	got := strings.ReplaceAll(err.Error(), "\n", " ")
	var syntax *json.SyntaxError
	if errors.As(err, &syntax) {
		got = fmt.Sprintf("a fault at byte %d: %s", syntax.Offset, got)
	} else if err == io.EOF || err == io.ErrUnexpectedEOF {
		got = "the end of the file"
	}
	return nil, &PlaceError{Place: place, Expected: "JSON", Got: got}
}

func (r *treeReader) value(place string, depth int) (*node, error) {
	t, err := r.token(place)
	if err != nil {
		return nil, err
	}
	return r.from(t, place, depth)
}

// from completes the value that begins with token t.
func (r *treeReader) from(t json.Token, place string, depth int) (*node, error) {
	if r.values++; r.values > maxValues {
		return nil, &PlaceError{Place: place, Expected: fmt.Sprintf("at most %d values in a file", maxValues), Got: "more"}
	}
	switch v := t.(type) {
	case string:
		return &node{kind: 's', text: v}, nil
	case json.Number:
		return &node{kind: 'n', text: string(v)}, nil
	case bool:
		return &node{kind: 'b', yes: v}, nil
	case json.Delim:
		if depth >= maxDepth {
			return nil, &PlaceError{Place: place, Expected: fmt.Sprintf("at most %d levels", maxDepth), Got: "more"}
		}
		if v == '{' {
			return r.object(place, depth)
		}
		return r.array(place, depth)
	}
	return &node{}, nil
}

func (r *treeReader) object(place string, depth int) (*node, error) {
	n := &node{kind: 'o'}
	seen := map[string]bool{}
	for {
		t, err := r.token(place)
		if err != nil {
			return nil, err
		}
		key, ok := t.(string)
		if !ok {
			return n, nil // the closing brace
		}
		if seen[key] {
			return nil, &PlaceError{Place: below(place, key), Expected: "each key once", Got: "it a second time"}
		}
		seen[key] = true
		v, err := r.value(below(place, key), depth+1)
		if err != nil {
			return nil, err
		}
		n.keys, n.items = append(n.keys, key), append(n.items, v)
	}
}

func (r *treeReader) array(place string, depth int) (*node, error) {
	n := &node{kind: 'a'}
	for {
		here := below(place, len(n.items))
		t, err := r.token(here)
		if err != nil {
			return nil, err
		}
		if t == json.Delim(']') {
			return n, nil
		}
		v, err := r.from(t, here, depth+1)
		if err != nil {
			return nil, err
		}
		n.items = append(n.items, v)
	}
}
