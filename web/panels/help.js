// Short help: a pointer for the first time, and the sheet that says what hands
// and keys do. Help about a single field stands beside that field.

import { h } from '../dom.js';
import { openCard } from './card.js';
import { notice } from './toast.js';

const KEY = 'scrubline.hint';

/** Points to the two things to begin with, until it was put away once. */
export function showHint() {
  if (remembered()) return;
  notice('hint', 'Touch a part and drag it. Pull the saddle at the side to lower the body: what touches turns up in the list.',
    [{ label: 'Got it', act: () => notice('hint', '') }]);
  const el = document.querySelector('#notices [data-key="hint"]');
  el.classList.add('is-hint');
  // Whichever of its buttons puts it away.
  el.addEventListener('click', (e) => { if (e.target.closest('button')) remember(); });
}

function remembered() {
  try {
    return localStorage.getItem(KEY) === 'seen';
  } catch {
    return true; // where nothing can be remembered it would come back for ever
  }
}

function remember() {
  try {
    localStorage.setItem(KEY, 'seen');
  } catch {
    // It stays away in this window.
  }
}

const HANDS = [
  ['Pick up a part', 'Touch it. Touch it again and drag to move it; it snaps to the grid, to faces of the frame, to centrelines and to the parts beside it.'],
  ['Pick several', 'Rest a finger on a part, then tap the others: move, line up, space, turn or group them together.'],
  ['Look around', 'Two fingers move and spread the drawing; a finger beside the parts moves it. With a mouse: drag beside the parts, and the wheel.'],
  ['Lower the body', 'Pull the saddle on the height staff, or tap a named height.'],
  ['Look elsewhere', 'Drag the flag in the strip below along the vehicle; or take another view. Four shows all at once; Turn is an outline that a finger turns.'],
  ['Measure', 'Tape, then two taps: corners, edges, ends and centres near the finger are taken. Tick off in the list of tapes what you measured at the truck.'],
  ['Leave out of the drawing', 'Show, then untick a sort of parts. What is hidden is still checked.'],
  ['What falls short', 'Tap a finding: the drawing goes there. The list holds for the whole travel.'],
  ['A pen', 'Once a pen was used, fingers only move the view: a resting hand draws nothing.'],
];

const KEYS = [
  ['Tab', 'from one thing to the next; leaves the drawing too'],
  ['Arrows in a list', 'from row to row; Home and End to its ends, a letter to the next row that begins with it'],
  ['Arrows', 'in the drawing: move what is picked up by 1 mm or 1/16 in, with Shift further'],
  ['Page up, Page down', 'in the drawing: raise and lower the body'],
  ['+ − 0', 'in the drawing: closer, further away, show all'],
  ['Delete', 'in the drawing: takes away the part picked up; Undo brings it back'],
  ['Escape', 'puts down what is picked up; leaves a form or a sheet'],
  ['Ctrl+Z, Ctrl+Y', 'undo, redo'],
  ['Ctrl+S, Ctrl+O', 'save a file, open a file'],
];

/** Opens the sheet of what hands and keys do. */
export function openHelp() {
  openCard('How it works',
    list(HANDS),
    h('h3', { class: 'card-sub', text: 'Keys' }),
    list(KEYS),
    h('h3', { class: 'card-sub', text: 'Where a number comes from' }),
    h('p', { class: 'card-note', text: 'The ? beside a field says where to put the tape. An open finding says why its gap is needed and how sure that is, and lets you change what the two need; File, Needs has them all.' }));
}

function list(rows) {
  return h('dl', { class: 'help-list' }, ...rows.flatMap(([name, text]) => [h('dt', { text: name }), h('dd', { text })]));
}
