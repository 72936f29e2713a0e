// On a phone the panel is a sheet at the bottom: low shows its grip, half
// shares the screen with the drawing, full covers it.

import { setAttr, setText } from '../dom.js';

const STATES = ['low', 'half', 'full'];
const SWIPE = 24; // CSS pixels that tell a swipe from a tap

/** Makes the grip work; returns calls to move the sheet and name its grip. moved is called after each move. */
export function makeSheet(panel, grip, moved) {
  let from = null;
  let swiped = false;
  const set = (state) => {
    panel.dataset.sheet = state;
    setAttr(grip, 'aria-expanded', String(state !== 'low'));
    moved();
  };
  const step = (by) => {
    const i = STATES.indexOf(panel.dataset.sheet) + by;
    set(STATES[Math.max(0, Math.min(STATES.length - 1, i))]);
  };
  grip.addEventListener('pointerdown', (e) => {
    from = e.clientY;
    swiped = false;
    grip.setPointerCapture(e.pointerId);
  });
  grip.addEventListener('pointermove', (e) => {
    if (from === null || Math.abs(e.clientY - from) < SWIPE) return;
    step(e.clientY < from ? 1 : -1);
    from = null;
    swiped = true;
  });
  grip.addEventListener('pointercancel', () => { from = null; });
  grip.addEventListener('click', () => {
    from = null;
    if (swiped) swiped = false;
    else set(panel.dataset.sheet === 'low' ? 'half' : 'low');
  });
  return {
    set,
    raise: () => { if (panel.dataset.sheet === 'low') set('half'); },
    name: (text) => setText(grip.querySelector('.grip-name'), text),
  };
}
