package app

// This file is the whole protocol between the page and the sketcher; its twin
// on the page's side is web/protocol.js. The page sends a Command as JSON and
// gets a Reply as JSON; the sketcher calls the page with Panels as JSON when
// what stands beside the canvas changes. Lengths in commands are text as typed
// ("12 3/8", "314.5 mm"); numbers named _mm are millimetres.

// Command is one thing the page asks for. Do says which; the rest is used as
// the comment says.
type Command struct {
	// open      Text (a scene file), Name, Steps (what steps answered when this was the document); answers Name, the scene's;
	//           On: the page has it as it is, and need not be given it to keep
	// starter   a new vehicle
	// save      answers Text and Name
	// steps     answers Text: the steps that undo and redo would go, to be kept beside the document
	// undo redo
	// place     Kind: puts a new part into the middle of the view and selects it
	// select    Part ("" for none)
	// edit      Target, Field, Text
	//           Target need:A|B (what two parts must keep): Field need (empty Text: the table's figure), shield or why;
	//           Target kinds:A|B (two kinds of part): need or why; Target heights: as of scene
	// row       Target, Field, Row, Add (true adds after Row, false removes Row)
	// delete duplicate mirror   Part
	// needs     On: opens or closes Panels.Needs
	// height_add   names the height at which the body stands; height_drop   Key: removes a named height
	// join      A, B, On, Text (why); On false separates them again
	// finding   Key: takes the view to it
	// near      A, B: takes the view to where two parts are closest at this height
	// room      On: shows where the selected part may be, or no longer
	// mend      Key (x, y or z), On: along which axes moves of the open finding's parts are looked for
	// mend_take mend_show   Row (of Panels.Mend): takes the move; On: shows the part where it would be
	// back      puts the body where it stood before a finding moved it
	// ladder    Text: down or up, Key: both, front or rear: the way Panels.Ladder shows
	// rung      Row: takes the body to a rung of it and shows its finding
	// suppose   Key (a rung's cause), On: supposes it mended; without Key, none any more
	// view      View: section, side, plan, front, four (all of them) or turn (the outline)
	// look_from Text: front_left, front_right, rear_left, rear_right, above or below: turns the outline
	// show      Key (a class), On: shows or hides it in the drawing; no Key shows all
	// tape      On: begins or ends laying tapes
	// tape_next takes the next of what lies under the finger
	// tape_datum Key: holds the tape to a datum
	// tape_name tape_delete tape_show   Key, Text (the name)
	// check     Key (a tape) or Part, On, Name (the day, 2026-11-25), Text (what the tape read); On false takes it back
	// fit       shows everything
	// station   MM
	// height    Front, Rear (mm from ride)
	// named     Key: a height's id
	// apart     On: front and rear are moved apart
	// move      Key (a movement's id), MM: degrees of a hinge, mm of a slide
	// rest      puts every movement back to where it is drawn
	// let_move  Part, Kind (hinge or slide): gives a part a movement of its own
	// stop_move Key: takes a movement away
	// photo_take    Kind (a media type), Text (its bytes in base64): answers Text: the PhotoDraft of a new photo
	// photo_try     Text: a PhotoDraft; answers Text: a PhotoReport, and changes nothing
	// photo_put     Text: a PhotoDraft: puts it behind its view and goes there; answers Name, its id
	// photo_get     Key: a photo's id; answers Text: its PhotoDraft, without the picture
	// photo_set     Key, Field (name, opacity, hidden, at_mm/0, at_mm/1, turn_deg), Text
	// photo_remove photo_show   Key
	// photo_hold    Key, On: a finger on the drawing moves the photo
	// pick      Part, On: picks a part with others, or no longer; without Part: begins or ends picking
	// align     Key (x, y or z), Text (low, middle or high): lines the picked parts up with the first
	// space     Key (x, y or z): makes the gaps between the picked parts equal
	// turn      Key (x, y or z), Text (degrees as typed): turns what is picked or selected, with its group
	// nudge     Key (x, y or z), MM: moves what is picked or selected by so many of the finest steps
	// group     Text (a name, may be empty): groups the picked parts
	// ungroup   Key: a group's id
	// lock      Part, On
	// alone     On: the selected part moves without its group
	// follow    On: what was measured from something that moved goes along, or stays; see Panels.Ask
	//           duplicate, mirror and delete without Part are meant for the picked parts
	// variant   Key: shows a variant, or for "" the scene as drawn; no step to undo
	// variant_new   Text (a name): keeps what is shown as a variant of its own
	// variant_set   Key, Field (name or note), Text
	// variant_drop variant_take   Key: deletes it; makes it the scene as drawn
	// compare shelf   On: opens or closes Panels.Compare, Panels.Shelf
	// shelf_add     Kind, Text (a standard case, or ""): puts a part on the shelf and opens its form
	// shelf_place shelf_drop   Key: places a part of the shelf; takes it off for good
	// shelf_keep    Part: puts a copy of a placed part on the shelf
	// units     Text: mm or in; no step to undo
	// theme     Text: light, dark or sun
	// begin     the questions a new vehicle begins with: Text (the answers, JSON), Row (a step), Field (the question
	//           at hand); answers a StartPage in Text, or, with On, makes the vehicle
	// measured  Target, Field ("" for all): On says that the value is measured as it stands, off that it is not
	// unmeasured Key: opens the form of a value that is not measured, at its field
	// letters   Text: how large the reader has set letters, against the usual size
	// form      Text: vehicle, scene, heights, unmeasured, shelf:ID, need:A|B, or "" for none: which form Panels.Form shows when no part is selected
	Do     string  `json:"do"`
	Text   string  `json:"text,omitempty"`
	Name   string  `json:"name,omitempty"`
	Steps  string  `json:"steps,omitempty"`
	Kind   string  `json:"kind,omitempty"`
	Part   string  `json:"part,omitempty"`
	Target string  `json:"target,omitempty"`
	Field  string  `json:"field,omitempty"`
	Key    string  `json:"key,omitempty"`
	View   string  `json:"view,omitempty"`
	A      string  `json:"a,omitempty"`
	B      string  `json:"b,omitempty"`
	On     bool    `json:"on,omitempty"`
	Add    bool    `json:"add,omitempty"`
	Row    int     `json:"row,omitempty"`
	MM     float64 `json:"mm,omitempty"`
	Front  float64 `json:"front,omitempty"`
	Rear   float64 `json:"rear,omitempty"`
}

