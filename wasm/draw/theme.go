package draw

// Tone is what a colour is for. The palette of the theme says which it is.
type Tone uint8

const (
	Desk     Tone = iota // around the sheets
	Paper                // the sheet
	Ink                  // what is cut, what is read first
	Soft                 // second ink: captions, dimensions, centrelines
	Line                 // what is seen but not cut, nearest
	Edge                 // the sheet's border
	Hand                 // what the hand holds: selection, saddle, flag
	OnHand               // text on Hand
	HandWash             // fill of the selected part
	Touch                // contact
	Tight                // too close
	Room                 // room that must stay free
	RoomWash             // fill of such room
	tones
)

// RGBA is an opaque colour, 0 to 1.
type RGBA struct{ R, G, B float32 }

// Palette has a colour for every tone.
type Palette [tones]RGBA

// Light is ink on paper by day, Dark is light ink on dark by night, Sun is for
// the open air.
var (
	Light = Palette{
		Desk: hex(0xECEAE3), Paper: hex(0xFAF9F5), Ink: hex(0x17252D), Soft: hex(0x56656D),
		Line: hex(0x7F8B90), Edge: hex(0xD8D6CE), Hand: hex(0x0B5CAD), OnHand: hex(0xFFFFFF),
		HandWash: hex(0xD3E2F1), Touch: hex(0xB8290F), Tight: hex(0x855800), Room: hex(0x1B6B45),
		RoomWash: hex(0xDCEBE0),
	}
	Dark = Palette{
		Desk: hex(0x101518), Paper: hex(0x171D22), Ink: hex(0xECF1F2), Soft: hex(0x9DAAB0),
		Line: hex(0x6C787E), Edge: hex(0x2A3238), Hand: hex(0x6FB6FF), OnHand: hex(0x0A1117),
		HandWash: hex(0x22384C), Touch: hex(0xFF6A4D), Tight: hex(0xF2B33D), Room: hex(0x76C79A),
		RoomWash: hex(0x20362B),
	}
	// Sun is for sunlight on the screen: black on white, few and dark colours,
	// every text at least 7 : 1 against what it stands on (WCAG 2.2, 1.4.6).
	Sun = Palette{
		Desk: hex(0xFFFFFF), Paper: hex(0xFFFFFF), Ink: hex(0x000000), Soft: hex(0x1E282D),
		Line: hex(0x3C464B), Edge: hex(0x5A6468), Hand: hex(0x003A7A), OnHand: hex(0xFFFFFF),
		HandWash: hex(0xDCE9F7), Touch: hex(0x8A1400), Tight: hex(0x5A3A00), Room: hex(0x00492B),
		RoomWash: hex(0xE2F2E8),
	}
)

// sunFade is how much of a fade is left in sunlight, where faint lines are lost.
const sunFade = 0.4

func hex(v uint32) RGBA {
	return RGBA{float32(v>>16&255) / 255, float32(v>>8&255) / 255, float32(v&255) / 255}
}

// Paint is a tone, mixed towards the paper by Fade (0 full, 1 paper). Mixing
// rather than letting through keeps lines that cross from darkening.
type Paint struct {
	Tone Tone
	Fade float64
}

// Colour is the paint's colour in a palette.
func (p Paint) Colour(pal *Palette) RGBA {
	a, b, f := pal[p.Tone], pal[Paper], float32(p.Fade)
	if pal == &Sun {
		f *= sunFade
	}
	return RGBA{a.R + (b.R-a.R)*f, a.G + (b.G-a.G)*f, a.B + (b.B-a.B)*f}
}
