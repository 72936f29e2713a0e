// The list of what is placed: a tap picks a part up and opens its form.

import { Do, send } from '../protocol.js';
import { button, h, keyed, picture, setAttr, setPicture, setText, showText } from '../dom.js';
import { rove } from '../rove.js';

const SEARCH_FROM = 12; // parts; below that the list is read at a glance

/** Builds the list; returns its element and renewal. */
export function makeParts(page) {
  const search = h('input', { type: 'search', class: 'input', placeholder: 'Find a part', 'aria-label': 'Find a part', enterkeyhint: 'search' });
  const list = h('ul', { class: 'plain-list', 'aria-label': 'Parts' });
  const oneStop = rove(list, '.list-row');
  const none = h('p', { class: 'hint', hidden: true });
  const checked = h('p', { class: 'hint checked-count', hidden: true });
  let parts = [];
  const several = button({ class: 'quiet several', on: { click: () => page.say(send({ do: Do.pick, on: several.on })) } });
  const show = () => {
    const words = search.value.trim().toLowerCase();
    const found = parts.filter((x) => !words || `${x.name} ${x.kind}`.toLowerCase().includes(words));
    keyed(list, found, (x) => x.id, () => makePartRow(page), renewPartRow);
    oneStop();
    showText(none, found.length ? '' : parts.length ? 'No part of that name.' : 'Nothing is placed yet.');
  };
  search.addEventListener('input', show);
  const vehicle = h('div', { class: 'own-rows' },
    wideButton('Vehicle', 'Wheelbase, axles, tyres, frame height', () => page.openForm('vehicle')),
    wideButton('Scene', 'Name, tolerance, unit', () => page.openForm('scene')));
  return {
    el: h('div', {}, vehicle, checked, several, search, list, none),
    renew(p) {
      parts = p.parts.map((x) => ({ ...x, picking: p.picking, picked: Boolean(p.picked?.includes(x.id)) }));
      showText(checked, p.see.checked.words);
      checked.classList.toggle('is-stale', p.see.checked.stale);
      several.on = !p.picking;
      several.hidden = parts.length < 2;
      setText(several, p.picking ? 'Pick no more' : 'Pick several');
      search.hidden = parts.length < SEARCH_FROM;
      show();
    },
  };
}

function wideButton(title, about, action) {
  return button({ class: 'list-row', on: { click: action } },
    h('span', { class: 'list-words' }, h('span', { class: 'list-title', text: title }), h('span', { class: 'list-about', text: about })));
}

/** A part in a list: a tap picks it up, or, while several are picked, ticks it. */
export function makePartRow(page) {
  const li = h('li');
  const p = { tick: h('span', { class: 'tick', 'aria-hidden': 'true' }), mark: picture(''), name: h('span', { class: 'list-title' }), kind: h('span', { class: 'list-about' }), check: h('span', { class: 'list-check' }) };
  li.parts = p;
  p.row = button({
    class: 'list-row', on: { click: () => page.say(send(li.item.picking ? { do: Do.pick, part: li.item.id, on: !li.item.picked } : { do: Do.select, part: li.item.id })) },
  }, p.tick, h('span', { class: 'list-words' }, p.name, p.kind, p.check), p.mark);
  li.append(p.row);
  return li;
}

export function renewPartRow(li, x) {
  const p = li.parts;
  li.item = x;
  setText(p.name, x.name || x.kind);
  showText(p.kind, [x.name === x.kind ? '' : x.kind, x.group && `in ${x.group}`, x.locked && 'locked'].filter(Boolean).join(', '));
  showText(p.check, x.checked);
  p.check.classList.toggle('is-stale', x.stale);
  setPicture(p.mark, x.mark);
  p.tick.hidden = !x.picking;
  setText(p.tick, x.picked ? '✓' : '');
  setAttr(p.row, 'role', x.picking ? 'checkbox' : null);
  setAttr(p.row, 'aria-checked', x.picking ? String(x.picked) : null);
}