// Reply answers a command. Error is one plain sentence; nothing was changed then.
type Reply struct {
	Error string `json:"error,omitempty"`
	Field string `json:"field,omitempty"` // of a photo: the entry that Error is about, "at/0", "known/1/up"
	Text  string `json:"text,omitempty"`
	Name  string `json:"name,omitempty"`
}

// Panels is all that stands beside the canvas.
type Panels struct {
	Title      string         `json:"title"`
	Note       string         `json:"note"`
	Units      string         `json:"units"`
	Undo       string         `json:"undo"` // what would be undone ("moved Air tank"); empty: nothing
	Redo       string         `json:"redo"`
	View       string         `json:"view"`
	StationMM  float64        `json:"station_mm"`
	Heights    []HeightItem   `json:"heights"`
	Height     string         `json:"height"` // where the body stands now, for people: "50 below ride"
	Apart      bool           `json:"apart"`
	Movements  []MovementItem `json:"movements"` // how single parts move by themselves
	Headline   string         `json:"headline"`  // "3 touch, 2 tight"
	Subline    string         `json:"subline"`
	Lowest     []string       `json:"lowest"`  // ground clearance at this height and at each named height, for people
	Assumed    bool           `json:"assumed"` // the vehicle's numbers are those of a new one
	Back       string         `json:"back"`    // "Back to −74/−30": what the command back would do; empty: nothing
	Findings   []FindingItem  `json:"findings"`
	Ladder     *Ladder        `json:"ladder"`  // what happens on the way down or up, in order
	Mend       *MendPanel     `json:"mend"`    // how the open finding's parts can be moved; nil: none is open
	Gap        *GapDrawing    `json:"gap"`     // the two parts of the open finding at its worst; nil: no pair is open
	Joined     []JoinedItem   `json:"joined"`  // pairs declared to be meant to touch
	Lowered    []LoweredItem  `json:"lowered"` // pairs looked at less strictly than the starting table would
	Form       *Form          `json:"form"`    // nil: nothing is selected
	Kinds      []KindItem     `json:"kinds"`   // sent once, then empty
	Parts      []PartItem     `json:"parts"`
	Picking    bool           `json:"picking"`    // a tap picks parts to be arranged together
	Picked     []string       `json:"picked"`     // part ids, in the order they were picked
	Ask        *Ask           `json:"ask"`        // a question an edit has left open; nil: none
	Photos     []PhotoItem    `json:"photos"`     // behind the views
	Live       string         `json:"live"`       // read out by screen readers
	Message    string         `json:"message"`    // shown for a while
	Unmeasured int            `json:"unmeasured"` // how many values are not measured yet
	Shown      string         `json:"shown"`      // the variant that is shown; empty: as drawn
	Variants   []VariantItem  `json:"variants"`   // as drawn first; empty: there are none
	Compare    *ComparePanel  `json:"compare"`    // nil: closed
	Shelf      *ShelfPanel    `json:"shelf"`      // nil: closed
	Ready      []ReadyItem    `json:"ready"`      // standard cases for the shelf; sent once, then empty

	Needs  *NeedsPanel `json:"needs"`   // nil: closed
	OnRung bool        `json:"on_rung"` // the last of Opened was a rung of the staff: the way down shows it as well
	Opened int         `json:"opened"`  // marks tapped in the drawing so far: when it grows, the open finding is to be read

	See SeeItems `json:"see"` // tapes, and what is drawn
}

