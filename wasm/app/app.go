// Package app is the sketcher without a screen: what a finger means, what a
// command does, what stands in the panels and what is drawn. It knows no
// browser and no graphics library; package bridge feeds it and package paint
// shows what it composes.
//
// One goroutine only: the page calls, the frame loop calls, never at once.
package app

import (
	"slices"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/draw"
	"scrubline/wasm/view"
)

// Host is the page.
type Host interface {
	Panels(json string) // what stands beside the canvas
	Wake(ms int)        // frames are wanted for so long
	// Save is the document, to be kept, and the steps of undo that belong to it.
	Save(name, json, steps string)
	NowMS() float64 // a clock, for pacing only; never in what is shown
}

// App is the state of the sketcher.
type App struct {
	host    Host
	face    draw.Measure // the page's letters
	letters float64      // how large the reader wants them, against the usual size

	hist    *scene.History
	doc     *scene.Document // what is shown: the history's, or a drag's preview
	model   *fitment.Model
	checked *fitment.Model // the model the findings are of; nil: none yet
	running checkRun       // the check under way
	checkMS float64        // how long the last check took

	view        fitment.View
	station     float64
	front, rear float64
	apart       bool
	// posed is the state of a finding that needs more than two heights to be
	// seen: wheels steered, one side down. Moving a saddle ends it.
	posed  *fitment.State
	moves  moves // where the movements stand
	travel view.Travel

	selected string // part id
	finding  string // finding key
	opened   int    // marks tapped in the drawing so far
	onRung   bool   // the last of them was a rung of the staff
	form     string // vehicle, scene, heights, unmeasured, need:A|B or empty
	focus    string // key of the value whose field a form opens at

	between [2]string // the two parts a place was asked for
	left    *stand    // where the body stood before a finding moved it; nil: nowhere else

	lay      view.Layout
	cams     [2 * views]view.Camera // those of four drawings at once follow those of one
	fitted   [2 * views]bool
	framings [2 * views]framing
	strip    view.Camera

	showing showing
	small   smallFit
	hides   hides
	turned  turned
	tape    taping

	hand         hand
	arr          arranging
	cache        outlineCache
	indexes      partIndexes
	measuredHere readingsCache
	reached      reachCache
	overlaps     overlapCache
	photos       photos
	nearest      nearCache
	ladders      ladders
	mends        mends
	gap          gapKept
	rooms        rooms
	asked        notMeasured
	variants     variants
	shelfOpen    bool   // the list of parts with their mass and price
	needsOpen    bool   // the list of what two parts must keep
	needFrom     string // the part from whose form a need was opened
	heightAdded  string // the height added last, whose name is typed next

	palette    *draw.Palette
	dirty      bool
	frames     int
	ops        []draw.Op // room for the next picture's
	asides     asides
	panelsDue  bool
	panelsMS   float64 // when they were sent last
	lastPanels string
	kindsSent  bool
	live       string
	message    string
	wait       int // ticks to let pass before a check, so that the picture comes first
}

// New is a sketcher with a new vehicle on the sheet.
func New(host Host, face draw.Measure) (*App, error) {
	a := &App{host: host, face: face, letters: 1, hand: newHand()}
	a.lay = view.Arrange(800, 600, a.letters)
	return a, a.begin(scene.New())
}

// begin puts a document on the sheet, with nothing to undo. It leaves the old
// one there when the engine cannot build the new one.
func (a *App) begin(doc *scene.Document) error {
	doc, err := scene.View(doc, doc.Shown)
	if err != nil {
		return err
	}
	m, err := fitment.Compile(doc)
	if err != nil {
		return err
	}
	a.variants, a.shelfOpen, a.needsOpen = variants{}, false, false
	a.hist = scene.NewHistory(doc)
	a.doc, a.model, a.checked = doc, m, nil
	a.selected, a.finding, a.form = "", "", ""
	a.between, a.left, a.arr = [2]string{}, nil, arranging{}
	a.cache, a.ladders = outlineCache{}, ladders{}
	a.travel = view.TravelOf(doc.Heights)
	a.front, a.rear, a.apart, a.posed, a.moves = 0, 0, false, nil, moves{}
	a.station = doc.Vehicle.WheelbaseMM
	a.fitted, a.framings = [2 * views]bool{}, [2 * views]framing{}
	a.hides, a.tape = hides{}, taping{}
	a.turned.fitted = false
	a.hand.clear()
	a.fitStrip()
	a.touch()
	return nil
}

// Resize tells the size of the canvas in CSS pixels.
func (a *App) Resize(w, h float64) {
	old := a.lay
	a.arrange(w, h)
	a.asides.lay = view.Layout{} // the same size of another density is another picture too
	for i := range a.cams {
		if a.fitted[i] && old.Main.W > 0 {
			a.refit(i, old.Main)
		}
	}
	a.fitStrip()
	a.touch()
}

// touch says that the picture and the panels may have changed.
func (a *App) touch() {
	a.dirty, a.panelsDue = true, true
	a.host.Wake(200)
}

// state is where the body and the movements stand.
func (a *App) state() fitment.State {
	if a.posed != nil {
		return a.asMoved(*a.posed)
	}
	return a.asMoved(fitment.StateAt(a.front, a.rear))
}

