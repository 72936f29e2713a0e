// The page on which a photo is made true to scale and told where it belongs.
// Nothing changes in the scene until it is put in.

import { Do, Views, send } from '../protocol.js';
import { button, h, keyed, picture, setAttr, setText, showText } from '../dom.js';
import { freshId, takeWhole } from './entry.js';
import { makePick } from './photo-pick.js';

const CORNERS = ['Lower left corner', 'Lower right corner', 'Upper right corner', 'Upper left corner'];
const ENDS = ['First end', 'Second end'];
const PAUSE = 120; // ms without a change before the photo is judged
const LEFT = 250; // ms after a field was left: what the tap that left it is for must not move away under it

/**
 * Builds the page; returns a call that opens it.
 * @param {{say: (reply: Object, done?: string) => void}} page
 * @param {(id: string) => void} done  called with the photo's id once it is put in
 */
export function makePhotoEdit(page, done) {
  const s = { draft: null, marks: [], now: 0, places: {}, timer: 0, ownAt: false, lines: new Map() };
  const el = {};
  const pick = makePick({
    moved: (settled) => { collect(s, settled); renew(s, el, pick); },
    chosen: (i) => { s.now = i; renew(s, el, pick); },
  });
  s.act = {
    changed: () => judgeSoon(s, el),
    renew: () => renew(s, el, pick),
    choose: (i) => { s.now = i; renew(s, el, pick); },
    units: () => s.units,
    left: () => judgeSoon(s, el, LEFT),
    views: ['section', 'side', 'plan'], // a photo stands behind one of these
  };
  const put = () => {
    const lacking = missing(s);
    const reply = lacking ? { error: lacking } : send({ do: Do.photo_put, text: JSON.stringify(forSketcher(s)) });
    if (reply.error) {
      refuse(s, el, reply);
      return;
    }
    el.dialog.close();
    done(reply.name);
  };
  el.title = h('h2', { class: 'photo-title', id: freshId() });
  el.dialog = h('dialog', { class: 'photo-edit', 'aria-labelledby': el.title.id },
    h('header', { class: 'photo-head' }, el.title,
      button({ class: 'photo-cancel', on: { click: () => el.dialog.close() } }, 'Cancel'),
      button({ class: 'primary photo-put', on: { click: put } }, 'Put it in')),
    pick.el,
    h('div', { class: 'photo-form scroll', tabindex: '-1' }, truthGroup(s, el), reportGroup(el), placeGroup(s, el), moreGroup(s, el)));
  document.getElementById('app').append(el.dialog);
  return (draft, image, units) => {
    s.units = units;
    begin(s, draft);
    setText(el.title, draft.id ? `Change the photo ${draft.name}` : 'A photo behind the drawing');
    setText(el.dialog.querySelector('.photo-put'), draft.id ? 'Done' : 'Put it in');
    fill(s, el);
    el.dialog.showModal();
    pick.show(image);
    renew(s, el, pick);
    judge(s, el);
    el.dialog.querySelector('.photo-form').scrollTop = 0;
  };
}

/** Takes a draft in hand; points not named yet are null. */
function begin(s, draft) {
  s.draft = draft;
  s.places = draft.places ?? {};
  s.now = 0;
  s.ownAt = Boolean(draft.id);
  const names = draft.by === 'length' ? 2 : 4;
  while (draft.points.length < names) draft.points.push(null);
  draft.known ??= [];
  draft.checks ??= [];
  if (!draft.id) draft.at_px = null;
  s.settled = false;
}

/** The points in the order they are drawn, each with where its place is kept. */
function marksOf(d) {
  const list = (d.by === 'length' ? ENDS : CORNERS).map((name, i) => ({ name, short: String(i + 1), at: d.points[i], keep: (at) => { d.points[i] = at; } }));
  d.known.forEach((k, i) => list.push({ name: `Further point ${i + 1}`, short: `P${i + 1}`, at: k.px, keep: (at) => { k.px = at; } }));
  d.checks.forEach((k, i) => {
    list.push({ name: `Known length ${i + 1}, one end`, short: `L${i + 1}`, at: k.from, keep: (at) => { k.from = at; } });
    list.push({ name: `Known length ${i + 1}, other end`, short: '', at: k.to, keep: (at) => { k.to = at; } });
  });
  const same = d.at_px && d.points[0] && d.at_px[0] === d.points[0][0] && d.at_px[1] === d.points[0][1];
  list.push({ name: 'Point to place by', short: 'X', at: d.at_px, under: same, keep: (at) => { d.at_px = at; } });
  return list;
}

