package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"strings"

	"rsc.io/qr"

	"scrubline/web"
)

// quiet is the light margin around a code, in modules (ISO/IEC 18004, 6.3.8:
// four on every side).
const quiet = 4

// isDark says whether a module of a code with its margin is dark; x and y
// count from the margin's corner.
func isDark(c *qr.Code, x, y int) bool {
	x, y = x-quiet, y-quiet
	return x >= 0 && y >= 0 && x < c.Size && y < c.Size && c.Black(x, y)
}

// codeSVG draws the code of a text as a picture in which a module is one unit.
func codeSVG(text string) ([]byte, error) {
	c, err := qr.Encode(text, qr.M)
	if err != nil {
		return nil, fmt.Errorf("no code for %s: %w", text, err)
	}
	side := c.Size + 2*quiet
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" shape-rendering="crispEdges">`, side, side)
	fmt.Fprintf(&b, `<path fill="#fff" d="M0 0h%dv%dH0z"/><path fill="#000" d="`, side, side)
	for y := range side {
		for x := 0; x < side; x++ {
			if !isDark(c, x, y) {
				continue
			}
			from := x
			for isDark(c, x+1, y) {
				x++
			}
			fmt.Fprintf(&b, "M%d %dh%dv1H%dz", from, y, x+1-from, from)
		}
	}
	b.WriteString(`"/></svg>`)
	return []byte(b.String()), nil
}

// codeText draws the code of a text for a terminal, two rows of modules to a
// line, in black on white whatever the terminal's own colours are (ECMA-48
// SGR 30 and 107).
func codeText(text string) (string, error) {
	c, err := qr.Encode(text, qr.L)
	if err != nil {
		return "", fmt.Errorf("no code for %s: %w", text, err)
	}
	side := c.Size + 2*quiet
	halves := map[[2]bool]string{{false, false}: " ", {true, false}: "▀", {false, true}: "▄", {true, true}: "█"}
	var b strings.Builder
	for y := 0; y < side; y += 2 {
		b.WriteString("\x1b[30;107m")
		for x := range side {
			b.WriteString(halves[[2]bool{isDark(c, x, y), isDark(c, x, y+1)}])
		}
		b.WriteString("\x1b[0m\n")
	}
	return b.String(), nil
}

// isTerminal says whether something written is read by a person at once.
func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// reach is what the page's sheet "On a tablet" shows.
type reach struct {
	Addresses []reachAddress `json:"addresses"` // empty: only this computer reaches the page
	Listen    string         `json:"listen"`    // how to start it for others
}

type reachAddress struct {
	URL  string `json:"url"`
	Code string `json:"code"` // the picture to scan
}

// reachFiles are the files of that sheet: the list and a picture for each address.
func reachFiles(port int, addresses []string) ([]web.File, error) {
	r := reach{Addresses: []reachAddress{}, Listen: fmt.Sprintf("scrubline serve -listen :%d", port)}
	var files []web.File
	for i, a := range addresses {
		picture, err := codeSVG(a)
		if err != nil {
			return nil, err
		}
		name := fmt.Sprintf("reach-%d.svg", i+1)
		files = append(files, web.File{Name: name, Kind: "image/svg+xml", Data: picture})
		r.Addresses = append(r.Addresses, reachAddress{URL: a, Code: name})
	}
	list, err := json.Marshal(r)
	if err != nil {
		return nil, err
	}
	return append(files, web.File{Name: "reach.json", Kind: "application/json; charset=utf-8", Data: list}), nil
}
