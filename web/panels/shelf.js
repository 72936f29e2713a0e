// The sheet "Shelf": what the parts weigh and cost against the budget, how far
// each has come, what is still to be ordered, and the user's own parts that are
// not placed yet.

import { Do, send } from '../protocol.js';
import { button, h, keyed, picture, setAttr, setPicture, setText, showText } from '../dom.js';
import { makeSay, openCard } from './card.js';
import { makeEntry, makeHelp } from './entry.js';

let open = null; // the sheet that is open
let ready = []; // standard things, sent once

/** Opens the sheet. */
export function openShelf(outer) {
  if (open) return;
  const line = makeSay();
  const page = { ...outer, say: line.say, sayOut: outer.say };
  const totals = h('dl', { class: 'totals' });
  const money = h('div', { class: 'money' });
  const order = makeOrder(line.say);
  const own = h('ul', { class: 'plain-list shelf-list' });
  const none = h('p', { class: 'card-note', text: 'Parts you have in mind or on hand and have not placed yet.' });
  const placed = h('ul', { class: 'plain-list shelf-list' });
  const count = h('summary', { text: 'Placed parts' }); // until their number is known
  const card = openCard('Shelf',
    line.el, totals, money, order.el,
    h('h3', { class: 'card-sub', text: 'On the shelf' }), none, own, makeAdd(page, () => card.close()),
    h('details', { class: 'fold placed-parts' }, count, placed));
  card.el.classList.add('card-wide', 'shelf-card');
  const leave = (act) => {
    card.close();
    act();
  };
  const renew = (p) => {
    const s = p.shelf;
    if (!s) return;
    line.renew(p);
    keyed(totals, s.totals, (t) => t.label, makeTotal, renewTotal);
    keyed(money, s.fields, (f) => f.field, makeMoney, (el, f) => el.renew(f));
    order.renew(s);
    none.hidden = s.own.length > 0;
    keyed(own, s.own, (x) => x.id, () => makeItem(page, true, leave), renewItem);
    setText(count, `Placed parts (${s.placed.length})`);
    keyed(placed, s.placed, (x) => x.id, () => makeItem(page, false, leave), renewItem);
  };
  card.el.addEventListener('close', () => {
    open = null;
    send({ do: Do.shelf, on: false });
  });
  open = { renew };
  send({ do: Do.shelf, on: true });
}

/** Hands the open sheet what the sketcher says. */
export function renewShelf(p) {
  open?.renew(p);
}

/** Keeps the standard things, which are sent once. */
export function keepReady(p) {
  if (p.ready?.length) ready = p.ready;
}

function makeTotal() {
  const el = h('div', { class: 'total' });
  el.parts = { label: h('dt'), mark: picture(''), text: h('span') };
  el.append(el.parts.label, h('dd', {}, el.parts.mark, el.parts.text));
  return el;
}

function renewTotal(el, t) {
  setText(el.parts.label, t.label);
  setPicture(el.parts.mark, t.mark);
  setText(el.parts.text, t.text);
}

function makeMoney(first) {
  const entry = makeEntry(first, (text) => send({ do: Do.edit, target: 'scene', field: first.field, text }));
  const help = makeHelp(first.label);
  if (first.field === 'budget') entry.input.setAttribute('inputmode', 'decimal');
  const el = h('div', { class: `field field-${first.type}` },
    h('label', { class: 'field-label', for: entry.input.id, text: first.label }), entry.box, help.ask, help.text, entry.error);
  el.renew = (f) => {
    help.renew(f.help, f.label);
    entry.renew(f);
  };
  return el;
}

/** What is still to be ordered, with the sum, to be copied as text. */
function makeOrder(say) {
  const list = h('ul', { class: 'order-list' });
  const state = { text: '' };
  const copy = button({ class: 'copy-order', on: { click: () => copyText(state.text, say) } }, 'Copy the list');
  const el = h('details', { class: 'fold order' }, h('summary', {}, 'Still to order'), list, copy);
  return {
    el,
    renew(s) {
      el.hidden = !s.order_text;
      state.text = s.order_text;
      keyed(list, s.order, (line) => line, () => h('li'), (li, line) => setText(li, line));
    },
  };
}

/** Copies text; where the browser keeps its clipboard shut, a copy is made by hand. */
async function copyText(text, say) {
  try {
    await navigator.clipboard.writeText(text);
    say({}, 'Copied.');
  } catch {
    const area = h('textarea', { class: 'input copy-by-hand', readonly: true, 'aria-label': 'The list, to be copied', rows: 6 });
    area.value = text;
    document.querySelector('.copy-by-hand')?.remove();
    document.querySelector('.copy-order').after(area);
    area.select();
    say({}, 'This browser does not let a page copy here: copy the marked text.');
  }
}

/** Picks a kind, or a standard thing, and puts it on the shelf. */
function makeAdd(page, close) {
  const kinds = page.panels().kinds ?? [];
  const choice = h('select', { class: 'input', 'aria-label': 'What to put on the shelf' },
    h('option', { value: '', text: 'Choose a kind' }),
    ...groupsOf(kinds).map(([label, list]) => h('optgroup', { label }, ...list.map((k) => h('option', { value: JSON.stringify([k.name, '']), text: k.label })))),
    h('optgroup', { label: 'Standard battery cases' }, ...ready.map((r) => h('option', { value: JSON.stringify([r.kind, r.text]), text: r.label }))));
  const form = h('form', { class: 'shelf-add' }, choice, h('button', { type: 'submit', class: 'primary' }, 'Put it on the shelf'));
  form.addEventListener('submit', (e) => {
    e.preventDefault();
    if (!choice.value) {
      choice.focus();
      return;
    }
    const [kind, text] = JSON.parse(choice.value);
    const reply = send({ do: Do.shelf_add, kind, text });
    page.say(reply);
    if (reply.error) return;
    close();
    page.raiseForm();
  });
  return form;
}

function groupsOf(kinds) {
  const map = new Map();
  for (const k of kinds) {
    if (!map.has(k.group)) map.set(k.group, []);
    map.get(k.group).push(k);
  }
  return [...map];
}

function makeItem(page, own, leave) {
  const li = h('li', { class: 'shelf-item' });
  const p = { name: h('span', { class: 'list-title' }), about: h('span', { class: 'list-about' }) };
  p.open = button({
    class: 'list-row',
    on: {
      click: () => leave(() => {
        if (own) page.sayOut(send({ do: Do.form, text: li.item.target }));
        else page.sayOut(send({ do: Do.select, part: li.item.id }));
        page.raiseForm();
      }),
    },
  }, h('span', { class: 'list-words' }, p.name, p.about));
  p.state = makeEntry({ type: 'choice' }, (text) => send({ do: Do.edit, target: li.item.target, field: 'state', text }));
  if (own) {
    p.place = button({
      class: 'shelf-place',
      on: { click: () => leave(() => page.sayOut(send({ do: Do.shelf_place, key: li.item.id }))) },
    }, 'Place');
  }
  li.parts = p;
  li.append(p.open, h('span', { class: 'shelf-state' }, p.state.box, p.state.error), ...(own ? [p.place] : []));
  return li;
}

function renewItem(li, x) {
  const p = li.parts;
  li.item = x;
  setText(p.name, x.name);
  showText(p.about, x.about);
  p.state.renew(x.state);
  setAttr(p.state.input, 'aria-label', `State of ${x.name}`);
  if (p.place) setAttr(p.place, 'aria-label', `Place ${x.name}`);
}
