// The sheet "Needs": what two parts must keep because of what they are, kind by
// kind, with the figures the scene has of its own and the pairs of parts that
// have one.

import { Do, send } from '../protocol.js';
import { button, h, keyed, setAttr, setText, showText } from '../dom.js';
import { makeSay, openCard } from './card.js';
import { freshId, makeEntry } from './entry.js';

let open = null; // the sheet that is open
let chosen = ''; // the kind whose needs are listed, kept while the page lives

/** Opens the sheet. */
export function openNeeds(outer) {
  if (open) return;
  const line = makeSay();
  const page = { ...outer, say: line.say };
  const note = h('p');
  const changed = h('ul', { class: 'plain-list' });
  const changedBox = h('section', {}, h('h3', { class: 'card-sub', text: 'Figures of this scene' }), changed);
  const pairs = h('ul', { class: 'plain-list' });
  const pairsCount = h('summary', {});
  const pairsBox = h('details', { class: 'fold' }, pairsCount, pairs);
  const rows = h('ul', { class: 'plain-list need-rows' });
  const state = { panel: null };
  const kind = makeEntry({ type: 'choice' }, (value) => {
    chosen = value;
    renewRows();
    return {};
  });
  const card = openCard('Needs', line.el, note, changedBox, pairsBox,
    h('section', {}, h('h3', { class: 'card-sub', text: 'Kind by kind' }),
      h('div', { class: 'need-kind' }, h('label', { for: kind.input.id, text: 'Between' }), kind.box), rows));
  card.el.classList.add('card-wide', 'needs-card');
  const leave = (act) => {
    card.close();
    act();
  };
  const name = (k) => state.panel.kinds.find((x) => x.value === k)?.label ?? k;
  const other = (r) => (r.a === chosen ? r.b : r.a);
  const both = (r) => `${name(r.a)} and ${lower(name(r.b))}`;
  function renewRows() {
    const s = state.panel;
    const mine = s.rows.filter((r) => r.a === chosen || r.b === chosen);
    mine.sort((r, q) => order(s, other(r)) - order(s, other(q)));
    kind.renew({ value: chosen, choices: s.kinds });
    keyed(rows, mine.map((r) => ({ ...r, label: `and ${lower(name(other(r)))}`, spoken: both(r) })), (r) => r.target, makeRow, renewRow);
  }
  const renew = (p) => {
    const s = p.needs;
    if (!s) return;
    state.panel = s;
    chosen ||= 'exhaust';
    line.renew(p);
    setText(note, s.note);
    const own = s.rows.filter((r) => r.set);
    changedBox.hidden = !own.length;
    keyed(changed, own.map((r) => ({ ...r, label: both(r), spoken: both(r) })), (r) => r.target, makeRow, renewRow);
    pairsBox.hidden = !s.pairs.length;
    setText(pairsCount, `Pairs of parts with a figure of their own (${s.pairs.length})`);
    keyed(pairs, s.pairs, (x) => x.target, () => makePair(page, leave), renewPair);
    renewRows();
  };
  card.el.addEventListener('close', () => {
    open = null;
    send({ do: Do.needs, on: false });
  });
  open = { renew };
  send({ do: Do.needs, on: true });
}

/** Hands the open sheet what the sketcher says. */
export function renewNeeds(p) {
  open?.renew(p);
}

const order = (s, k) => s.kinds.findIndex((x) => x.value === k);
const lower = (text) => text.charAt(0).toLowerCase() + text.slice(1);

/** What two kinds of part must keep, to be typed into. */
function makeRow(first) {
  const edit = (field, text) => send({ do: Do.edit, target: first.target, field, text });
  const figure = makeEntry({ type: 'number' }, (text) => edit('need', text));
  const why = makeEntry({ type: 'text' }, (text) => edit('why', text));
  const from = h('p', { class: 'need-from', id: freshId() });
  const p = {
    figure, why, from,
    label: h('label', { class: 'need-label', for: figure.input.id }),
    changed: h('span', { class: 'need-changed' }),
    back: button({ class: 'quiet', on: { click: () => edit('need', '') } }),
    warn: h('p', { class: 'caution-text', role: 'status' }),
    whyLabel: h('label', { for: why.input.id, text: 'Why' }),
  };
  p.own = h('div', { class: 'need-own' }, p.changed, p.back, h('div', { class: 'need-why' }, p.whyLabel, why.box), why.error);
  const li = h('li', { class: 'need-row' }, p.label, figure.box, figure.error, from, p.warn, p.own);
  setAttr(figure.input, 'aria-describedby', from.id);
  li.parts = p;
  return li;
}

function renewRow(li, r) {
  const p = li.parts;
  li.classList.toggle('is-set', r.set);
  setText(p.label, r.label);
  setAttr(p.figure.input, 'aria-label', `${r.spoken} need`);
  p.figure.renew({ value: r.value, unit: r.unit, unsigned: true });
  setText(p.from, r.from);
  showText(p.warn, r.warn);
  p.own.hidden = !r.set;
  setText(p.changed, `Changed; the table says ${r.table}`);
  setText(p.back, `Back to ${r.table}`);
  setAttr(p.back, 'aria-label', `${r.spoken}: back to ${r.table}`);
  setAttr(p.why.input, 'aria-label', `Why ${lower(r.spoken)} need that`);
  p.why.renew({ value: r.why });
}

function makePair(page, leave) {
  const li = h('li', { class: 'need-pair' });
  const p = {
    names: h('span', { class: 'list-title' }), text: h('span', { class: 'list-about' }), warn: h('p', { class: 'caution-text' }),
    open: button({ on: { click: () => leave(() => page.openForm(li.item.target)) } }, 'Open'),
    remove: button({ class: 'warn', on: { click: () => page.say(send({ do: Do.edit, target: li.item.target, field: 'need', text: '' })) } }, 'Remove'),
  };
  li.parts = p;
  li.append(h('span', { class: 'list-words' }, p.names, p.text), p.warn, h('div', { class: 'row' }, p.open, p.remove));
  return li;
}

function renewPair(li, x) {
  const p = li.parts;
  li.item = x;
  setText(p.names, x.names);
  setText(p.text, x.text);
  showText(p.warn, x.warn);
  setAttr(p.open, 'aria-label', `Open ${x.names}`);
  setAttr(p.remove, 'aria-label', `Remove the figure of ${x.names}`);
}