/** The lines between them, as pairs of indices. */
function linesOf(d) {
  const lines = d.by === 'length' ? [[0, 1]] : [[0, 1], [1, 2], [2, 3], [3, 0]];
  const from = d.points.length + d.known.length;
  d.checks.forEach((_, i) => lines.push([from + 2 * i, from + 2 * i + 1]));
  return lines;
}

/**
 * Takes over what was moved in the picture. Once one of the first points is
 * named the next is in hand; the point to place by is the first corner until
 * it is put elsewhere.
 */
function collect(s, settled) {
  const d = s.draft;
  const before = s.marks[s.now];
  before.keep(before.at);
  if (before.short === 'X') s.ownAt = true;
  if (!s.ownAt) d.at_px = d.points[0] ? [...d.points[0]] : null;
  if (settled && s.now < d.points.length && !d.points.every(Boolean)) s.now = d.points.findIndex((p) => !p);
}

function renew(s, el, pick) {
  s.marks = marksOf(s.draft);
  s.now = Math.min(s.now, s.marks.length - 1);
  pick.renew(s.marks, linesOf(s.draft), s.now);
  for (const box of [el.points, el.checks, el.known, el.byPoint]) renewChips(s, el, box);
  judgeSoon(s, el);
}

/** Which of the points a chip stands for is in hand, and which are named. */
function renewChips(s, el, box) {
  for (const chip of box.querySelectorAll('.photo-chip')) {
    const i = chip.markIndex();
    setAttr(chip, 'aria-pressed', String(i === s.now));
    setText(chip.querySelector('.chip-state'), s.marks[i]?.at ? '' : 'not named');
  }
}

function chip(label, indexOf, act) {
  const b = button({ class: 'photo-chip', on: { click: () => act.choose(b.markIndex()) } }, h('span', { text: label }), h('span', { class: 'chip-state' }));
  b.markIndex = indexOf;
  return b;
}

/**
 * A labelled line to type into; unit gives the unit behind the label, for a
 * name there is none. What is wrong with it is said below it, once it is left.
 */
function line(label, set, act, unit = () => act.units()) {
  const id = freshId();
  const input = h('input', {
    id, class: 'input', type: 'text', autocomplete: 'off', enterkeyhint: 'done',
    on: { input: () => { set(input.value); act.changed(); }, blur: () => act.left() },
  });
  if (unit !== none) takeWhole(input);
  const error = h('p', { class: 'field-error', id: `${id}-error`, role: 'status', hidden: true });
  const name = h('span', { text: label });
  const mark = h('span', { class: 'photo-unit' });
  const renew = (value) => {
    setText(mark, unit() ? `, ${unit()}` : '');
    input.value = value ?? '';
  };
  const say = (text) => {
    showText(error, text);
    setAttr(input, 'aria-invalid', text ? 'true' : null);
    setAttr(input, 'aria-describedby', text ? error.id : null);
  };
  return { el: h('div', { class: 'photo-line' }, h('label', { for: id }, name, mark), input, error), input, name, renew, say };
}

/** The unit of what is no number. */
const none = () => '';

function choice(label, list, choose) {
  return h('div', { class: 'choice', role: 'group', 'aria-label': label },
    ...list.map((x) => button({ 'data-value': x.value, on: { click: () => choose(x.value) } }, x.label)));
}

function press(group, value) {
  for (const b of group.children) setAttr(b, 'aria-pressed', String(b.dataset.value === value));
}

/** What makes it true: a rectangle, or two ends. */
function truthGroup(s, el) {
  const { act } = s;
  el.by = choice('What is known in the picture', [{ value: 'rectangle', label: 'A rectangle' }, { value: 'length', label: 'One length' }], (by) => {
    s.draft.by = by;
    s.draft.points = Array(by === 'length' ? 2 : 4).fill(null);
    if (by === 'length') s.draft.known = [];
    s.now = 0;
    fill(s, el);
    act.renew();
  });
  el.byHelp = h('p', { class: 'photo-help' });
  el.points = h('div', { class: 'photo-chips' });
  el.wide = line('Width', (v) => { s.draft.wide = v; }, act);
  el.high = line('Height', (v) => { s.draft.high = v; }, act);
  el.long = line('Length between the two ends', (v) => { s.draft.length = v; }, act);
  return h('section', { class: 'photo-group' }, h('h3', { text: 'Make it true to scale' }), el.by, el.byHelp, el.points,
    h('div', { class: 'photo-pair' }, el.wide.el, el.high.el), el.long.el);
}

