// The whole protocol between the page and the sketcher; its twin on the
// sketcher's side is wasm/app/protocol.go. Commands go to the sketcher as JSON
// and are answered by a Reply; the sketcher hands the page Panels as JSON when
// what stands beside the canvas changes. Lengths in commands are text as typed
// ("12 3/8", "314.5 mm"); numbers named _mm or mm are millimetres.

/**
 * What the sketcher puts on window before its first frame.
 * Positions are CSS pixels within the canvas.
 * @typedef {Object} Scrub
 * @property {(command: string) => string} send  a Command in, a Reply out, both JSON
 * @property {(type: string, pointerType: string, id: number, x: number, y: number, pressure: number) => void} pointer
 * @property {(dx: number, dy: number, x: number, y: number, ctrl: boolean) => void} wheel
 * @property {(key: string, shift: boolean, ctrl: boolean) => boolean} key  whether it was of use
 * @property {(key: string) => string} pictureURL  a photo's picture to decode; empty: there is none
 * @property {(key: string, w: number, h: number, rgba: Uint8ClampedArray) => string} givePicture  the decoded picture; answers what is wrong with it
 * @property {() => string} look  where things are on the canvas, JSON, for tests
 * @property {() => number} frames  how many pictures were composed
 */

/**
 * What the page puts on window, as scrubPage, before the sketcher starts.
 * @typedef {Object} ScrubPage
 * @property {(panels: string) => void} panels  Panels as JSON
 * @property {() => void} serves  scrub is there; what is sent now comes before the first picture
 * @property {(ms: number) => void} wake  frames are wanted for that long
 * @property {(name: string, json: string, steps: string) => void} save  the whole document after an edit, and what steps would answer now
 */

/**
 * @typedef {Object} Command
 * @property {string} do     one of Do
 * @property {string} [text]
 * @property {string} [name]
 * @property {string} [steps]
 * @property {string} [kind]
 * @property {string} [part]
 * @property {string} [target]
 * @property {string} [field]
 * @property {string} [key]
 * @property {string} [view]
 * @property {string} [a]
 * @property {string} [b]
 * @property {boolean} [on]
 * @property {boolean} [add]
 * @property {number} [row]
 * @property {number} [mm]
 * @property {number} [front]
 * @property {number} [rear]
 */

/** Every word a Command's do may be. */
export const Do = Object.freeze({
  open: 'open', starter: 'starter', save: 'save', steps: 'steps',
  undo: 'undo', redo: 'redo',
  place: 'place', select: 'select', edit: 'edit', row: 'row',
  delete: 'delete', duplicate: 'duplicate', mirror: 'mirror',
  needs: 'needs', height_add: 'height_add', height_drop: 'height_drop',
  join: 'join', finding: 'finding', near: 'near', back: 'back',
  room: 'room', mend: 'mend', mend_take: 'mend_take', mend_show: 'mend_show',
  ladder: 'ladder', rung: 'rung', suppose: 'suppose',
  view: 'view', fit: 'fit', station: 'station',
  height: 'height', named: 'named', apart: 'apart',
  move: 'move', rest: 'rest', let_move: 'let_move', stop_move: 'stop_move',
  pick: 'pick', align: 'align', space: 'space', turn: 'turn', nudge: 'nudge',
  group: 'group', ungroup: 'ungroup', lock: 'lock', alone: 'alone', follow: 'follow',
  photo_take: 'photo_take', photo_try: 'photo_try', photo_put: 'photo_put', photo_get: 'photo_get', photo_set: 'photo_set',
  photo_remove: 'photo_remove', photo_show: 'photo_show', photo_hold: 'photo_hold',
  variant: 'variant', variant_new: 'variant_new', variant_set: 'variant_set', variant_drop: 'variant_drop', variant_take: 'variant_take',
  compare: 'compare', shelf: 'shelf', shelf_add: 'shelf_add', shelf_place: 'shelf_place', shelf_keep: 'shelf_keep', shelf_drop: 'shelf_drop',
  units: 'units', theme: 'theme', letters: 'letters', form: 'form',
  look_from: 'look_from', show: 'show', check: 'check',
  tape: 'tape', tape_next: 'tape_next', tape_datum: 'tape_datum',
  tape_name: 'tape_name', tape_delete: 'tape_delete', tape_show: 'tape_show',
  begin: 'begin', measured: 'measured', unmeasured: 'unmeasured',
});

