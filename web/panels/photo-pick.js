// The picture on which points are named: a finger drags or taps them, two
// fingers zoom, a glass shows what the finger hides, arrows move the chosen
// point by single pixels. Points are pixels of the kept picture.

import { button, h, setText } from '../dom.js';

const REACH = 26; // CSS pixels around a point within which a finger takes it
const WANDER = 5; // CSS pixels a finger may wander before a tap becomes a drag
const GLASS = 132; // CSS pixels, the glass's side
const POWER = 6; // CSS pixels for each of the picture's in the glass
const MOST = 12; // CSS pixels for each of the picture's, at the most

/**
 * @typedef {Object} Mark
 * @property {string} name  "Lower left corner"
 * @property {string} short  what stands beside it: "1", "A"
 * @property {?number[]} at  null: not named yet
 * @property {boolean} [under]  it lies under another one, and is shown in hand only
 */

/**
 * Builds the picture.
 * @param {{moved: () => void, chosen: (i: number) => void}} calls
 *   moved: a point was moved or named; chosen: another one was taken in hand
 */
export function makePick(calls) {
  const canvas = h('canvas', { class: 'pick-canvas', tabindex: '0', role: 'application' });
  const glass = h('canvas', { class: 'pick-glass', 'aria-hidden': 'true' });
  const words = h('p', { class: 'pick-words', role: 'status' });
  const s = { picture: null, marks: [], lines: [], now: 0, k: 1, x: 0, y: 0, fitted: true, fingers: new Map(), grip: null, left: false };
  const redraw = () => { if (!s.due) { s.due = true; requestAnimationFrame(() => { s.due = false; paint(canvas, glass, s); }); } };
  const change = () => {
    say(words, canvas, s);
    redraw();
  };
  const moveBy = (dx, dy) => {
    const m = s.marks[s.now];
    if (!m) return;
    m.at = inside(s, m.at ? [m.at[0] + dx, m.at[1] + dy] : middle(canvas, s));
    showMark(canvas, s);
    calls.moved();
    change();
  };
  const zoom = (f, at) => {
    zoomAbout(canvas, s, f, at ?? centreFor(canvas, s));
    redraw();
  };
  takeFingers(canvas, s, calls, change);
  takeKeys(canvas, moveBy, zoom);
  new ResizeObserver(() => { if (s.fitted) fit(canvas, s); redraw(); }).observe(canvas);
  const key = (label, text, act) => button({ class: 'pick-key', 'aria-label': label, title: label, on: { click: act } }, text);
  return {
    el: h('div', { class: 'pick' }, h('div', { class: 'pick-area' }, canvas, glass), words,
      h('div', { class: 'pick-keys', role: 'group', 'aria-label': 'Move the point, and zoom' },
        key('One pixel left', '←', () => moveBy(-1, 0)), key('One pixel up', '↑', () => moveBy(0, -1)),
        key('One pixel down', '↓', () => moveBy(0, 1)), key('One pixel right', '→', () => moveBy(1, 0)),
        key('Smaller', '−', () => zoom(1 / 1.6)), key('Larger', '+', () => zoom(1.6)),
        key('Whole picture', 'All', () => { fit(canvas, s); redraw(); }))),
    /** Shows another picture, whole. */
    show(picture) {
      s.picture = picture;
      fit(canvas, s);
      change();
    },
    /** The points, the lines between them (pairs of indices), the one in hand. */
    renew(marks, lines, now) {
      Object.assign(s, { marks, lines, now });
      change();
    },
  };
}

const inside = (s, [x, y]) => [
  Math.round(Math.max(0, Math.min(s.picture.width, x)) * 10) / 10,
  Math.round(Math.max(0, Math.min(s.picture.height, y)) * 10) / 10];

const toScreen = (s, p) => [s.x + s.k * p[0], s.y + s.k * p[1]];
const toPicture = (s, p) => [(p[0] - s.x) / s.k, (p[1] - s.y) / s.k];
const middle = (canvas, s) => toPicture(s, [canvas.clientWidth / 2, canvas.clientHeight / 2]);

/** About what to zoom: the point in hand where it is in sight, else the middle. */
function centreFor(canvas, s) {
  const at = s.marks[s.now]?.at;
  const p = at ? toScreen(s, at) : null;
  const seen = p && p[0] >= 0 && p[1] >= 0 && p[0] <= canvas.clientWidth && p[1] <= canvas.clientHeight;
  return seen ? p : [canvas.clientWidth / 2, canvas.clientHeight / 2];
}

function fit(canvas, s) {
  if (!s.picture || !canvas.clientWidth) return;
  s.k = Math.min(canvas.clientWidth / s.picture.width, canvas.clientHeight / s.picture.height);
  s.x = (canvas.clientWidth - s.k * s.picture.width) / 2;
  s.y = (canvas.clientHeight - s.k * s.picture.height) / 2;
  s.fitted = true;
}

