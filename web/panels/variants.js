// The scene's alternatives: which of them is shown, and the sheet "Variants"
// that makes, names and deletes them and sets them side by side.

import { Do, send } from '../protocol.js';
import { button, h, keyed, picture, setAttr, setPicture, setText, showText } from '../dom.js';
import { makeSay, openCard } from './card.js';
import { makeEntry } from './entry.js';

/** The choice of what is shown, where there is one; returns its element and renewal. */
export function makeShown(page) {
  const entry = makeEntry({ type: 'choice' }, (key) => {
    const reply = send({ do: Do.variant, key });
    page.say(reply);
    return reply;
  });
  const el = h('div', { class: 'shown-variant', hidden: true },
    entry.box,
    button({ class: 'quiet', on: { click: () => page.openVariants() } }, 'Compare'));
  entry.input.classList.add('shown-choice');
  setAttr(entry.input, 'aria-label', 'What is shown');
  return {
    el,
    renew(p) {
      el.hidden = !p.variants?.length;
      entry.renew({ value: p.shown ?? '', choices: (p.variants ?? []).map((v) => ({ value: v.id, label: v.name })) });
    },
  };
}

let open = null; // the sheet that is open

/** Opens the sheet. */
export function openVariants(outer) {
  if (open) return;
  const line = makeSay();
  const page = { ...outer, say: line.say };
  const state = { panels: page.panels() };
  const list = h('ul', { class: 'plain-list variant-list' });
  const none = h('p', { text: 'Keep alternatives side by side: the battery here or there, this tyre or that. A variant holds what differs from the scene as drawn; all else follows it.' });
  const differs = h('div', { class: 'differs' });
  const progress = h('p', { class: 'card-note compare-progress', role: 'status' });
  const table = h('div', { class: 'compare-table' });
  const card = openCard('Variants', line.el, none, list, makeNew(page), progress, differs, table);
  card.el.classList.add('card-wide', 'variants-card');
  const renew = (p) => {
    state.panels = p;
    line.renew(p);
    none.hidden = p.variants.length > 0;
    keyed(list, p.variants, (v) => v.id || '*', () => makeVariant(page), renewVariant);
    renewComparison(p, { progress, differs, table });
  };
  card.el.addEventListener('close', () => {
    open = null;
    send({ do: Do.compare, on: false });
  });
  open = { renew };
  send({ do: Do.compare, on: true });
  renew(state.panels);
}

/** Hands the open sheet what the sketcher says. */
export function renewVariants(p) {
  open?.renew(p);
}

/** The line that makes a new variant of what is shown. */
function makeNew(page) {
  const name = h('input', { type: 'text', class: 'input', placeholder: 'Name, such as: rear bay', maxlength: 80, autocomplete: 'off', 'aria-label': 'Name of the new variant', enterkeyhint: 'done' });
  const form = h('form', { class: 'new-variant' }, name,
    h('button', { type: 'submit', class: 'primary' }, 'New variant of what is shown'));
  form.addEventListener('submit', (e) => {
    e.preventDefault();
    const reply = send({ do: Do.variant_new, text: name.value });
    page.say(reply);
    if (!reply.error) name.value = '';
  });
  return form;
}

function makeVariant(page) {
  const li = h('li', { class: 'variant' });
  const key = () => li.item.id;
  const p = { name: h('span', { class: 'list-title' }), note: h('span', { class: 'list-about' }) };
  const act = (label, command, extra) => button({ class: extra, on: { click: () => page.say(send({ key: key(), ...command })) } }, label);
  p.show = button({ class: 'variant-show', on: { click: () => page.say(send({ do: Do.variant, key: key() })) } });
  p.entry = makeEntry({ type: 'text' }, (text) => send({ do: Do.variant_set, key: key(), field: 'name', text }));
  p.about = makeEntry({ type: 'text' }, (text) => send({ do: Do.variant_set, key: key(), field: 'note', text }));
  p.more = h('details', { class: 'variant-more' }, p.summary = h('summary', {}, 'Change'),
    h('label', { for: p.entry.input.id, text: 'Name' }), p.entry.box, p.entry.error,
    h('label', { for: p.about.input.id, text: 'Note' }), p.about.box, p.about.error,
    h('div', { class: 'row' },
      act('Make this the one drawn', { do: Do.variant_take }),
      act('Delete', { do: Do.variant_drop }, 'warn')));
  li.parts = p;
  li.append(h('div', { class: 'variant-head' }, h('span', { class: 'list-words' }, p.name, p.note), p.show), p.more);
  return li;
}

function renewVariant(li, v) {
  const p = li.parts;
  li.item = v;
  setText(p.name, v.name);
  showText(p.note, v.id ? v.note : 'What every variant follows where it says nothing else.');
  setText(p.show, v.shown ? 'Shown' : 'Show');
  setAttr(p.show, 'aria-pressed', String(v.shown));
  setAttr(p.show, 'aria-label', v.shown ? `${v.name} is shown` : `Show ${v.name}`);
  setAttr(p.summary, 'aria-label', `Change ${v.name}`);
  p.more.hidden = !v.id;
  p.entry.renew({ value: v.name });
  p.about.renew({ value: v.note });
}

function renewComparison(p, el) {
  const c = p.variants.length ? p.compare : null;
  showText(el.progress, c?.progress ? `${c.progress} …` : '');
  const complete = c && !c.progress;
  el.differs.hidden = el.table.hidden = !complete;
  if (!complete) return;
  const json = JSON.stringify(c);
  if (el.json === json) return;
  el.json = json;
  el.differs.replaceChildren(...c.differs.map((d) => h('section', {},
    h('h3', { class: 'card-sub', text: `${d.name} differs in` }),
    d.lines.length ? h('ul', { class: 'differs-list' }, ...d.lines.map((text) => h('li', { text }))) : h('p', { text: 'Nothing: it is as drawn.' }))));
  el.table.classList.toggle('is-narrow', c.heads.length > 4);
  el.table.replaceChildren(...groups(c.rows).map(([name, rows]) => makeTable(name, c.heads, rows)));
}

/** Rows by heading, in their order. */
function groups(rows) {
  const map = new Map();
  for (const r of rows) {
    if (!map.has(r.group)) map.set(r.group, []);
    map.get(r.group).push(r);
  }
  return [...map];
}

/** One group as a table; on a narrow screen each row becomes a block, so the roles are said. */
function makeTable(name, heads, rows) {
  const head = h('tr', { role: 'row' }, h('th', { role: 'columnheader', scope: 'col' }, h('span', { class: 'unseen', text: 'What' })),
    ...heads.map((text) => h('th', { role: 'columnheader', scope: 'col', text })));
  return h('table', { role: 'table', class: 'compare' },
    h('caption', { class: 'card-sub', text: name }),
    h('thead', { role: 'rowgroup' }, head),
    h('tbody', { role: 'rowgroup' }, ...rows.map((r) => h('tr', { role: 'row', class: r.differs ? 'differs' : '' },
      h('th', { role: 'rowheader', scope: 'row', text: r.label }),
      ...r.cells.map((text, i) => makeCell(heads[i], text, r.marks?.[i]))))));
}

function makeCell(head, text, mark) {
  const cell = h('td', { role: 'cell' }, h('span', { class: 'cell-head', text: head }));
  const pic = picture('');
  if (mark) setPicture(pic, mark);
  cell.append(h('span', { class: 'cell-text' }, mark ? pic : null, h('span', { text })));
  return cell;
}