/** The views, as stored and as shown: four drawings, all of them at once, and the outline that is turned. */
export const Views = Object.freeze([
  { value: 'section', label: 'Section' },
  { value: 'side', label: 'Side' },
  { value: 'plan', label: 'Plan' },
  { value: 'front', label: 'Front' },
  { value: 'four', label: 'Four' },
  { value: 'turn', label: 'Turn' },
]);

/**
 * @typedef {Object} Reply
 * @property {string} [error]  one plain sentence; nothing was changed then
 * @property {string} [field]  of a photo: the entry that error is about, "at/0", "known/1/up"
 * @property {string} [text]
 * @property {string} [name]
 */

/**
 * @typedef {Object} Panels
 * @property {string} title
 * @property {string} note
 * @property {string} units
 * @property {string} undo  what would be undone; empty: nothing
 * @property {string} redo
 * @property {string} view
 * @property {number} station_mm
 * @property {HeightItem[]} heights
 * @property {string} height  where the body stands now, for people
 * @property {boolean} apart
 * @property {MovementItem[]} movements  how single parts move by themselves
 * @property {string} headline
 * @property {string} subline
 * @property {string[]} lowest
 * @property {boolean} assumed  the vehicle's numbers are those of a new one
 * @property {string} back  what the command back would do; empty: nothing
 * @property {FindingItem[]} findings
 * @property {Ladder} ladder  what happens on the way down or up, in order
 * @property {?MendPanel} mend  how the open finding's parts can be moved; null: none is open
 * @property {?GapDrawing} gap  the two parts of the open finding at its worst; null: no pair is open
 * @property {JoinedItem[]} joined  pairs declared to be meant to touch
 * @property {LoweredItem[]} lowered  pairs looked at less strictly than the starting table would
 * @property {?Form} form
 * @property {KindItem[]} kinds  sent once, then empty
 * @property {PartItem[]} parts
 * @property {boolean} picking  a tap picks parts to be arranged together
 * @property {string[]} picked  part ids, in the order they were picked
 * @property {?Ask} ask  a question an edit has left open
 * @property {PhotoItem[]} photos  behind the views
 * @property {string} live
 * @property {string} message
 * @property {number} unmeasured  how many values are not measured yet
 * @property {string} shown  the variant that is shown; empty: as drawn
 * @property {VariantItem[]} variants  as drawn first; empty: there are none
 * @property {?ComparePanel} compare  null: closed
 * @property {?ShelfPanel} shelf  null: closed
 * @property {ReadyItem[]} ready  standard cases for the shelf; sent once, then empty
 * @property {?NeedsPanel} needs  null: closed
 * @property {boolean} on_rung  the last of opened was a rung of the staff: the way down shows it as well
 * @property {number} opened  marks tapped in the drawing so far: when it grows, the open finding is to be read
 * @property {SeeItems} see  tapes, and what is drawn
 */

/**
 * What two parts must keep because of what they are, with the scene's own figures.
 * @typedef {Object} NeedsPanel
 * @property {FormChoice[]} kinds
 * @property {NeedRow[]} rows  every two kinds of part, once
 * @property {NeedPair[]} pairs  parts with a figure of their own
 * @property {string} note
 */

/**
 * @typedef {Object} NeedRow
 * @property {string} a  the kinds
 * @property {string} b
 * @property {string} target  for edit, with the fields need (empty text: the table's) and why
 * @property {string} value
 * @property {string} unit
 * @property {string} from  where the table's figure comes from
 * @property {string} table  the table's figure, for people
 * @property {boolean} set  the scene has its own
 * @property {string} why
 * @property {string} warn  it is less than the table's: what may come of that
 */

/**
 * @typedef {Object} NeedPair
 * @property {string} target  names its form, and is what an edit is aimed at
 * @property {string} names
 * @property {string} text
 * @property {string} warn
 */