function zoomAbout(canvas, s, f, at) {
  if (!s.picture) return;
  const whole = Math.min(canvas.clientWidth / s.picture.width, canvas.clientHeight / s.picture.height);
  const k = Math.max(whole, Math.min(MOST, s.k * f));
  s.x = at[0] - (at[0] - s.x) * (k / s.k);
  s.y = at[1] - (at[1] - s.y) * (k / s.k);
  s.k = k;
  s.fitted = k === whole;
  if (s.fitted) fit(canvas, s);
}

/** Brings the point in hand into sight. */
function showMark(canvas, s) {
  const at = s.marks[s.now]?.at;
  if (!at) return;
  const [x, y] = toScreen(s, at);
  if (x < 0 || x > canvas.clientWidth) s.x += canvas.clientWidth / 2 - x;
  if (y < 0 || y > canvas.clientHeight) s.y += canvas.clientHeight / 2 - y;
}

function say(words, canvas, s) {
  const m = s.marks[s.now];
  const text = !m ? '' : m.at ? `${m.name}: ${m.at[0]} across, ${m.at[1]} down` : `Tap the picture: ${m.name.toLowerCase()}`;
  setText(words, text);
  canvas.setAttribute('aria-label', `The photo. ${text}. Arrow keys move the point by a pixel, plus and minus zoom.`);
}

function takeKeys(canvas, moveBy, zoom) {
  canvas.addEventListener('keydown', (e) => {
    const by = e.shiftKey ? 10 : 1;
    const step = { ArrowLeft: [-by, 0], ArrowRight: [by, 0], ArrowUp: [0, -by], ArrowDown: [0, by] }[e.key];
    if (step) moveBy(...step);
    else if (e.key === '+' || e.key === '=') zoom(1.6);
    else if (e.key === '-') zoom(1 / 1.6);
    else return;
    e.preventDefault();
  });
}

/** One finger drags a point or, beside all of them, the picture; a tap names the point in hand; two zoom. */
function takeFingers(canvas, s, calls, change) {
  const at = (e) => {
    const box = canvas.getBoundingClientRect();
    return [e.clientX - box.left, e.clientY - box.top];
  };
  canvas.addEventListener('pointerdown', (e) => {
    if (!s.picture) return;
    canvas.setPointerCapture(e.pointerId);
    canvas.focus({ preventScroll: true });
    s.fingers.set(e.pointerId, at(e));
    if (s.fingers.size === 1) s.grip = begin(s, at(e), calls);
    else s.grip = { pinch: true };
    change();
  });
  canvas.addEventListener('pointermove', (e) => {
    const old = s.fingers.get(e.pointerId);
    if (!old || !s.grip) return;
    s.fingers.set(e.pointerId, at(e));
    if (s.grip.pinch) pinch(canvas, s, e.pointerId, old);
    else drag(s, at(e), old, calls);
    change();
  });
  const end = (e) => {
    if (!s.fingers.delete(e.pointerId)) return;
    const grip = s.grip;
    if (s.fingers.size === 0) s.grip = null;
    if (grip && !grip.pinch && !grip.moved && grip.mark === undefined && e.type === 'pointerup') name(s, grip.from, calls);
    else if (grip?.mark !== undefined && grip.moved) calls.moved(true);
    change();
  };
  canvas.addEventListener('pointerup', end);
  canvas.addEventListener('pointercancel', end);
  canvas.addEventListener('wheel', (e) => {
    e.preventDefault();
    zoomAbout(canvas, s, Math.exp(-e.deltaY / 400), at(e));
    change();
  }, { passive: false });
  for (const type of ['touchstart', 'touchmove']) canvas.addEventListener(type, (e) => e.preventDefault(), { passive: false });
}

/** What a finger takes: the nearest point within reach, unless one is still to be named. */
function begin(s, p, calls) {
  let best = -1;
  let least = REACH;
  s.marks.forEach((m, i) => {
    if (!m.at) return;
    const q = toScreen(s, m.at);
    // Of two points at one place it is the one in hand that is meant.
    const d = Math.hypot(q[0] - p[0], q[1] - p[1]) - (i === s.now ? 1 : 0);
    if (d < least) [best, least] = [i, d];
  });
  if (best < 0 || !s.marks[s.now]?.at) return { from: p, moved: false };
  s.now = best;
  calls.chosen(best);
  const q = toScreen(s, s.marks[best].at);
  // By its number: the marks are made anew at every change.
  return { mark: best, off: [q[0] - p[0], q[1] - p[1]], from: p, moved: false };
}

function drag(s, p, old, calls) {
  const g = s.grip;
  if (!g.moved && Math.hypot(p[0] - g.from[0], p[1] - g.from[1]) < WANDER) return;
  g.moved = true;
  if (g.mark !== undefined) {
    s.marks[g.mark].at = inside(s, toPicture(s, [p[0] + g.off[0], p[1] + g.off[1]]));
    calls.moved();
  } else {
    s.x += p[0] - old[0];
    s.y += p[1] - old[1];
    s.fitted = false;
  }
}