function reportGroup(el) {
  el.error = h('p', { class: 'photo-missing', role: 'status', hidden: true });
  el.warnings = h('ul', { class: 'photo-warnings' });
  el.lines = h('ul', { class: 'photo-lines' });
  return h('section', { class: 'photo-group', 'aria-live': 'polite' }, h('h3', { text: 'How true it is' }), el.error, el.warnings, el.lines);
}

/** Where it belongs: the view, the station, the point and its place. */
function placeGroup(s, el) {
  const { act } = s;
  el.view = choice('View', Views.filter((v) => s.act.views.includes(v.value)), (v) => {
    s.draft.view = v;
    if (!s.draft.id) s.draft.at = [...(s.places[v]?.at ?? s.draft.at)];
    fill(s, el);
    act.changed();
  });
  el.station = line('Station, behind the front axle', (v) => { s.draft.station = v; }, act);
  el.byPoint = h('div', { class: 'photo-chips' }, chip('Point to place by', () => s.marks.length - 1, act));
  el.first = line('', (v) => { s.draft.at[0] = v; }, act);
  el.second = line('', (v) => { s.draft.at[1] = v; }, act);
  el.turn = line('Turned', (v) => { s.draft.turn = v; }, act, () => 'degrees');
  el.level = button({
    class: 'quiet', on: {
      click: () => {
        s.draft.turn = String(Math.round(-(s.lean ?? 0) * (s.draft.mirrored ? -1 : 1) * 100) / 100);
        fill(s, el);
        act.changed();
      },
    },
  }, 'Lay the two ends level');
  const id = freshId();
  el.mirrored = h('input', { type: 'checkbox', id, on: { change: () => { s.draft.mirrored = el.mirrored.checked; act.changed(); } } });
  return h('section', { class: 'photo-group' }, h('h3', { text: 'Where it belongs' }), el.view, el.station.el,
    h('p', { class: 'photo-help', text: 'Choose a point of the picture and say where it lies. You can also move the photo with a finger later.' }),
    el.byPoint, h('div', { class: 'photo-pair' }, el.first.el, el.second.el),
    h('div', { class: 'photo-pair' }, el.turn.el, el.level),
    h('label', { class: 'photo-tick', for: id }, el.mirrored, h('span', { text: 'Taken from the other side: from the right, from the front or from below' })));
}

/** What it can be checked by, and the photo's name. */
function moreGroup(s, el) {
  const { act } = s;
  el.checks = h('div', { class: 'photo-list' });
  el.known = h('div', { class: 'photo-list' });
  el.name = line('Name', (v) => { s.draft.name = v; }, act, none);
  el.addKnown = button({ class: 'photo-add', on: { click: () => add(s, el, s.draft.known, { px: null, right: '', up: '' }) } }, 'Add a known point');
  return h('section', { class: 'photo-group' }, h('h3', { text: 'Check it' }),
    h('p', { class: 'photo-help', text: 'A length you measured, in the same plane: what the photo makes of it says how true it is.' }),
    el.checks, button({ class: 'photo-add', on: { click: () => add(s, el, s.draft.checks, { from: null, to: null, length: '' }) } }, 'Add a known length'),
    el.known, el.addKnown, el.name.el);
}

function add(s, el, list, item) {
  if (list.length >= 12) return;
  list.push(item);
  const marks = marksOf(s.draft);
  s.now = marks.findIndex((m, i) => !m.at && m.short !== 'X' && i >= s.draft.points.length);
  fillLists(s, el);
  s.act.renew();
}

/** Puts the draft into the fields. */
function fill(s, el) {
  const d = s.draft;
  const rect = d.by !== 'length';
  press(el.by, d.by);
  press(el.view, d.view);
  setText(el.byHelp, rect
    ? 'Name the four corners of something square you know the size of: a framing square\'s outline, a sheet, the frame. It must lie in the plane you want to trace.'
    : 'For a photo taken square to the plane: two points a known length apart.');
  for (const f of [el.wide, el.high, el.addKnown]) (f.el ?? f).hidden = !rect;
  el.long.el.hidden = rect;
  el.level.hidden = rect;
  el.station.el.hidden = d.view !== 'section';
  const axes = s.places[d.view]?.axes ?? ['Across', 'Up'];
  setText(el.first.name, axes[0]);
  setText(el.second.name, axes[1]);
  const values = [[el.wide, d.wide], [el.high, d.high], [el.long, d.length], [el.station, d.station],
    [el.first, d.at[0]], [el.second, d.at[1]], [el.turn, d.turn], [el.name, d.name]];
  for (const [f, v] of values) f.renew(v);
  s.lines = new Map([['wide', el.wide], ['high', el.high], ['length', el.long], ['station', el.station],
    ['at/0', el.first], ['at/1', el.second], ['turn', el.turn]]);
  el.mirrored.checked = d.mirrored;
  el.points.replaceChildren(...(rect ? CORNERS : ENDS).map((name, i) => chip(`${i + 1} ${name}`, () => i, s.act)));
  fillLists(s, el);
}