// HeightItem is a named height.
type HeightItem struct {
	ID     string  `json:"id"`
	Name   string  `json:"name"`
	Front  float64 `json:"front_mm"`
	Rear   float64 `json:"rear_mm"`
	Active bool    `json:"active"`
}

// MovementItem is a movement and where it stands, in its own unit.
type MovementItem struct {
	ID    string  `json:"id"`
	Name  string  `json:"name"`
	From  float64 `json:"from"`
	To    float64 `json:"to"`
	At    float64 `json:"at"`
	Unit  string  `json:"unit"`  // ° or mm, whatever the shown unit
	Words string  `json:"words"` // where it stands, for people: "12°", "at rest"
}

// FindingItem is one finding as it is read.
type FindingItem struct {
	Key      string `json:"key"`
	Mark     string `json:"mark"`    // touch or tight
	Title    string `json:"title"`   // what is in conflict and when: "The air tank and the driveshaft touch as the body airs out"
	Figures  string `json:"figures"` // "6.5 deep at −50, needs 25"
	Where    string `json:"where"`   // over which heights: "touching from −57 down"; empty when it is the same at all
	Why      string `json:"why"`     // where the need comes from
	Here     string `json:"here"`    // what it measures at this height; empty when it is clear here
	Caution  string `json:"caution"`
	Sure     bool   `json:"sure"`
	Selected bool   `json:"selected"`
	A        string `json:"a"` // part ids, for join; empty for ground findings
	B        string `json:"b"`
	Opens    string `json:"opens"` // the form a tap opens; empty: the tap goes to the place
	// JoinWarning is what one must know before the two are joined; empty for nothing out of the common.
	JoinWarning string `json:"join_warning"`
	Unmeasured  string `json:"unmeasured"` // what of its figures is not measured yet; empty for nothing
	More        string `json:"more"`       // what is folded behind it; empty for nothing
	Under       string `json:"under"`      // the finding it is folded behind; empty: none
}

// JoinedItem is a pair that is meant to touch and is not checked.
type JoinedItem struct {
	A     string `json:"a"`
	B     string `json:"b"`
	Names string `json:"names"` // "Rear axle and driveshaft"
	Why   string `json:"why"`
	Here  string `json:"here"` // "overlap by 12 at this height"
}

