// How low it goes and where it stands now: the lowest lines, the named
// heights, small steps for those who do not drag.

import { Do, send } from '../protocol.js';
import { button, h, keyed, picture, setAttr, setText, showText } from '../dom.js';

/** One small step of one end, mm: 5 mm or a quarter inch. */
const STEP = { mm: 5, in: 6.35 };

/** Builds the block; returns its element and renewal. */
export function makeHeights(page) {
  const now = h('span', { class: 'now' });
  const here = h('span', { class: 'here' });
  const rest = h('ul', { class: 'lowest' });
  const low = h('details', { class: 'lowest-box' }, h('summary', {}, h('span', { class: 'lowest-words' }, h('span', { class: 'lowest-name', text: 'Ground clearance' }), here)), rest);
  const tall = matchMedia('(min-height: 56.25em)'); // room for all of it
  low.open = tall.matches;
  tall.addEventListener('change', () => { low.open = tall.matches; });
  const named = h('div', { class: 'choice wrap', role: 'group', 'aria-label': 'Height of the body' });
  const state = { units: 'mm' };
  const both = stepper('Body', moveBody);
  both.classList.add('no-name');
  const front = stepper('Front', (sign) => page.say(moveEnd('front', sign, state.units)));
  const rear = stepper('Rear', (sign) => page.say(moveEnd('rear', sign, state.units)));
  const apart = button({
    class: 'apart', on: { click: () => page.say(send({ do: Do.apart, on: apart.getAttribute('aria-pressed') !== 'true' })) },
  }, 'Front and rear apart');
  const change = button({ class: 'quiet change-heights', on: { click: () => page.openForm('heights') } }, 'Heights');
  const short = h('div', { class: 'choice wrap', role: 'group', 'aria-label': 'Height of the body' });
  const el = h('div', { class: 'heights' }, low,
    h('div', { class: 'height-row' }, named, apart),
    h('div', { class: 'height-row' }, both, now, front, rear, change));
  return {
    el,
    /** The named heights once more, for a phone whose sheet is low. */
    short: h('div', { class: 'grip-heights' }, short),
    renew(p) {
      const [first, ...others] = p.lowest ?? [];
      showText(now, p.apart ? '' : p.height);
      setText(here, first ?? p.height);
      keyed(rest, others.map((text, i) => ({ i, text })), (x) => String(x.i), () => h('li'), (li, x) => setText(li, x.text));
      for (const group of [named, short]) keyed(group, p.heights ?? [], (x) => x.id, () => makeNamed(page), renewNamed);
      state.units = p.units;
      setAttr(apart, 'aria-pressed', String(p.apart));
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

/** Moves the body along its travel, both ends as the named heights do. */
function moveBody(sign) {
  window.scrub?.key(sign < 0 ? 'PageDown' : 'PageUp', false, false);
  window.scrubPage.wake(150);
}

/** Moves one end and leaves the other where it is. */
function moveEnd(end, sign, units) {
  const look = JSON.parse(window.scrub?.look() || '{}');
  const by = sign * (STEP[units] ?? STEP.mm);
  return send({
    do: Do.height,
    front: (look.front_mm ?? 0) + (end === 'front' ? by : 0),
    rear: (look.rear_mm ?? 0) + (end === 'rear' ? by : 0),
  });
}

/** Lower and raise, by one step, with the name between them. */
function stepper(name, move) {
  const what = name.toLowerCase();
  return h('div', { class: 'stepper', role: 'group', 'aria-label': `Move the ${what}` },
    button({ 'aria-label': `Lower the ${what}`, on: { click: () => move(-1) } }, picture('down')),
    h('span', { class: 'step-name', text: name }),
    button({ 'aria-label': `Raise the ${what}`, on: { click: () => move(1) } }, picture('up')));
}
