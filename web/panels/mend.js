// How the parts of an open finding can be moved so that all their needs are kept:
// a button for each way, the smallest first.

import { Do, send } from '../protocol.js';
import { button, h, keyed, setAttr, setText, showText } from '../dom.js';
import { notice } from './toast.js';

const AXES = [['x', 'Along'], ['y', 'Sideways'], ['z', 'Up and down']];
const FIRST = 3; // ways shown at once

/** Builds the block; returns its element and renewal. */
export function makeMend(page) {
  const busy = h('p', { class: 'mend-busy', role: 'status', text: 'Looking for the smallest move …' });
  const says = h('ul', { class: 'mend-says' });
  const first = h('ul', { class: 'mend-ways' });
  const rest = h('ul', { class: 'mend-ways' });
  const count = h('span');
  const more = h('details', { class: 'mend-more' }, h('summary', {}, count), rest);
  const note = h('p', { class: 'mend-keeps' });
  const axes = AXES.map(([key, label]) => {
    const b = button({ class: 'chip', on: { click: () => page.say(send({ do: Do.mend, key, on: b.getAttribute('aria-pressed') !== 'true' })) } }, label);
    return b;
  });
  const el = h('section', { class: 'mend', 'aria-label': 'Ways to mend it', hidden: true },
    h('h3', { class: 'mend-title', text: 'To mend it' }), busy, first, more, says, note,
    h('div', { class: 'row mend-axes', role: 'group', 'aria-label': 'Look for moves' }, h('span', { class: 'mend-axes-name', 'aria-hidden': 'true', text: 'Look for moves' }), ...axes));
  return {
    el,
    renew(m) {
      el.hidden = !m;
      if (!m) return;
      setAttr(el, 'aria-busy', String(m.busy));
      busy.hidden = !m.busy;
      keyed(says, m.says.map((text) => ({ text })), (s) => s.text, () => h('li'), (li, s) => setText(li, s.text));
      const ways = m.ways.map((w) => ({ ...w, shown: m.shown === w.row }));
      keyed(first, ways.slice(0, FIRST), keyOf, () => makeWay(page), renewWay);
      keyed(rest, ways.slice(FIRST), keyOf, () => makeWay(page), renewWay);
      more.hidden = m.ways.length <= FIRST;
      setText(count, `More ways: ${m.ways.length - FIRST}`);
      showText(note, m.note);
      axes.forEach((b, i) => setAttr(b, 'aria-pressed', String(m.axes[i])));
    },
  };
}

function keyOf(w) { return `${w.row} ${w.text}`; }

function makeWay(page) {
  const li = h('li', { class: 'mend-way' });
  const p = { text: h('span', { class: 'mend-text' }), keeps: h('span', { class: 'mend-keeps' }), follows: h('p', { class: 'mend-keeps' }) };
  p.take = button({ class: 'mend-take', on: { click: () => take(page, li.item) } }, p.text, p.keeps);
  p.show = button({
    class: 'mend-show', on: { click: () => page.say(send({ do: Do.mend_show, row: li.item.row, on: p.show.getAttribute('aria-pressed') !== 'true' })) },
  }, 'Show');
  li.parts = p;
  li.append(h('div', { class: 'mend-line' }, p.take, p.show), p.follows);
  return li;
}

function renewWay(li, w) {
  const p = li.parts;
  li.item = w;
  setText(p.text, w.text);
  showText(p.keeps, w.keeps);
  showText(p.follows, w.follows);
  setAttr(p.show, 'aria-label', `Show where: ${w.text}`);
  setAttr(p.show, 'aria-pressed', String(w.shown));
}

let offered = false; // to take the last step back

/** Says that the vehicle has changed: what is offered was for the step before. */
export function edited() {
  if (offered) notice('mend', '');
  offered = false;
}

/** Takes a way, and offers to take it back. */
function take(page, w) {
  const reply = send({ do: Do.mend_take, row: w.row });
  if (reply.error) {
    page.say(reply);
    return;
  }
  offered = true;
  notice('mend', `${w.text}: done.${w.follows ? ` ${w.follows}.` : ''}`, [
    { label: 'Undo', act: () => page.say(send({ do: Do.undo })) },
    { label: 'Good', act: () => notice('mend', '') },
  ]);
}
