// The way down (or up) in order: what begins at which height, how much further
// the body goes without it, and what would be if this or that were mended.
// Supposing changes nothing on the vehicle and is not kept with it.

import { Do, send } from '../protocol.js';
import { button, h, keyed, picture, setAttr, setPicture, setText, showText } from '../dom.js';
import { rove } from '../rove.js';

const WAYS = [['down', 'Down'], ['up', 'Up']];
const ENDS = [['both', 'Both ends'], ['front', 'Front alone'], ['rear', 'Rear alone']];

/** Builds the list; returns its element and renewal. */
export function makeLadder(page) {
  const goes = h('p', { class: 'way-goes', role: 'status' });
  const stops = h('p', { class: 'way-stops' });
  const meets = h('p', { class: 'way-stops' });
  const note = h('p', { class: 'way-stops' });
  const list = h('ol', { class: 'way-list' });
  const still = h('ol', { class: 'way-list' });
  const oneStop = [rove(list, '.rung-go, .rung-mend'), rove(still, '.rung-go, .rung-mend')];
  const count = h('span');
  const fold = h('details', { class: 'way-still', hidden: true }, h('summary', {}, count), still);
  const none = button({ class: 'quiet', hidden: true, on: { click: () => page.say(send({ do: Do.suppose })) } }, 'Suppose nothing mended');
  let now = { up: false, ends: 'both' };
  const ask = (up, ends) => page.say(send({ do: Do.ladder, text: up ? 'up' : 'down', key: ends }));
  const ways = choice('Which way', WAYS, (v) => ask(v === 'up', now.ends));
  const ends = choice('Which ends move', ENDS, (v) => ask(now.up, v));
  const el = h('div', { class: 'way' }, goes, stops, meets, note, list, fold, none, h('div', { class: 'way-choices' }, ways.el, ends.el));
  return {
    el,
    renew(l) {
      if (!l) return;
      now = l;
      ways.renew(l.up ? 'up' : 'down');
      ends.renew(l.ends);
      setAttr(el, 'aria-busy', String(!l.known));
      el.classList.toggle('is-old', !l.known && list.children.length > 0);
      if (!l.known) { // the last answer stays in sight, and is said to be old
        if (!list.children.length) setText(goes, 'Working out what begins where …');
        return;
      }
      setText(goes, l.then ? `${l.goes}; ${l.then}.` : `${l.goes}.`);
      showText(stops, l.rungs.some((r) => !r.still && !r.end) ? `${l.then ? 'Then' : 'First'}: ${l.stops}.` : 'Nothing falls short on the way.');
      showText(meets, l.meets);
      showText(note, l.note);
      none.hidden = !l.then;
      const same = l.rungs.filter((r) => r.still);
      keyed(list, l.rungs.filter((r) => !r.still), keyOf, () => makeRung(page), renewRung);
      keyed(still, same, keyOf, () => makeRung(page), renewRung);
      for (const renew of oneStop) renew();
      fold.hidden = same.length === 0;
      setText(count, `The same at every height: ${same.length}`);
    },
  };
}

function keyOf(r) { return `${r.cause} ${r.mark} ${r.title}`; }

/** One choice of several, as buttons. */
function choice(label, values, pick) {
  const buttons = values.map(([value, text]) => {
    const b = button({ on: { click: () => pick(value) } }, text);
    b.value = value;
    return b;
  });
  return {
    el: h('div', { class: 'choice', role: 'group', 'aria-label': label }, ...buttons),
    renew(value) { for (const b of buttons) setAttr(b, 'aria-pressed', String(b.value === value)); },
  };
}

function makeRung(page) {
  const li = h('li', { class: 'rung' });
  const p = {
    mark: picture('tight'), at: h('span', { class: 'rung-at' }), title: h('span', { class: 'rung-title' }),
    note: h('span', { class: 'finding-figures' }), further: h('span', { class: 'finding-figures' }),
  };
  p.go = button({ class: 'rung-go', on: { click: () => page.say(send({ do: Do.rung, row: li.item.row })) } },
    p.mark, h('span', { class: 'finding-words' }, p.at, p.title, p.note, p.further));
  p.mend = button({
    class: 'rung-mend',
    on: { click: () => page.say(send({ do: Do.suppose, key: li.item.cause, on: !li.item.struck })) },
  }, 'Suppose mended');
  li.parts = p;
  li.append(p.go, p.mend);
  return li;
}

function renewRung(li, r) {
  const p = li.parts;
  li.item = r;
  setPicture(p.mark, r.mark || 'flat');
  setText(p.at, r.at);
  setText(p.title, r.title);
  showText(p.note, r.note);
  showText(p.further, r.further);
  p.mend.hidden = r.end || r.still;
  setAttr(p.mend, 'aria-pressed', String(r.struck));
  setAttr(p.mend, 'aria-label', `Suppose mended: ${r.title}`);
  setAttr(p.go, 'aria-current', r.here ? 'true' : null);
  li.classList.toggle('is-struck', r.struck);
  li.classList.toggle('is-here', r.here);
}