// LoweredItem is a pair that is looked at less strictly than the table would,
// where that could hurt someone.
type LoweredItem struct {
	A       string `json:"a"`
	B       string `json:"b"`
	Text    string `json:"text"`
	Caution string `json:"caution"`
}

// NearItem is a neighbour of the part in the form.
type NearItem struct {
	A    string `json:"a"` // the pair, for near
	B    string `json:"b"`
	Name string `json:"name"` // the neighbour's
	Gap  string `json:"gap"`  // "32 apart"
	Mark string `json:"mark"` // touch, tight or empty
	Need string `json:"need"` // what the two must keep: "needs 25"
}

// KindItem is an entry of the placing list.
type KindItem struct {
	Name  string `json:"name"`
	Label string `json:"label"`
	About string `json:"about"`
	Group string `json:"group"`
}

// PartItem is an entry of the list of parts.
type PartItem struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	Kind   string `json:"kind"` // label
	Mark   string `json:"mark"` // touch, tight or empty
	Locked bool   `json:"locked"`
	Group  string `json:"group"` // the group's name; empty: none
	// Checked says when it was measured at the truck; Stale that its numbers changed since.
	Checked string `json:"checked"`
	Stale   bool   `json:"stale"`
}

// Ask is a question with two answers, for the command follow.
type Ask struct {
	Text string `json:"text"`
	Yes  string `json:"yes"`
	No   string `json:"no"`
}

// Arrange is what can be done to the place of a part, or of the picked parts.
type Arrange struct {
	Step    string   `json:"step"`  // the finest step, for people: "1 mm", "1/16 in"
	Stays   string   `json:"stays"` // why it cannot be moved; empty: it can
	CanLock bool     `json:"can_lock"`
	Locked  bool     `json:"locked"`
	GroupID string   `json:"group_id"` // the group it is in, or they are; empty: none
	Group   string   `json:"group"`
	Mates   int      `json:"mates"` // how many others are in that group
	Alone   bool     `json:"alone"` // it moves without its group
	Room    bool     `json:"room"`  // its room is shown
	Sits    string   `json:"sits"`  // what the room that is shown says; empty: none is
	Many    bool     `json:"many"`  // several are picked, or are to be
	Names   []string `json:"names"` // of the picked parts; the first stays when others are lined up
	IDs     []string `json:"ids"`
}

// PhotoItem is a photo behind a view.
type PhotoItem struct {
	ID       string    `json:"id"`
	Name     string    `json:"name"`
	Where    string    `json:"where"`  // "Section at 2100 mm"
	Key      string    `json:"key"`    // of its picture
	Wanted   bool      `json:"wanted"` // its picture is to be decoded and handed over
	Here     bool      `json:"here"`   // it stands behind the view shown
	Hidden   bool      `json:"hidden"`
	Held     bool      `json:"held"` // a finger on the drawing moves it
	Opacity  float64   `json:"opacity"`
	Axes     [2]string `json:"axes"` // names of its two coordinates
	At       [2]string `json:"at"`   // as shown in the user's unit
	Turn     string    `json:"turn"` // degrees
	Lines    []string  `json:"lines"`
	Warnings []string  `json:"warnings"`
}

// PhotoDraft is a photo as it is edited. Points are pixels of the picture as it
// is kept; lengths are text as typed.
type PhotoDraft struct {
	ID       string                `json:"id"` // empty: a new photo
	Name     string                `json:"name"`
	View     string                `json:"view"`
	Station  string                `json:"station"` // section only
	By       string                `json:"by"`      // rectangle or length
	Points   [][2]float64          `json:"points"`  // four corners from the lower left round by the right, or two ends
	Wide     string                `json:"wide"`
	High     string                `json:"high"`
	Length   string                `json:"length"`
	Known    []PhotoDraftPoint     `json:"known"`
	Checks   []PhotoDraftCheck     `json:"checks"`
	AtPX     [2]float64            `json:"at_px"` // the point it is placed by
	At       [2]string             `json:"at"`
	Turn     string                `json:"turn"` // degrees
	Mirrored bool                  `json:"mirrored"`
	Opacity  float64               `json:"opacity"`
	Hidden   bool                  `json:"hidden"`
	SizePX   [2]int                `json:"size_px"`
	Key      string                `json:"key"`    // of its picture
	Places   map[string]PhotoPlace `json:"places"` // by view; the sketcher's, not read back
}

