// How low it goes and where it stands now: the lowest lines, the named
// heights, small steps for those who do not drag.

import { Do, send } from '../protocol.js';
import { button, h, keyed, picture, setAttr, setText, showText } from '../dom.js';

/** One small step of the body, mm: what a tape can tell apart. */
const STEP = { mm: 5, in: 6.35 };

/** Builds the block; returns its element and renewal. */
export function makeHeights(page) {
  const lowest = h('ul', { class: 'lowest' });
  const named = h('div', { class: 'choice wrap', role: 'group', 'aria-label': 'Height of the body' });
  const now = h('span', { class: 'now' });
  const state = { units: 'mm', apart: false };
  const both = stepper('both', 'body', page, state);
  const front = stepper('front', 'front', page, state);
  const rear = stepper('rear', 'rear', page, state);
  const apart = h('input', { type: 'checkbox', on: { change: () => page.say(send({ do: Do.apart, on: apart.checked })) } });
  const el = h('div', { class: 'heights' }, lowest, named,
    h('div', { class: 'steps' }, both, front, rear, now),
    h('label', { class: 'check' }, apart, 'Front and rear apart'));
  return {
    el,
    renew(p) {
      keyed(lowest, p.lowest ?? [], (text) => text, () => h('li'), (li, text) => setText(li, text));
      keyed(named, p.heights ?? [], (x) => x.id, () => makeNamed(page), renewNamed);
      showText(now, p.height);
      state.units = p.units;
      state.apart = p.apart;
      apart.checked = p.apart;
      both.hidden = p.apart;
      front.hidden = rear.hidden = !p.apart;
    },
  };
}

function makeNamed(page) {
  const b = button({ on: { click: () => page.say(send({ do: Do.named, key: b.item.id })) } });
  return b;
}

function renewNamed(b, x) {
  b.item = x;
  setText(b, x.name);
  setAttr(b, 'aria-pressed', String(x.active));
}

/** Lower and raise, by one step; which is both, front or rear. */
function stepper(which, name, page, state) {
  const move = (sign) => {
    const look = JSON.parse(window.scrub?.look?.() || '{}');
    const by = sign * (STEP[state.units] ?? STEP.mm);
    page.say(send({
      do: Do.height,
      front: (look.front_mm ?? 0) + (which === 'rear' ? 0 : by),
      rear: (look.rear_mm ?? 0) + (which === 'front' ? 0 : by),
    }));
  };
  return h('div', { class: 'stepper', role: 'group', 'aria-label': `Move the ${name}` },
    button({ 'aria-label': `Lower the ${name}`, on: { click: () => move(-1) } }, picture('minus')),
    h('span', { class: 'stepper-name', text: which === 'both' ? 'Body' : which === 'front' ? 'Front' : 'Rear' }),
    button({ 'aria-label': `Raise the ${name}`, on: { click: () => move(1) } }, picture('plus')));
}
