// The drawing beside the questions of a new vehicle: what the sketcher says in
// millimetres, fitted into its place, with lines and letters at their own size.
// Dimensions follow ISO 129-1: extension lines that stand clear of the outline
// and reach past the dimension line, filled arrowheads, the figure above a
// horizontal line and along a vertical one; beside it where there is no room.

import { setAttr } from '../dom.js';

const SVG = 'http://www.w3.org/2000/svg';
const GAP = 3; // px between an outline and its extension line
const PAST = 6; // px an extension line reaches past the dimension line
const OFF = 26; // px from the outline to the dimension line
const ARROW = 10; // px, length of an arrowhead
const LETTER = 7.6; // px, width of a figure at 14 px: wide enough for any
const LINE = 18; // px between two figures that stand below each other
const LARGEST = 1.5; // figures grow with the reader's letters up to here: the drawing needs its room

let large = 1; // how large the reader's letters are, against the usual size

/**
 * Makes the drawing; renew takes the Sketch of wasm/app/start_sketch.go.
 */
export function makeSketch() {
  const el = document.createElementNS(SVG, 'svg');
  setAttr(el, 'role', 'img');
  setAttr(el, 'class', 'sketch');
  let sketch = null;
  const draw = () => {
    const { width, height } = el.getBoundingClientRect();
    if (sketch && width > 0 && height > 0) compose(el, sketch, width, height);
  };
  new ResizeObserver(draw).observe(el);
  return {
    el,
    renew(next) {
      sketch = next;
      setAttr(el, 'aria-label', sketch.words);
      draw();
    },
  };
}

function compose(el, sketch, width, height) {
  large = Math.max(1, Math.min(LARGEST, parseFloat(getComputedStyle(document.documentElement).fontSize) / 16 || 1));
  el.style.setProperty('--large', large);
  setAttr(el, 'viewBox', `0 0 ${width} ${height}`);
  const fit = fitted(sketch, width, height);
  const out = [hatching()];
  for (const line of sketch.lines) out.push(...drawLine(line, fit));
  const dims = sketch.dims.map((d) => placed(d, fit));
  spread(dims);
  // What is asked for lies on top.
  dims.sort((a, b) => Number(a.dim.on) - Number(b.dim.on));
  for (const d of dims) out.push(drawDim(d));
  el.replaceChildren(...out);
}

/** How millimetres become pixels: room is left for the dimensions at each side. */
function fitted(sketch, width, height) {
  const box = { l: Infinity, r: -Infinity, b: Infinity, t: -Infinity };
  const take = (x, y, r = 0) => {
    box.l = Math.min(box.l, x - r);
    box.r = Math.max(box.r, x + r);
    box.b = Math.min(box.b, y - r);
    box.t = Math.max(box.t, y + r);
  };
  for (const line of sketch.lines) for (const [x, y] of line.pts) take(x, y, line.r);
  for (const d of sketch.dims) for (const [x, y] of [d.from, d.to]) take(x, y);
  let fit = null;
  let beside = false; // figures stand beside a vertical dimension line
  for (let turn = 0; turn < 2; turn++) {
    const room = { l: 12, r: 12, t: 12, b: 12 };
    for (const d of sketch.dims) {
      const side = d.way === 'h' ? (d.side < 0 ? 'b' : 't') : (d.side < 0 ? 'l' : 'r');
      const letters = d.text.length * LETTER * large;
      room[side] = Math.max(room[side], OFF + 14 + (d.way === 'h' ? 8 : beside ? letters : 8));
    }
    const scale = Math.max(1e-6, Math.min((width - room.l - room.r) / (box.r - box.l || 1), (height - room.t - room.b) / (box.t - box.b || 1)));
    const left = room.l + (width - room.l - room.r - (box.r - box.l) * scale) / 2;
    const top = room.t + (height - room.t - room.b - (box.t - box.b) * scale) / 2;
    fit = { scale, box, x: (x) => left + (x - box.l) * scale, y: (y) => top + (box.t - y) * scale };
    const short = sketch.dims.some((d) => d.way === 'v' && Math.abs(d.to[1] - d.from[1]) * scale < need(d));
    if (!short) break;
    beside = true;
  }
  return fit;
}

/** The length from which a dimension line holds its figure and two arrowheads. */
const need = (d) => d.text.length * LETTER * large + 10;

function drawLine(line, fit) {
  const at = line.pts.map(([x, y]) => [fit.x(x), fit.y(y)]);
  const css = `sk sk-${line.kind}${line.on ? ' is-on' : ''}`;
  if (line.kind === 'on_body' || line.kind === 'on_axle') return [shape('circle', css, { cx: at[0][0], cy: at[0][1], r: 4.5 })];
  if (line.r) return [shape('circle', css, { cx: at[0][0], cy: at[0][1], r: line.r * fit.scale })];
  const d = `M${at.map((p) => p.map((v) => v.toFixed(1)).join(' ')).join('L')}${line.closed ? 'Z' : ''}`;
  if (line.kind !== 'arrow') return [shape('path', css, { d })];
  const words = shape('text', 'sk-text', { x: at[0][0] + 6, y: at[0][1] + 5 });
  words.textContent = 'front';
  return [shape('path', 'sk sk-seen', { d }), head(at[1], [-1, 0], 'sk-head'), words];
}