// PhotoPlace is a view's two coordinates, and where they stand in its middle.
type PhotoPlace struct {
	Axes [2]string `json:"axes"`
	At   [2]string `json:"at"`
}

// PhotoDraftPoint is a further known point, from the rectangle's lower left corner.
type PhotoDraftPoint struct {
	PX    [2]float64 `json:"px"`
	Right string     `json:"right"`
	Up    string     `json:"up"`
}

// PhotoDraftCheck is a known length between two points of the picture.
type PhotoDraftCheck struct {
	From   [2]float64 `json:"from"`
	To     [2]float64 `json:"to"`
	Length string     `json:"length"`
}

// PhotoReport says how true a photo is.
type PhotoReport struct {
	Lines    []string `json:"lines"`
	Warnings []string `json:"warnings"`
	Checks   []string `json:"checks"`   // one for each known length
	LeanDeg  float64  `json:"lean_deg"` // two ends: how the line between them leans in the picture
}

// Form is what is selected, as fields to type into.
type Form struct {
	Target     string       `json:"target"` // part:ID, vehicle, scene, heights, need:A|B
	Title      string       `json:"title"`
	Sub        string       `json:"sub"`
	Caution    string       `json:"caution"`
	Warn       string       `json:"warn"`     // a caution that must be seen; empty: none
	Back       string       `json:"back"`     // where it leads back to; empty: to the findings
	CanMove    bool         `json:"can_move"` // a part: delete, duplicate and mirror make sense
	Fields     []FormField  `json:"fields"`
	Folded     []string     `json:"folded"`     // groups of fields that are folded at first
	Near       []NearItem   `json:"near"`       // a part: what is nearest to it at this height
	Joined     []JoinedItem `json:"joined"`     // a part: what it is joined to
	Unmeasured int          `json:"unmeasured"` // how many of its values are not measured yet
	Focus      string       `json:"focus"`      // the field to go to; empty: its top
	Arrange    *Arrange     `json:"arrange"`    // a part, or the picked parts
}

// FormField is one field of a form.
type FormField struct {
	Field    string       `json:"field"` // name to send back in edit
	Label    string       `json:"label"`
	Help     string       `json:"help"`
	Group    string       `json:"group"` // heading
	Type     string       `json:"type"`  // number, text, choice, flag, table, shown: a value to read, or action: a button
	Value    string       `json:"value"` // as shown in the user's unit; "true"/"false" for a flag
	Unit     string       `json:"unit"`  // "mm", "in", "°" or ""
	Choices  []FormChoice `json:"choices,omitempty"`
	Columns  []FormField  `json:"columns,omitempty"`   // table: label, help, unit
	Rows     [][]string   `json:"rows,omitempty"`      // table cells; edit sends Field "name/row/column"
	RowNames []string     `json:"row_names,omitempty"` // table: what each row is called; empty: by its number
	MinRows  int          `json:"min_rows,omitempty"`
	MaxRows  int          `json:"max_rows,omitempty"`
	Action   *Command     `json:"action,omitempty"`   // action: the command the button sends
	ZeroIs   string       `json:"zero_is,omitempty"`  // number: what an empty field, which is 0, stands for: "none", "no limit"
	Unsigned bool         `json:"unsigned,omitempty"` // number: it cannot be below 0
	Measured string       `json:"measured,omitempty"` // yes or no; empty for what is not measured at all
}

// FormChoice is one choice of a field.
type FormChoice struct {
	Value string `json:"value"`
	Label string `json:"label"`
}