// Tick does what waits for the next frame: the check of what changed, and the
// panels.
func (a *App) Tick() {
	busy := a.dirty
	if a.hand.mode == dragPart {
		busy = a.checked != a.model
	}
	if a.checked != a.model {
		switch {
		case a.wait > 0:
			a.wait--
			a.host.Wake(100)
		case a.hand.mode != dragPart || a.checked == nil:
			a.checkSlice()
		case a.checkMS > slowMS && a.host.NowMS() < a.hand.lastMS+pauseMS:
			a.host.Wake(int(pauseMS) + 50)
		default:
			a.checkWhole()
		}
	}
	if a.hand.rested(a.host.NowMS()) {
		a.longPress()
	}
	a.compareSlice()
	a.roomSlice()
	if a.checked == a.model && a.hand.mode == idle {
		a.ladderSlice()
		a.mendSlice()
	}
	if a.panelsDue && a.inTime(busy) {
		a.panelsDue = false
		a.asides.panel = true
		a.sendPanels()
	}
}

// panelsEveryMS is how often what stands beside the canvas follows a finger
// that drags something: quicker than one reads, and the drawing keeps its frames.
// It may come as much later as it takes to find a frame that has less to do.
const (
	panelsEveryMS  = 100
	panelsWithinMS = 250
)

// inTime says whether what stands beside the canvas may change now; busy says
// that this frame has followed the finger already.
func (a *App) inTime(busy bool) bool {
	now := a.host.NowMS()
	since := now - a.panelsMS
	if a.following() && (since < panelsEveryMS || busy && since < panelsWithinMS) {
		a.host.Wake(panelsEveryMS + 50)
		return false
	}
	a.panelsMS = now
	return true
}

// readingsCache keeps the readings of one state: pointing and drawing ask for
// them many times a frame.
type readingsCache struct {
	model  *fitment.Model
	st     fitment.State
	list   []fitment.Reading
	lowest fitment.Clearance
}

// here is what the engine measures in the state shown.
func (a *App) here() *readingsCache {
	if c := &a.measuredHere; c.model != a.checked || c.st != a.state() {
		*c = readingsCache{a.checked, a.state(), a.checked.Readings(a.state()), a.checked.Clearance(a.state())}
	}
	return &a.measuredHere
}

// readings are what falls short at this height, as far as it is known: during
// a fast drag those of the moved part are left out rather than guessed.
func (a *App) readings() []fitment.Reading {
	if a.checked == nil {
		return nil
	}
	all := a.here().list
	if a.checked == a.model {
		return all
	}
	moving := map[string]bool{}
	for _, id := range a.movers() {
		moving[id] = true
	}
	var known []fitment.Reading
	for _, r := range all {
		if !moving[r.A] && !moving[r.B] && a.partIndex(r.A) >= 0 && a.partIndex(r.B) >= 0 {
			known = append(known, r)
		}
	}
	return known
}

// partIndexes are the indexes of a document's parts by id.
type partIndexes struct {
	doc *scene.Document
	of  map[string]int
}

// partIndex is the index of a part by id, −1 when there is none.
func (a *App) partIndex(id string) int {
	k := &a.indexes
	if k.doc != a.doc {
		*k = partIndexes{a.doc, make(map[string]int, len(a.doc.Parts))}
		for i := range a.doc.Parts {
			k.of[a.doc.Parts[i].ID] = i
		}
	}
	if i, ok := k.of[id]; ok && i < len(a.doc.Parts) && a.doc.Parts[i].ID == id {
		return i
	}
	return slices.IndexFunc(a.doc.Parts, func(p scene.Part) bool { return p.ID == id })
}

// Palette is the palette of the theme.
func (a *App) Palette() *draw.Palette {
	if a.palette != nil {
		return a.palette
	}
	return &draw.Light
}

// show puts a document on the sheet without making it undoable.
func (a *App) show(doc *scene.Document) error {
	m := a.modelOf(doc)
	if m == nil { // built anew for what it says
		_, err := a.model.With(doc)
		return err
	}
	a.carryMoves(a.doc, doc)
	a.doc, a.model = doc, m
	a.travel = view.TravelOf(doc.Heights)
	a.holdHeight()
	if a.selected != "" && a.partIndex(a.selected) < 0 {
		a.selected = ""
	}
	a.touch()
	return nil
}

// commit makes a document the current one; label says what was done.
func (a *App) commit(doc *scene.Document, label string) error {
	doc, with, q, err := a.settleMeasures(doc)
	if err != nil {
		return err
	}
	if err := doc.VariantsHold(); err != nil {
		return err
	}
	if err := a.show(doc); err != nil {
		return err
	}
	word := ""
	if a.arr.question = q; q != nil {
		word = q.word
	}
	a.hist.DoWithin(word, doc, label+with)
	a.fitStrip()
	a.save()
	return nil
}

// save gives the page the document to keep, with its steps: at once, so that the
// two always belong together.
func (a *App) save() { a.host.Save(a.doc.Name, string(scene.Encode(a.doc)), a.hist.Pack()) }

// holdHeight keeps the body within its travel, and the two ends together when
// they are moved together. How it leans and steers there stays, unless it moves.
func (a *App) holdHeight() {
	t := &a.travel
	front, rear := t.Pair(t.Coord(a.front, a.rear))
	if a.apart {
		front = min(max(a.front, t.Front[0]), t.Front[2])
		rear = min(max(a.rear, t.Rear[0]), t.Rear[2])
	}
	if !near(front, a.front) || !near(rear, a.rear) {
		a.posed = nil
	}
	a.front, a.rear = front, rear
}