function fillLists(s, el) {
  const { act, draft: d } = s;
  const drop = (list, i) => button({ class: 'quiet', on: { click: () => { list.splice(i, 1); s.now = 0; fillLists(s, el); act.renew(); } } }, 'Remove');
  el.checks.replaceChildren(...d.checks.map((k, i) => {
    const at = (n) => d.points.length + d.known.length + 2 * i + n;
    const length = line(`Known length ${i + 1}`, (v) => { k.length = v; }, act);
    length.renew(k.length);
    s.lines.set(`checks/${i}`, length);
    return h('div', { class: 'photo-item' }, h('div', { class: 'photo-chips' }, chip(`L${i + 1} one end`, () => at(0), act), chip('other end', () => at(1), act)),
      length.el, h('p', { class: 'photo-said', role: 'status' }), drop(d.checks, i));
  }));
  el.known.replaceChildren(...d.known.map((k, i) => {
    const right = line('Right of the lower left corner', (v) => { k.right = v; }, act);
    const up = line('Up from it', (v) => { k.up = v; }, act);
    right.renew(k.right);
    up.renew(k.up);
    s.lines.set(`known/${i}/right`, right).set(`known/${i}/up`, up);
    return h('div', { class: 'photo-item' }, h('div', { class: 'photo-chips' }, chip(`P${i + 1} further point`, () => d.points.length + i, act)),
      h('div', { class: 'photo-pair' }, right.el, up.el), drop(d.known, i));
  }));
}

/** The draft as the sketcher takes it: only what is named. */
function forSketcher(s) {
  const d = s.draft;
  return {
    ...d, places: undefined, points: d.points.filter(Boolean), at_px: d.at_px ?? d.points[0] ?? [0, 0],
  };
}

/** What has to be named in the picture first; empty for nothing. */
function missing(s) {
  const m = marksOf(s.draft).find((x) => !x.at && x.short !== 'X');
  return m ? `Tap the picture: ${m.name.toLowerCase()}.` : '';
}

/**
 * Says what hinders: at its entry when it cannot be read, and otherwise, also
 * while it is being typed, as what is to be done next.
 */
function tell(s, el, reply) {
  const at = s.lines.get(reply.field);
  const typing = !at?.input.value.trim() || document.activeElement === at.input;
  for (const f of s.lines.values()) f.say(f === at && !typing ? reply.error : '');
  showText(el.error, at && !typing ? '' : reply.error ?? '');
  el.error.classList.remove('is-refused');
}

/** Says why it is not put in, where that can be mended. */
function refuse(s, el, reply) {
  clearTimeout(s.timer);
  tell(s, el, reply);
  const at = s.lines.get(reply.field);
  if (at) {
    at.input.focus();
    at.say(reply.error);
    showText(el.error, '');
    at.el.scrollIntoView({ block: 'center' });
    return;
  }
  el.error.classList.add('is-refused');
  el.error.scrollIntoView({ block: 'center' });
}

function judgeSoon(s, el, pause = PAUSE) {
  clearTimeout(s.timer);
  s.timer = setTimeout(() => judge(s, el), pause);
}

/** Asks the sketcher how true the photo is as it stands. */
function judge(s, el) {
  if (!el.dialog.open) return;
  const lacking = missing(s);
  const reply = lacking ? { error: lacking } : send({ do: Do.photo_try, text: JSON.stringify(forSketcher(s)) });
  const report = reply.text ? JSON.parse(reply.text) : { lines: [], warnings: [], checks: [] };
  tell(s, el, reply);
  s.lean = report.lean_deg;
  const row = (text, i) => ({ key: String(i), text });
  for (const [list, items] of [[el.warnings, report.warnings], [el.lines, report.lines]]) {
    keyed(list, (items ?? []).map(row), (x) => x.key, () => h('li', {}, list === el.warnings ? picture('tight') : null, h('span')), (li, x) => setText(li.lastChild, x.text));
  }
  el.checks.querySelectorAll('.photo-said').forEach((p, i) => showText(p, report.checks?.[i] ?? ''));
}
