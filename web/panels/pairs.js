// Pairs of parts: those that are meant to touch, with the way to take that
// back, those that are looked at less strictly, and those that stand nearest to a part.

import { Do, send } from '../protocol.js';
import { button, h, keyed, picture, setAttr, setPicture, setText, showText } from '../dom.js';

/** A folded list of joined pairs; returns its element and renewal. */
export function makeJoined(page) {
  const summary = h('summary', {});
  const list = h('ul', { class: 'plain-list' });
  const el = h('details', { class: 'fold joined', hidden: true }, summary, list);
  return {
    el,
    renew(items) {
      el.hidden = !items?.length;
      setText(summary, `Joined (${items?.length ?? 0})`);
      keyed(list, items ?? [], (x) => `${x.a}|${x.b}`, () => makePair(page), renewPair);
    },
  };
}

function makePair(page) {
  const li = h('li', { class: 'pair' });
  const p = { names: h('span', { class: 'list-title' }), why: h('span', { class: 'list-about' }), here: h('span', { class: 'list-about' }) };
  li.parts = p;
  p.part = button({ class: 'separate', on: { click: () => page.say(send({ do: Do.join, a: li.item.a, b: li.item.b, on: false })) } }, 'Separate');
  li.append(h('span', { class: 'list-words' }, p.names, p.why, p.here), p.part);
  return li;
}

function renewPair(li, x) {
  li.item = x;
  setText(li.parts.names, x.names);
  showText(li.parts.why, x.why);
  showText(li.parts.here, x.here && `They ${x.here}.`);
  setAttr(li.parts.part, 'aria-label', `Separate ${x.names}`);
}

/** A folded list of what is looked at less strictly than the starting table would. */
export function makeLowered() {
  const summary = h('summary', {});
  const list = h('ul', { class: 'plain-list' });
  const el = h('details', { class: 'fold lowered', hidden: true }, summary, list);
  return {
    el,
    renew(items) {
      el.hidden = !items?.length;
      setText(summary, `Looked at less strictly (${items?.length ?? 0})`);
      keyed(list, items ?? [], (x) => `${x.a}|${x.b}`, makeLess, (li, x) => {
        setText(li.parts.text, x.text);
        showText(li.parts.caution, x.caution);
      });
    },
  };
}

function makeLess() {
  const li = h('li', { class: 'pair less' });
  li.parts = { text: h('p'), caution: h('p', { class: 'caution-text' }) };
  li.append(li.parts.text, li.parts.caution);
  return li;
}

/** The list of what is nearest to a part; each line shows the place. */
export function makeNear(page) {
  const list = h('ul', { class: 'plain-list near-list' });
  const el = h('section', { class: 'form-group', hidden: true }, h('h3', { class: 'group-name', text: 'Nearest here' }), list);
  return {
    el,
    renew(items) {
      el.hidden = !items?.length;
      keyed(list, items ?? [], (x) => `${x.a}|${x.b}`, () => makeNeighbour(page), (li, x) => {
        li.item = x;
        setText(li.parts.name, x.name);
        setText(li.parts.gap, x.gap);
        setPicture(li.parts.mark, x.mark);
        setText(li.parts.need, x.need);
        setAttr(li.parts.need, 'aria-label', `${x.name} ${x.need}: change it`);
      });
    },
  };
}

function makeNeighbour(page) {
  const li = h('li', { class: 'near-pair' });
  const p = { name: h('span', { class: 'list-title' }), gap: h('span', { class: 'list-about' }), mark: picture('') };
  li.parts = p;
  li.append(button({
    class: 'list-row', on: { click: () => page.say(send({ do: Do.near, a: li.item.a, b: li.item.b })) },
  }, h('span', { class: 'list-words' }, p.name, p.gap), p.mark),
  p.need = button({ class: 'quiet near-need', on: { click: () => page.openForm(`need:${li.item.a}|${li.item.b}`) } }));
  return li;
}