/**
 * @typedef {Object} HeightItem
 * @property {string} id
 * @property {string} name
 * @property {number} front_mm
 * @property {number} rear_mm
 * @property {boolean} active
 */

/**
 * @typedef {Object} MovementItem
 * @property {string} id
 * @property {string} name
 * @property {number} from
 * @property {number} to
 * @property {number} at
 * @property {string} unit  ° or mm, whatever the shown unit
 * @property {string} words  where it stands, for people
 */

/**
 * How the parts of the open finding can be moved.
 * @typedef {Object} MendPanel
 * @property {string} key
 * @property {boolean} busy
 * @property {string[]} says
 * @property {MendWay[]} ways
 * @property {boolean[]} axes  along, sideways, up and down
 * @property {string} note
 * @property {number} shown  the way whose ghost is shown; -1 for none
 */

/**
 * @typedef {Object} MendWay
 * @property {number} row
 * @property {string} text
 * @property {string} keeps
 * @property {string} follows
 */

/**
 * @typedef {Object} FindingItem
 * @property {string} key
 * @property {string} mark  touch or tight
 * @property {string} title
 * @property {string} figures
 * @property {string} where
 * @property {string} why
 * @property {string} here
 * @property {string} caution
 * @property {boolean} sure
 * @property {boolean} selected
 * @property {string} a
 * @property {string} b
 * @property {string} opens  the form a tap opens; empty: the tap goes to the place
 * @property {string} join_warning  what one must know before the two are joined
 * @property {string} unmeasured  what of its figures is not measured yet; empty for nothing
 * @property {string} more  what is folded behind it; empty for nothing
 * @property {string} under  the finding it is folded behind; empty: none
 */

/**
 * The two parts of the open finding at its worst, in mm, downwards positive.
 * @typedef {Object} GapDrawing
 * @property {string} key
 * @property {string} where
 * @property {number[]} box  left, top, width, height
 * @property {GapPart} a
 * @property {GapPart} b
 * @property {number[]} p
 * @property {number[]} q
 * @property {string} figure
 * @property {string} alt
 */

/**
 * @typedef {Object} GapPart
 * @property {string} name
 * @property {string} path
 */

/**
 * @typedef {Object} Ladder
 * @property {boolean} known  worked out; else it is still being worked out
 * @property {boolean} up
 * @property {string} ends  both, front or rear
 * @property {string} goes  "Goes down to rear −50 (front −42) now"
 * @property {string} then  what comes with the struck ones mended; empty: none is struck
 * @property {string} stops  what stops it there
 * @property {string} meets  where something new touches or runs out, when that is further on; empty: stops says it
 * @property {string} note
 * @property {LadderRung[]} rungs
 */

/**
 * @typedef {Object} LadderRung
 * @property {number} row  to send back with rung
 * @property {string} cause
 * @property {string} mark  touch, tight or empty
 * @property {string} at
 * @property {string} title
 * @property {string} note
 * @property {string} further
 * @property {boolean} struck
 * @property {boolean} end  the end of the travel
 * @property {boolean} still  the same at every height
 * @property {boolean} here  the body stands there
 */

/**
 * @typedef {Object} JoinedItem
 * @property {string} a
 * @property {string} b
 * @property {string} names
 * @property {string} why
 * @property {string} here  how they stand to each other at this height
 */

/**
 * @typedef {Object} LoweredItem
 * @property {string} a
 * @property {string} b
 * @property {string} text
 * @property {string} caution
 */

/**
 * @typedef {Object} NearItem
 * @property {string} a  the pair, for near
 * @property {string} b
 * @property {string} name  the neighbour's
 * @property {string} gap
 * @property {string} mark  touch, tight or empty
 * @property {string} need  what the two must keep: "needs 25"
 */

/**
 * @typedef {Object} KindItem
 * @property {string} name
 * @property {string} label
 * @property {string} about
 * @property {string} group
 */

/**
 * @typedef {Object} PartItem
 * @property {string} id
 * @property {string} name
 * @property {string} kind
 * @property {string} mark  touch, tight or empty
 * @property {boolean} locked
 * @property {string} group  the group's name; empty: none
 * @property {string} checked  when it was measured at the truck
 * @property {boolean} stale  its numbers changed since
 */

