// The canvas's place in the page. The sketcher's canvas is made by Ebiten,
// which takes document.body for its parent and its size. Here:
//   1. document.body is shadowed by the canvas's cell, for good: page code uses
//      document.documentElement or ids instead. The cell reports its size in
//      device pixels, because Ebiten reads the density once and never again;
//   2. the canvas that Ebiten makes is one that is there already, with a GL context
//      without what Ebiten leaves at costly defaults, and where it can be made
//      while the sketcher still arrives: a browser takes long over it. No game pads
//      are looked for: a browser polls for them as long as a page that has asked
//      once is open;
//   3. frames pass a gate: no frame runs while nothing changes, and no timer of the
//      sketcher's (Ebiten looks ten times a second whether sound should stop);
//   4. a pad above the canvas takes every pointer and key and hands them on, so
//      that no tap between two frames is lost and Tab leaves the drawing;
//   5. a change of the cell's size becomes the window resize Ebiten listens to.
// Points 1 to 3 lean on Ebiten 2.8.8, and the timers on Go's own loader.

import { early } from './early.js';

const host = document.getElementById('host');
const realFrame = window.requestAnimationFrame.bind(window);

/** How long the sketcher waits for what it is to draw first, ms: a store may never answer. */
const PATIENCE = 500;

let parked = null;
let until = performance.now() + 1000;
let owed = false; // a frame that was asked for comes, however long the one that asked has taken

/** Stands in for requestAnimationFrame inside the sketcher. */
function gate(callback) {
  const frame = (time) => {
    callback(time);
    frameDone();
  };
  // Until something is drawn no frame is held back.
  if (!window.drawnAt || owed || performance.now() < until) {
    owed = false;
    return realFrame(frame);
  }
  parked = frame;
  return 0;
}

const realTimeout = window.setTimeout.bind(window);
let timers = []; // { then, ms }: those that wait for the next frame

/** Stands in for setTimeout inside the sketcher. */
function later(then, ms) {
  if (!parked || performance.now() < until) return realTimeout(then, ms);
  timers.push({ then, ms });
  return 0;
}

/** Has Go's own timers set by later. */
function gateTimers(calls) {
  const name = 'runtime.scheduleTimeoutEvent';
  const schedule = calls[name];
  calls[name] = (sp) => {
    const before = window.setTimeout;
    window.setTimeout = later;
    try {
      schedule(sp);
    } finally {
      window.setTimeout = before;
    }
  };
}

let waiting = []; // { left, then }

/** Calls then once the sketcher has run that many frames. */
export function afterFrames(count, then) {
  waiting.push({ left: count, then });
  wake();
}

let before = Infinity; // how many pictures there were of what the sketcher starts with

/**
 * Says that what is to be worked on is on the sheet.
 * @param {number} [pictures]  how many pictures there were before it was
 */
export function onSheet(pictures = window.scrub.frames()) {
  before = pictures;
  wake();
}

/** Notes when the drawing of what is to be worked on stands, uncovered, and takes a finger. */
export function noteDrawn() {
  if (window.drawnAt || !host.querySelector('#pad') || host.querySelector('#boot')) return;
  if (window.scrub.frames() > before) window.drawnAt = performance.now();
}

function frameDone() {
  noteDrawn();
  for (const w of waiting) w.left -= 1;
  const due = waiting.filter((w) => w.left <= 0);
  waiting = waiting.filter((w) => w.left > 0);
  for (const w of due) w.then();
  if (waiting.length) wake();
}

/** Lets frames through for the next ms milliseconds. */
export function wake(ms = 150) {
  until = Math.max(until, performance.now() + ms);
  owed = !parked;
  if (!parked) return;
  const callback = parked;
  parked = null;
  realFrame(callback);
  for (const t of timers) realTimeout(t.then, t.ms);
  timers = [];
}

/** Device pixels for each CSS pixel, at most 2: more costs and shows nothing. */
const density = () => Math.min(window.devicePixelRatio || 1, 2);

function shadowBody() {
  Object.defineProperty(document, 'body', { configurable: true, get: () => host });
  for (const [name, side] of [['clientWidth', 'width'], ['clientHeight', 'height']]) {
    Object.defineProperty(host, name, {
      configurable: true,
      get: () => Math.max(1, Math.round(host.getBoundingClientRect()[side] * density())),
    });
  }
}

/** What Ebiten asks of a GL context, but smoothed edges: it smooths them itself. */
const GL = { alpha: true, premultipliedAlpha: true, stencil: true, antialias: false };

/**
 * Makes the sketcher's canvas, as large as it will be.
 * @returns {() => void} to be called before the sketcher makes its canvas: it is handed this one
 */
function canvasAhead() {
  const canvas = document.createElement('canvas');
  canvas.width = host.clientWidth;
  canvas.height = host.clientHeight;
  canvas.getContext = (type) => HTMLCanvasElement.prototype.getContext.call(canvas, type, GL);
  // A program that comes over the network is read by turns of this page, which the
  // waiting for a context would hold up: there Ebiten asks for it, later.
  if (navigator.serviceWorker?.controller) canvas.getContext('webgl2');
  passOverFirst(canvas, 'width');
  passOverFirst(canvas, 'height');
  return () => {
    document.createElement = (name, ...more) => {
      if (name !== 'canvas') return Document.prototype.createElement.call(document, name, ...more);
      delete document.createElement;
      return canvas;
    };
  };
}

