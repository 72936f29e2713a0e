package app

import (
	"strconv"
	"strings"

	"scrubline/fitment"
)

// Ladder is what happens on the way down (or up), in order.
type Ladder struct {
	Known bool         `json:"known"` // worked out; else it is still being worked out
	Up    bool         `json:"up"`
	Ends  string       `json:"ends"`  // both, front or rear
	Goes  string       `json:"goes"`  // "Goes down to rear −50 (front −42) now"
	Then  string       `json:"then"`  // what comes with the struck ones mended; empty: none is struck
	Stops string       `json:"stops"` // what stops it there
	Meets string       `json:"meets"` // where something new touches or runs out, when that is further on; empty: Stops says it
	Note  string       `json:"note"`  // what may be missing; empty for nothing
	Rungs []LadderRung `json:"rungs"`
}

// LadderRung is one rung as it is read.
type LadderRung struct {
	Row     int    `json:"row"` // to send back with rung
	Cause   string `json:"cause"`
	Mark    string `json:"mark"` // touch, tight or empty
	At      string `json:"at"`   // "rear −50 (front −42)"
	Title   string `json:"title"`
	Note    string `json:"note"`    // at ride already, only when rolled
	Further string `json:"further"` // "13 lower when mended"
	Struck  bool   `json:"struck"`
	End     bool   `json:"end"`   // the end of the travel: nothing to mend
	Still   bool   `json:"still"` // the same at every height
	Here    bool   `json:"here"`  // the body stands there
}

// ladderItem is the ladder as the page shows it.
func (a *App) ladderItem() *Ladder {
	k := &a.ladders
	l := &Ladder{Up: k.up, Ends: string(k.ends), Rungs: []LadderRung{}}
	if l.Ends == "" {
		l.Ends = string(fitment.BothEnds)
	}
	if !a.laddersKnown() {
		return l
	}
	l.Known = true
	w := fitment.NewWords(a.checked.Doc)
	l.Goes, l.Stops = a.goesWords(k.plain), stopWords(w, &k.list.Rungs[k.list.Stop])
	l.Meets = a.meetsWords(w, k.list)
	if len(k.list.Struck) > 0 {
		l.Then = "to " + a.rungAt(k.list, &k.list.Rungs[k.list.Stop]) + " with the struck ones mended"
	}
	if n := len(k.list.Undecided); n > 0 {
		l.Note = count(n, "pair is", "pairs are") + " undecided: rungs may be missing"
	}
	rungs, struck := k.list.All()
	for i, r := range rungs {
		l.Rungs = append(l.Rungs, a.ladderRung(w, k.list, r, i, struck[i]))
	}
	return l
}

// stopWords are a rung's words behind a colon.
func stopWords(w *fitment.Words, r *fitment.Rung) string {
	title := minus(w.RungTitle(r))
	if r.Kind == fitment.RungEnd {
		return lower(strings.Replace(title, ": ", ", ", 1))
	}
	return title
}

func (a *App) ladderRung(w *fitment.Words, l *fitment.Ladder, r *fitment.Rung, row int, struck bool) LadderRung {
	it := LadderRung{Row: row, Cause: r.Cause, At: upper(a.rungAt(l, r)), Title: minus(w.RungTitle(r)), Note: upper(a.rungNote(l, r)),
		Struck: struck, End: r.Kind == fitment.RungEnd, Still: r.Still,
		Here: near(r.At.FrontMM, a.front) && near(r.At.RearMM, a.rear)}
	switch rungStatus(r) {
	case fitment.Contact:
		it.Mark = "touch"
	case fitment.Tight:
		it.Mark = "tight"
	}
	if !it.End && !r.Still && !struck {
		it.Further = a.furtherWords(l, r)
	}
	return it
}

// goesWords says how far the body goes: "Goes down to −50".
func (a *App) goesWords(l *fitment.Ladder) string {
	r := &l.Rungs[l.Stop]
	switch {
	case r.AtRide:
		return "Short at ride already"
	case l.Ask.Up:
		return "Goes up to " + a.rungAt(l, r) + " now"
	}
	return "Goes down to " + a.rungAt(l, r) + " now"
}

// meetsWords says how far the body goes before anything touches or runs out that
// did not at ride. Lost room alone does not stop a body that comes down.
func (a *App) meetsWords(w *fitment.Words, l *fitment.Ladder) string {
	r := &l.Rungs[l.Meets]
	switch {
	case l.Meets == l.Stop:
		return ""
	case r.Kind == fitment.RungEnd:
		return "Nothing more touches or runs out on the whole way."
	}
	return "Nothing more touches or runs out before " + a.rungAt(l, r) + ": " + lower(minus(w.RungTitle(r))) + "."
}

// rungAt is a rung's height in the shown unit.
func (a *App) rungAt(l *fitment.Ladder, r *fitment.Rung) string { return a.wayLevel(l, r.At) }

// wayLevel is a height on the way of a ladder.
func (a *App) wayLevel(l *fitment.Ladder, at fitment.Level) string {
	f, r := a.level(at.FrontMM), a.level(at.RearMM)
	switch {
	case f == "0" && r == "0":
		return "ride"
	case l.Ask.Ends == fitment.FrontOnly:
		return "front " + f
	case l.Ask.Ends == fitment.RearOnly:
		return "rear " + r
	}
	return a.levelWords(at)
}

// rungNote says what is special about a rung.
func (a *App) rungNote(l *fitment.Ladder, r *fitment.Rung) string {
	note := ""
	switch {
	case r.Still:
		note = "the same at every height"
	case r.AtRide && r.Began != nil:
		note = "holds at ride, from " + a.wayLevel(l, *r.Began) + " on"
	case r.AtRide:
		note = "holds at ride and on the whole way before it"
	}
	more := ""
	switch {
	case r.LevelAt == nil:
		more = "only when " + a.rungUnlevel(r)
	case a.wayLevel(l, *r.LevelAt) != a.wayLevel(l, r.At):
		more = "with the wheels level from " + a.wayLevel(l, *r.LevelAt)
	}
	if note != "" && more != "" {
		note += ", "
	}
	return note + more
}

// rungUnlevel is what may move besides the height.
func (a *App) rungUnlevel(r *fitment.Rung) string {
	if r.Finding != nil {
		return a.unlevel(r.Finding)
	}
	return "leaning or steered"
}

// furtherWords says what mending a rung gains: "13 lower when mended".
func (a *App) furtherWords(l *fitment.Ladder, r *fitment.Rung) string {
	how := " lower"
	if l.Ask.Up {
		how = " higher"
	}
	f, k := a.measured(r.Further.FrontMM), a.measured(r.Further.RearMM)
	switch {
	case f == "0" && k == "0":
		return "No" + how + " when mended alone"
	case l.Ask.Ends == fitment.FrontOnly:
		return f + how + " when mended"
	case l.Ask.Ends == fitment.RearOnly || f == k:
		return k + how + " when mended"
	}
	return "Rear " + k + ", front " + f + how + " when mended"
}

// rungCounts say how many rungs share a place on the staff.
func rungCounts(n int) []string { return []string{strconv.Itoa(n) + " things", "×" + strconv.Itoa(n)} }
