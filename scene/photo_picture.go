package scene

import (
	"encoding/base64"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/fnv"
	"strings"
)

// Limits of a picture kept in a scene file.
const (
	MaxPictureBytes = 300_000 // of the JPEG or WebP itself
	MaxPicturePX    = 2048    // along its longer side
	minPicturePX    = 16
)

// The kinds of picture a scene file may hold.
const (
	JPEG = "image/jpeg"
	WebP = "image/webp"
)

// Picture is a photo's compressed picture as it stands in the file. It is
// never changed once it is made: documents share it, so that a step of undo
// costs a pointer.
type Picture struct {
	kind, base64 string
	wide, high   int
	key          string
}

// NewPicture takes a picture's type and its bytes in base64 (RFC 4648, with
// padding, nothing in between). It reads no pixels, only the head: that it is
// such a picture, and its size. The error says what was expected.
func NewPicture(kind, text string) (*Picture, error) {
	if kind != JPEG && kind != WebP {
		return nil, fmt.Errorf("%s or %s, found %s", JPEG, WebP, quote(kind))
	}
	if n := base64.StdEncoding.DecodedLen(len(text)); n > MaxPictureBytes+2 {
		return nil, fmt.Errorf("a picture of at most %d kB, found %d kB", MaxPictureBytes/1000, n/1000)
	}
	data, err := base64.StdEncoding.Strict().DecodeString(text)
	if err != nil || strings.ContainsAny(text, "\r\n") { // the decoder lets line breaks pass
		return nil, errors.New("base64 text, found something else in it")
	}
	if len(data) > MaxPictureBytes {
		return nil, fmt.Errorf("a picture of at most %d kB, found %d kB", MaxPictureBytes/1000, len(data)/1000)
	}
	p := &Picture{kind: kind, base64: text}
	read := jpegSize
	if kind == WebP {
		read = webpSize
	}
	ok := false
	if p.wide, p.high, ok = read(data); !ok {
		return nil, fmt.Errorf("a picture of type %s, found other bytes", kind)
	}
	if max(p.wide, p.high) > MaxPicturePX || min(p.wide, p.high) < minPicturePX {
		return nil, fmt.Errorf("a picture of %d to %d pixels a side, found %d by %d", minPicturePX, MaxPicturePX, p.wide, p.high)
	}
	sum := fnv.New64a()
	sum.Write(data)
	p.key = fmt.Sprintf("%016x-%d", sum.Sum64(), len(data))
	return p, nil
}

// Kind is the picture's media type, Base64 its bytes as text.
func (p *Picture) Kind() string   { return p.kind }
func (p *Picture) Base64() string { return p.base64 }

// Size is the picture's width and height in pixels.
func (p *Picture) Size() (wide, high int) { return p.wide, p.high }

// Key tells pictures apart: the same picture has the same key in every document.
func (p *Picture) Key() string { return p.key }

// jpegSize finds the size in a JPEG's frame header: segments of marker and
// length follow each other up to the first start of frame, SOF0 to SOF15 less
// DHT, JPG and DAC (ITU-T T.81, B.1.1.3 and B.2.2).
func jpegSize(data []byte) (wide, high int, ok bool) {
	if len(data) < 4 || data[0] != 0xFF || data[1] != 0xD8 {
		return 0, 0, false
	}
	for i := 2; i+9 <= len(data); {
		if data[i] != 0xFF {
			return 0, 0, false
		}
		switch m := data[i+1]; {
		case m == 0xFF: // fill byte
			i++
			continue
		case m >= 0xC0 && m <= 0xCF && m != 0xC4 && m != 0xC8 && m != 0xCC:
			return int(binary.BigEndian.Uint16(data[i+7:])), int(binary.BigEndian.Uint16(data[i+5:])), true
		case m == 0xD9 || m == 0xDA: // the end, or pixels before any frame
			return 0, 0, false
		}
		length := int(binary.BigEndian.Uint16(data[i+2:]))
		if length < 2 {
			return 0, 0, false
		}
		i += 2 + length
	}
	return 0, 0, false
}

// webpSize finds the size in a WebP's first chunk: VP8 (RFC 6386, 9.1), VP8L
// or VP8X (RFC 9649, 2.5 to 2.7 and 3.4). Animations are no photos.
func webpSize(data []byte) (wide, high int, ok bool) {
	if len(data) < 30 || string(data[:4]) != "RIFF" || string(data[8:12]) != "WEBP" {
		return 0, 0, false
	}
	le := binary.LittleEndian
	three := func(i int) int { return int(data[i]) | int(data[i+1])<<8 | int(data[i+2])<<16 }
	switch string(data[12:16]) {
	case "VP8 ":
		if data[23] != 0x9D || data[24] != 0x01 || data[25] != 0x2A {
			return 0, 0, false
		}
		return int(le.Uint16(data[26:]) & 0x3FFF), int(le.Uint16(data[28:]) & 0x3FFF), true
	case "VP8L":
		if data[20] != 0x2F {
			return 0, 0, false
		}
		bits := le.Uint32(data[21:])
		return int(bits&0x3FFF) + 1, int(bits>>14&0x3FFF) + 1, true
	case "VP8X":
		const animated = 0x02
		return three(24) + 1, three(27) + 1, data[20]&animated == 0
	}
	return 0, 0, false
}
