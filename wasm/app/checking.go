package app

import (
	"strconv"

	"scrubline/fitment"
)

// While a part is dragged, only its own pairs are to be answered, and that in
// one go: a check that takes longer than slowMS waits until the finger rests
// for pauseMS. Any other check goes in slices of about sliceMS, so that frames
// keep coming.
const (
	slowMS  = 12.0
	pauseMS = 90.0
	sliceMS = 8.0
)

// checkRun is a check that goes in slices.
type checkRun struct {
	model    *fitment.Model
	ms       float64 // spent on it so far
	done, of int     // pairs
}

// checkWhole lets the engine answer for the model on the sheet in one go.
func (a *App) checkWhole() {
	from := a.host.NowMS()
	a.model.Check()
	a.answered(a.host.NowMS() - from)
}

// checkSlice does a slice of the check of the model on the sheet, a pair at a
// time until the slice is used up; at least one pair, so that it comes to its
// end on any clock. A model that takes the place of another begins anew, with
// the answers that the other had found when it was done.
func (a *App) checkSlice() {
	r := &a.running
	if r.model != a.model {
		*r = checkRun{model: a.model}
	}
	was := a.progressWords()
	from := a.host.NowMS()
	spent := 0.0
	for {
		r.done, r.of = a.model.Advance(1)
		if spent = a.host.NowMS() - from; r.done == r.of || spent >= sliceMS {
			break
		}
	}
	r.ms += spent
	if r.done == r.of {
		a.answered(r.ms)
		return
	}
	if a.progressWords() != was {
		a.panelsDue = true
	}
	a.host.Wake(100)
}

// answered says that the model on the sheet is checked, and how long it took.
func (a *App) answered(ms float64) {
	a.checkMS = ms
	a.checked, a.running = a.model, checkRun{}
	a.dirty, a.panelsDue = true, true
}

// progressWords say how far the check is: "Checking, 40 %". Tens are enough;
// a figure that runs says no more.
func (a *App) progressWords() string {
	r := &a.running
	if r.model != a.model || r.of == 0 {
		return "Checking"
	}
	return "Checking, " + strconv.Itoa(10*(10*r.done/r.of)) + " %"
}