/**
 * A question with two answers, for the command follow.
 * @typedef {Object} Ask
 * @property {string} text
 * @property {string} yes
 * @property {string} no
 */

/**
 * What can be done to the place of a part, or of the picked parts.
 * @typedef {Object} Arrange
 * @property {string} step  the finest step, for people
 * @property {string} stays  why it cannot be moved; empty: it can
 * @property {boolean} can_lock
 * @property {boolean} locked
 * @property {string} group_id  the group it is in, or they are; empty: none
 * @property {string} group
 * @property {number} mates  how many others are in that group
 * @property {boolean} alone  it moves without its group
 * @property {boolean} room  its room is shown
 * @property {string} sits  what that room says; empty: none is shown
 * @property {boolean} many  several are picked, or are to be
 * @property {string[]} names  of the picked parts; the first stays when others are lined up
 * @property {string[]} ids
 */

/**
 * @typedef {Object} PhotoItem
 * @property {string} id
 * @property {string} name
 * @property {string} where
 * @property {string} key  of its picture
 * @property {boolean} wanted  its picture is to be decoded and handed over
 * @property {boolean} here  it stands behind the view shown
 * @property {boolean} hidden
 * @property {boolean} held  a finger on the drawing moves it
 * @property {number} opacity
 * @property {string[]} axes  names of its two coordinates
 * @property {string[]} at
 * @property {string} turn  degrees
 * @property {string[]} lines
 * @property {string[]} warnings
 */

/**
 * A photo as it is edited. Points are pixels of the picture as it is kept.
 * @typedef {Object} PhotoDraft
 * @property {string} id  empty: a new photo
 * @property {string} name
 * @property {string} view
 * @property {string} station  section only
 * @property {string} by  rectangle or length
 * @property {number[][]} points  four corners from the lower left round by the right, or two ends
 * @property {string} wide
 * @property {string} high
 * @property {string} length
 * @property {PhotoDraftPoint[]} known
 * @property {PhotoDraftCheck[]} checks
 * @property {number[]} at_px  the point it is placed by
 * @property {string[]} at
 * @property {string} turn  degrees
 * @property {boolean} mirrored
 * @property {number} opacity
 * @property {boolean} hidden
 * @property {number[]} size_px
 * @property {string} key  of its picture
 * @property {Object<string, PhotoPlace>} places  by view; the sketcher's, not read back
 */

/**
 * @typedef {Object} PhotoPlace
 * @property {string[]} axes
 * @property {string[]} at  the middle of the view
 */

/**
 * @typedef {Object} PhotoDraftPoint
 * @property {number[]} px
 * @property {string} right  from the rectangle's lower left corner
 * @property {string} up
 */

/**
 * @typedef {Object} PhotoDraftCheck
 * @property {number[]} from
 * @property {number[]} to
 * @property {string} length
 */

/**
 * @typedef {Object} PhotoReport
 * @property {string[]} lines
 * @property {string[]} warnings
 * @property {string[]} checks  one for each known length
 * @property {number} lean_deg  two ends: how the line between them leans in the picture
 */

/**
 * @typedef {Object} SeeItems
 * @property {TapeItem[]} tapes
 * @property {TapingItem} taping
 * @property {CheckedItem} checked
 * @property {ShowItem[]} show
 * @property {string} hidden  what is left out of the drawing, and that it is still checked; empty: nothing
 * @property {boolean} four  there is room for four drawings
 */

/**
 * @typedef {Object} TapeItem
 * @property {string} id
 * @property {string} name
 * @property {string} ends  what it is held to
 * @property {string} length  at this height
 * @property {string} along  along the vehicle's axes; empty when it lies along one
 * @property {string} lost  why it cannot be measured any more
 * @property {string} check
 * @property {string} stale
 * @property {boolean} selected
 */

/**
 * @typedef {Object} TapingItem
 * @property {boolean} on
 * @property {string} words  what to do next, or what was just laid
 * @property {boolean} first  the first end is held
 * @property {boolean} more  there is something else under the finger
 */