/** Where a dimension's line and figure go. */
function placed(dim, fit) {
  const a = [fit.x(dim.from[0]), fit.y(dim.from[1])];
  const b = [fit.x(dim.to[0]), fit.y(dim.to[1])];
  const edge = dim.way === 'h'
    ? (dim.side < 0 ? fit.y(fit.box.b) : fit.y(fit.box.t))
    : (dim.side < 0 ? fit.x(fit.box.l) : fit.x(fit.box.r));
  const line = dim.way === 'h' ? edge - dim.side * OFF : edge + dim.side * OFF;
  const p = dim.way === 'h' ? [a[0], line] : [line, a[1]];
  const q = dim.way === 'h' ? [b[0], line] : [line, b[1]];
  const long = Math.hypot(q[0] - p[0], q[1] - p[1]);
  const beside = dim.way === 'v' && long < need(dim);
  return { dim, a, b, p, q, long, beside, y: (p[1] + q[1]) / 2 };
}

/** Keeps figures that stand beside their lines from standing on each other. */
function spread(dims) {
  for (const side of [-1, 1]) {
    const list = dims.filter((d) => d.beside && d.dim.side === side).sort((u, v) => u.y - v.y);
    for (let i = 1; i < list.length; i++) {
      const over = LINE * large - (list[i].y - list[i - 1].y);
      if (over <= 0) continue;
      list[i - 1].y -= over / 2;
      list[i].y += over / 2;
    }
  }
}

function drawDim(d) {
  const g = document.createElementNS(SVG, 'g');
  setAttr(g, 'class', `dim${d.dim.on ? ' is-on' : ''}`);
  setAttr(g, 'data-ask', d.dim.ask);
  const across = d.dim.way === 'h' ? [0, d.p[1] > d.a[1] ? 1 : -1] : [d.p[0] > d.a[0] ? 1 : -1, 0];
  for (const [from, to] of [[d.a, d.p], [d.b, d.q]]) {
    g.append(shape('path', 'dim-line', {
      d: `M${from[0] + across[0] * GAP} ${from[1] + across[1] * GAP}L${to[0] + across[0] * PAST} ${to[1] + across[1] * PAST}`,
    }));
  }
  const u = d.long > 0 ? [(d.q[0] - d.p[0]) / d.long, (d.q[1] - d.p[1]) / d.long] : [0, -1];
  const inside = d.long >= 2 * ARROW + 4;
  const out = inside ? 0 : ARROW + 8;
  g.append(shape('path', 'dim-line', { d: `M${d.p[0] - u[0] * out} ${d.p[1] - u[1] * out}L${d.q[0] + u[0] * out} ${d.q[1] + u[1] * out}` }));
  const way = inside ? 1 : -1;
  g.append(head(d.p, [-u[0] * way, -u[1] * way], 'dim-head'), head(d.q, [u[0] * way, u[1] * way], 'dim-head'), figure(d));
  return g;
}

function figure(d) {
  const mid = [(d.p[0] + d.q[0]) / 2, d.y];
  let where = { x: mid[0], y: mid[1] - 6, 'text-anchor': 'middle' };
  if (d.beside) where = { x: mid[0] + d.dim.side * 8, y: mid[1] + 5, 'text-anchor': d.dim.side < 0 ? 'end' : 'start' };
  else if (d.dim.way === 'v') where = { x: 0, y: 0, 'text-anchor': 'middle', transform: `translate(${mid[0] - 6} ${mid[1]}) rotate(-90)` };
  const text = shape('text', 'dim-text', where);
  text.textContent = d.dim.text;
  return text;
}

/** A filled arrowhead with its tip at a point, pointing along u. */
function head(tip, u, css) {
  const [x, y] = tip;
  const n = [-u[1], u[0]];
  const at = (along, side) => `${(x - u[0] * along + n[0] * side).toFixed(1)} ${(y - u[1] * along + n[1] * side).toFixed(1)}`;
  return shape('path', css, { d: `M${at(0, 0)}L${at(ARROW, 2.6)}L${at(ARROW, -2.6)}Z` });
}

function shape(tag, css, props) {
  const el = document.createElementNS(SVG, tag);
  el.setAttribute('class', css);
  for (const [key, value] of Object.entries(props)) el.setAttribute(key, typeof value === 'number' ? value.toFixed(1) : value);
  return el;
}

/** Hatching for what is cut, ISO 128: thin lines at 45 degrees. */
function hatching() {
  const defs = document.createElementNS(SVG, 'defs');
  const pattern = shape('pattern', '', { id: 'sk-hatch', width: '6', height: '6', patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' });
  pattern.append(shape('path', 'sk-hatch', { d: 'M0 0V6' }));
  defs.append(pattern);
  return defs;
}
