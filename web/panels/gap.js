// The two parts of an open finding at its worst, drawn small: one plain, one
// hatched, with the gap dimensioned. All numbers come from the sketcher, in mm.

import { h, setAttr, setText, showText } from '../dom.js';

const SVG = 'http://www.w3.org/2000/svg';
let count = 0;

/** Builds the drawing; returns its element and renewal. */
export function makeGap() {
  count += 1;
  const hatch = `gap-hatch-${count}`;
  const line = el('path', { class: 'gap-hatch', d: 'M0 0V1' });
  const pattern = el('pattern', { id: hatch, patternUnits: 'userSpaceOnUse' }, line);
  const a = makePart('');
  const b = makePart(`url(#${hatch})`);
  const measure = el('path', { class: 'gap-measure' });
  const leader = el('path', { class: 'gap-leader' });
  const text = el('text', { class: 'gap-text', 'text-anchor': 'middle' });
  const svg = el('svg', { class: 'gap-svg', role: 'img', focusable: 'false' }, el('defs', {}, pattern), a.el, b.el, leader, measure, text);
  const where = h('p', { class: 'gap-where' });
  const nameA = h('span');
  const nameB = h('span');
  const box = h('figure', { class: 'gap', hidden: true }, svg, h('figcaption', {}, where,
    h('span', { class: 'gap-key' }, h('span', { class: 'gap-swatch', 'aria-hidden': 'true' }), nameA),
    h('span', { class: 'gap-key' }, h('span', { class: 'gap-swatch is-hatched', 'aria-hidden': 'true' }), nameB)));
  return {
    el: box,
    renew(g, mark) {
      box.hidden = !g;
      if (!g || box.gap === g.key + JSON.stringify(g)) return;
      box.gap = g.key + JSON.stringify(g);
      box.classList.toggle('is-touch', mark === 'touch');
      setAttr(svg, 'viewBox', g.box.join(' '));
      setAttr(svg, 'aria-label', g.alt);
      const step = g.box[2] / 40;
      for (const [name, v] of Object.entries({ width: step, height: step, patternTransform: 'rotate(45)' })) setAttr(pattern, name, v);
      setAttr(line, 'd', `M${step / 2} 0V${step}`);
      a.path(g.a.path);
      b.path(g.b.path);
      dimension(g, measure, leader, text);
      showText(where, g.where);
      setText(nameA, g.a.name);
      setText(nameB, g.b.name);
    },
  };
}

/** A part: its pieces stroked, then filled over, so that only the outer border stays. */
function makePart(fill) {
  const border = el('path', { class: 'gap-border' });
  const paper = el('path', { class: 'gap-paper' });
  const over = fill ? el('path', { fill }) : null;
  const g = el('g', { class: fill ? 'gap-part is-hatched' : 'gap-part' }, border, paper, ...(over ? [over] : []));
  return { el: g, path: (d) => { for (const p of [border, paper, over]) if (p) setAttr(p, 'd', d); } };
}

/** The line from point to point with a bar across each end, and its figure above. */
function dimension(g, measure, leader, text) {
  const [x, y] = g.p;
  const [u, v] = g.q;
  const long = Math.hypot(u - x, v - y);
  const bar = g.box[2] / 50;
  const [nx, ny] = long > 0 ? [((y - v) / long) * bar, ((u - x) / long) * bar] : [bar, 0];
  const across = (px, py) => `M${px - nx} ${py - ny}L${px + nx} ${py + ny}`;
  setAttr(measure, 'd', `M${x} ${y}L${u} ${v}${across(x, y)}${across(u, v)}`);
  const mid = [(x + u) / 2, (y + v) / 2];
  const size = g.box[2] / 18;
  const top = g.box[1] + size * 1.3;
  setAttr(leader, 'd', `M${mid[0]} ${mid[1]}V${top + size * 0.35}`);
  for (const [name, value] of Object.entries({ x: mid[0], y: top, 'font-size': size, 'stroke-width': size / 3 })) setAttr(text, name, value);
  setText(text, g.figure);
}

function el(tag, props, ...children) {
  const e = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(props)) if (value !== '') setAttr(e, name, value);
  e.append(...children);
  return e;
}