/**
 * @typedef {Object} CheckedItem
 * @property {string} words
 * @property {boolean} stale
 */

/**
 * @typedef {Object} ShowItem
 * @property {string} id
 * @property {string} label
 * @property {number} parts
 * @property {number} short  of these, how many fall short somewhere
 * @property {boolean} shown
 */

/**
 * @typedef {Object} Form
 * @property {string} target  part:ID, vehicle, scene, heights or need:A|B
 * @property {string} title
 * @property {string} sub
 * @property {string} caution
 * @property {string} warn  a caution that must be seen; empty: none
 * @property {string} back  where it leads back to; empty: to the findings
 * @property {boolean} can_move
 * @property {FormField[]} fields
 * @property {?string[]} folded  groups of fields that are folded at first
 * @property {?NearItem[]} near  a part: what is nearest to it at this height
 * @property {?JoinedItem[]} joined  a part: what it is joined to
 * @property {number} unmeasured  how many of its values are not measured yet
 * @property {string} focus  the field to go to; empty: its top
 * @property {?Arrange} arrange  a part, or the picked parts
 */

/**
 * @typedef {Object} FormField
 * @property {string} field
 * @property {string} label
 * @property {string} help
 * @property {string} group
 * @property {string} type  number, text, choice, flag, table, shown: a value to read, or action: a button
 * @property {string} value
 * @property {string} unit
 * @property {{value: string, label: string}[]} [choices]
 * @property {FormField[]} [columns]
 * @property {string[][]} [rows]
 * @property {string[]} [row_names]  table: what each row is called; empty: by its number
 * @property {number} [min_rows]
 * @property {number} [max_rows]
 * @property {Command} [action]  action: the command the button sends
 * @property {string} [zero_is]  number: what an empty field, which is 0, stands for: "none", "no limit"
 * @property {boolean} [unsigned]  number: it cannot be below 0
 * @property {string} [measured]  yes or no; empty for what is not measured at all
 */

/**
 * @typedef {Object} VariantItem
 * @property {string} id  empty: as drawn
 * @property {string} name
 * @property {string} note
 * @property {boolean} shown
 */

/**
 * @typedef {Object} ComparePanel
 * @property {string} progress  empty: complete
 * @property {string[]} heads
 * @property {CompareRow[]} rows
 * @property {CompareDiffers[]} differs  one for each variant
 */

/**
 * @typedef {Object} CompareRow
 * @property {string} group
 * @property {string} label
 * @property {string[]} cells
 * @property {string[]} marks  touch, tight or empty
 * @property {boolean} differs
 */

/**
 * @typedef {Object} CompareDiffers
 * @property {string} id
 * @property {string} name
 * @property {string[]} lines
 */

/**
 * @typedef {Object} ShelfPanel
 * @property {ShelfTotal[]} totals
 * @property {FormField[]} fields  of the scene: currency, budget
 * @property {ShelfItem[]} own  not placed
 * @property {ShelfItem[]} placed
 * @property {string[]} order  what is still to be ordered, the sum last
 * @property {string} order_text  to be copied; empty: nothing is
 */

/**
 * @typedef {Object} ShelfTotal
 * @property {string} label
 * @property {string} text
 * @property {string} mark  tight: over the budget
 */

/**
 * @typedef {Object} ShelfItem
 * @property {string} id
 * @property {string} target  part:ID or shelf:ID, for edit
 * @property {string} name
 * @property {string} about
 * @property {FormField} state
 */

/**
 * @typedef {Object} ReadyItem
 * @property {string} kind
 * @property {string} text
 * @property {string} label
 */

/**
 * Sends one command. A sketcher that is not there answers as one that refuses.
 * @param {Command} command
 * @returns {Reply}
 */
export function send(command) {
  if (!window.scrub) return { error: 'The sketcher is not running; reload the page.' };
  try {
    const reply = window.scrub.send(JSON.stringify(command));
    window.scrubPage?.wake(150);
    return reply ? JSON.parse(reply) : {};
  } catch (err) {
    console.error(err);
    return { error: 'The sketcher stopped. Your work up to the last change is kept; reload the page.' };
  }
}