function pinch(canvas, s, id, old) {
  const [p, q] = [...s.fingers.entries()].map(([k, now]) => [k === id ? old : now, now]);
  const was = Math.hypot(p[0][0] - q[0][0], p[0][1] - q[0][1]);
  const is = Math.hypot(p[1][0] - q[1][0], p[1][1] - q[1][1]);
  const mid = [(p[1][0] + q[1][0]) / 2, (p[1][1] + q[1][1]) / 2];
  s.x += mid[0] - (p[0][0] + q[0][0]) / 2;
  s.y += mid[1] - (p[0][1] + q[0][1]) / 2;
  if (was > 10 && is > 10) zoomAbout(canvas, s, is / was, mid);
}

/** A tap puts the point in hand there. */
function name(s, p, calls) {
  const m = s.marks[s.now];
  const at = toPicture(s, p);
  if (!m || at[0] < 0 || at[1] < 0 || at[0] > s.picture.width || at[1] > s.picture.height) return;
  m.at = inside(s, at);
  calls.moved(true);
}

/** A canvas's context, its size that of its element in device pixels. */
function context(canvas, wide, high) {
  const ratio = Math.min(window.devicePixelRatio || 1, 2);
  if (canvas.width !== Math.round(wide * ratio) || canvas.height !== Math.round(high * ratio)) {
    canvas.width = Math.round(wide * ratio);
    canvas.height = Math.round(high * ratio);
  }
  const c = canvas.getContext('2d');
  c.setTransform(ratio, 0, 0, ratio, 0, 0);
  c.clearRect(0, 0, wide, high);
  return c;
}

function paint(canvas, glass, s) {
  if (!s.picture || !canvas.clientWidth) return;
  const c = context(canvas, canvas.clientWidth, canvas.clientHeight);
  c.imageSmoothingEnabled = s.k < 2;
  c.drawImage(s.picture, s.x, s.y, s.k * s.picture.width, s.k * s.picture.height);
  for (const [i, j] of s.lines) {
    const [p, q] = [s.marks[i]?.at, s.marks[j]?.at];
    if (p && q) twice(c, () => { c.beginPath(); c.moveTo(...toScreen(s, p)); c.lineTo(...toScreen(s, q)); }, 1.5);
  }
  s.marks.forEach((m, i) => { if (m.at && (!m.under || i === s.now)) paintMark(c, toScreen(s, m.at), m.short, i === s.now); });
  paintGlass(glass, canvas, s);
}

/** Strokes dark on light, to be seen on any photo. */
function twice(c, path, width) {
  for (const [style, more] of [['#fff', 2.5], ['#0b3d6e', 0]]) {
    c.strokeStyle = style;
    c.lineWidth = width + more;
    path();
    c.stroke();
  }
}

function paintMark(c, [x, y], short, now) {
  const r = now ? 13 : 9;
  twice(c, () => { c.beginPath(); c.arc(x, y, r, 0, 2 * Math.PI); }, now ? 2.5 : 1.5);
  twice(c, () => { c.beginPath(); c.moveTo(x - 4, y); c.lineTo(x + 4, y); c.moveTo(x, y - 4); c.lineTo(x, y + 4); }, 1);
  c.font = `${now ? 'bold ' : ''}15px B612, sans-serif`;
  c.lineWidth = 4;
  c.strokeStyle = '#fff';
  c.strokeText(short, x + r + 3, y - 6);
  c.fillStyle = '#0b3d6e';
  c.fillText(short, x + r + 3, y - 6);
}

/** The glass stands in the upper corner that is farther from the point. */
function paintGlass(glass, canvas, s) {
  const at = s.marks[s.now]?.at;
  glass.hidden = !at;
  if (!at) return;
  const [x, y] = toScreen(s, at);
  if (y < GLASS + 60 && x < GLASS + 60) s.left = false;
  else if (y < GLASS + 60 && x > canvas.clientWidth - GLASS - 60) s.left = true;
  glass.classList.toggle('is-left', s.left);
  const c = context(glass, GLASS, GLASS);
  const power = Math.max(POWER, 2 * s.k);
  c.fillStyle = '#888';
  c.fillRect(0, 0, GLASS, GLASS);
  c.imageSmoothingEnabled = false;
  c.drawImage(s.picture, GLASS / 2 - at[0] * power, GLASS / 2 - at[1] * power, s.picture.width * power, s.picture.height * power);
  twice(c, () => {
    c.beginPath();
    for (const [from, to] of [[8, 54], [78, 124]]) {
      c.moveTo(from, GLASS / 2);
      c.lineTo(to, GLASS / 2);
      c.moveTo(GLASS / 2, from);
      c.lineTo(GLASS / 2, to);
    }
  }, 1);
}