/** Ebiten gives a new canvas 16 by 16 pixels first: with a context it would make its buffers twice more. */
function passOverFirst(canvas, side) {
  const { get, set } = Object.getOwnPropertyDescriptor(HTMLCanvasElement.prototype, side);
  let times = 0;
  Object.defineProperty(canvas, side, {
    get: () => get.call(canvas),
    set(size) {
      times += 1;
      if (times > 1 && size !== get.call(canvas)) set.call(canvas, size);
    },
  });
}

function noGamepads() {
  Object.defineProperty(navigator, 'getGamepads', { configurable: true, value: () => [] });
}

/** Why the sketcher cannot run in this browser, or an empty string. */
function obstacle() {
  if (typeof WebAssembly !== 'object') return 'This browser cannot run WebAssembly, which the sketcher is made of.';
  if (typeof window.Go !== 'function') return 'The loader did not arrive. Reload the page.';
  return '';
}

/**
 * Why the sketcher may have ended, or an empty string. Asked afterwards only:
 * a drawing context made just for asking costs a good part of the start.
 */
export function likelyReason() {
  if (document.createElement('canvas').getContext('webgl2')) return '';
  return 'This browser gives no WebGL 2 drawing: switch on hardware drawing, or use a newer browser.';
}

/**
 * Starts the sketcher in its cell; resolves when it takes commands.
 * @param {() => void} stopped  called when it ends, which it never should
 * @param {Promise<void>} found  settles when it is known what to draw first
 */
export async function start(stopped, found) {
  const why = obstacle();
  if (why) throw new Error(why);
  shadowBody();
  noGamepads();
  const go = new window.Go();
  gateTimers(go.importObject.gojs);
  const handCanvas = canvasAhead();
  const [sketcher, regular, bold] = await early;
  const instance = await WebAssembly.instantiate(sketcher, go.importObject);
  await Promise.race([found, new Promise((done) => setTimeout(done, PATIENCE))]);
  window.scrubFonts = { regular, bold };
  until = performance.now() + 1500;
  handCanvas();
  window.requestAnimationFrame = gate;
  const run = go.run(instance); // returns at the first wait, the rest follows by frames
  window.requestAnimationFrame = realFrame;
  const ended = run.then(() => {}, (err) => console.error(err));
  await Promise.race([ready(), ended.then(() => { throw new Error(likelyReason() || 'Reload the page.'); })]);
  ended.then(stopped);
  const canvas = host.querySelector('canvas');
  canvas.tabIndex = -1;
  canvas.setAttribute('aria-hidden', 'true');
  host.append(makePad());
  new ResizeObserver(resized).observe(host);
  watchRatio();
}

/** Waits until the sketcher has put its calls on window. */
async function ready() {
  const late = performance.now() + 30000;
  while (!window.scrub) {
    if (performance.now() > late) throw new Error('The sketcher did not start. Reload the page.');
    wake(500);
    await new Promise((done) => setTimeout(done, 20));
  }
}

function resized() {
  window.dispatchEvent(new Event('resize'));
  wake(300);
}

/** Watches for another pixel density: a zoom, another screen. */
function watchRatio() {
  const query = matchMedia(`(resolution: ${window.devicePixelRatio}dppx)`);
  query.addEventListener('change', () => { resized(); watchRatio(); }, { once: true });
}

function makePad() {
  const pad = document.createElement('div');
  pad.id = 'pad';
  pad.tabIndex = 0;
  pad.setAttribute('role', 'application');
  pad.setAttribute('aria-label', 'Drawing area. Arrow keys move what is selected; Tab leaves.');
  const point = (e) => {
    const box = pad.getBoundingClientRect();
    window.scrub.pointer(e.type, e.pointerType, e.pointerId, e.clientX - box.left, e.clientY - box.top, e.pressure);
    wake();
  };
  pad.addEventListener('pointerdown', (e) => {
    pad.setPointerCapture(e.pointerId);
    pad.classList.add('is-touched'); // whoever has a finger on it need not be shown where keys go
    pad.focus({ preventScroll: true });
    point(e);
  });
  for (const type of ['keydown', 'blur']) pad.addEventListener(type, () => pad.classList.remove('is-touched'));
  for (const type of ['pointermove', 'pointerup', 'pointercancel']) pad.addEventListener(type, point);
  pad.addEventListener('wheel', (e) => {
    e.preventDefault();
    const box = pad.getBoundingClientRect();
    window.scrub.wheel(e.deltaX, e.deltaY, e.clientX - box.left, e.clientY - box.top, e.ctrlKey || e.metaKey);
    wake();
  }, { passive: false });
  // Pencils lose quick taps, and fingers scroll the page, unless these are refused.
  for (const type of ['touchstart', 'touchmove']) {
    pad.addEventListener(type, (e) => e.preventDefault(), { passive: false });
  }
  for (const type of ['contextmenu', 'gesturestart', 'gesturechange', 'dragstart']) {
    pad.addEventListener(type, (e) => e.preventDefault());
  }
  pad.addEventListener('keydown', padKey);
  return pad;
}

/** Hands a key on; what the sketcher has no use for stays the browser's, Tab always. */
function padKey(e) {
  if (e.key === 'Tab' || e.altKey) return;
  const used = window.scrub.key(e.key, e.shiftKey, e.ctrlKey || e.metaKey);
  if (used) {
    e.preventDefault();
    e.stopPropagation();
  }
  wake();
}