// Look is what a browser test needs to know to use its finger; all positions
// are CSS pixels within the canvas.
type Look struct {
	Frames    int                   `json:"frames"`
	Main      [4]float64            `json:"main"` // x, y, width, height
	Staff     [4]float64            `json:"staff"`
	Strip     [4]float64            `json:"strip"`
	Saddle    [2]float64            `json:"saddle"` // the height staff's saddle (rear saddle when apart)
	SaddleF   [2]float64            `json:"saddle_front"`
	Flag      [2]float64            `json:"flag"` // the station flag in the side strip
	PxPerMM   float64               `json:"px_per_mm"`
	Plane     [6]float64            `json:"plane"` // the main view's plane (mm, body axes) to the canvas: x = p0 u + p1 v + p2, y = p3 u + p4 v + p5
	Parts     map[string][2]float64 `json:"parts"` // where a finger picks the part up in the main view
	Selected  string                `json:"selected"`
	Picked    []string              `json:"picked"`
	Guides    []string              `json:"guides"` // names of the lines a dragged part has settled on
	StationMM float64               `json:"station_mm"`
	FrontMM   float64               `json:"front_mm"`
	RearMM    float64               `json:"rear_mm"`
	View      string                `json:"view"`
	Findings  int                   `json:"findings"`
	Showing   string                `json:"showing"`  // the word of the command view
	Small     [4]float64            `json:"small"`    // the second small drawing; no size: there is none
	Panes     map[string][4]float64 `json:"panes"`    // four drawings at once, by view; otherwise empty
	TurnDeg   [2]float64            `json:"turn_deg"` // yaw and pitch of the outline
	Holds     map[string][2]float64 `json:"holds"`    // while a tape is laid: where a finger holds it to a part, by "part|feature"
}

// VariantItem is one of the scene's alternatives.
type VariantItem struct {
	ID    string `json:"id"` // empty: as drawn
	Name  string `json:"name"`
	Note  string `json:"note"`
	Shown bool   `json:"shown"`
}

// ComparePanel is the scene as drawn beside its variants.
type ComparePanel struct {
	Progress string           `json:"progress"` // "Checking 2 of 3"; empty: complete
	Heads    []string         `json:"heads"`
	Rows     []CompareRow     `json:"rows"`
	Differs  []CompareDiffers `json:"differs"` // one for each variant
}

// CompareRow is one line of a comparison.
type CompareRow struct {
	Group   string   `json:"group"`
	Label   string   `json:"label"`
	Cells   []string `json:"cells"`
	Marks   []string `json:"marks"` // touch, tight or empty
	Differs bool     `json:"differs"`
}

// CompareDiffers is how a variant differs from the scene as drawn.
type CompareDiffers struct {
	ID    string   `json:"id"`
	Name  string   `json:"name"`
	Lines []string `json:"lines"`
}

// ShelfPanel is what the parts weigh and cost, and how far each has come.
type ShelfPanel struct {
	Totals    []ShelfTotal `json:"totals"`
	Fields    []FormField  `json:"fields"` // of the scene: currency, budget
	Own       []ShelfItem  `json:"own"`    // not placed
	Placed    []ShelfItem  `json:"placed"`
	Order     []string     `json:"order"`      // what is still to be ordered, the sum last
	OrderText string       `json:"order_text"` // to be copied; empty: nothing is
}

// ShelfTotal is one sum.
type ShelfTotal struct {
	Label string `json:"label"`
	Text  string `json:"text"`
	Mark  string `json:"mark"` // tight: over the budget
}

// ShelfItem is a part with its state.
type ShelfItem struct {
	ID     string    `json:"id"`
	Target string    `json:"target"` // part:ID or shelf:ID, for edit
	Name   string    `json:"name"`
	About  string    `json:"about"` // kind, mass, price
	State  FormField `json:"state"`
}

// ReadyItem is a standard thing that can be put on the shelf: Kind and Text for
// shelf_add.
type ReadyItem struct {
	Kind  string `json:"kind"`
	Text  string `json:"text"`
	Label string `json:"label"`
}
