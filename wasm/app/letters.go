package app

import (
	"errors"
	"math"
	"strconv"
)

// lettersMost is how far the drawing's letters follow the reader's: larger ones
// would leave no drawing to read. handleMost is the same for a saddle.
const (
	lettersMost = 1.75
	handleMost  = 1.4
)

// measure is how wide a text is at the size the reader wants.
func (a *App) measure(s string, size float64, bold bool) float64 {
	return a.face(s, size*a.letters, bold)
}

// lettersCommand takes how large the reader has set letters in the browser,
// against the usual size. Smaller ones change nothing: the drawing's are small
// already.
func (a *App) lettersCommand(c *Command, _ *Reply) error {
	k, err := strconv.ParseFloat(c.Text, 64)
	if err != nil || math.IsNaN(k) || k <= 0 {
		return errors.New("the size of letters is a number above 0, 1 for the usual size")
	}
	if k = max(1, min(k, lettersMost)); k != a.letters {
		a.letters = k
		a.Resize(a.lay.Canvas.W, a.lay.Canvas.H)
	}
	return nil
}
