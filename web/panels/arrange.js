// What can be done to the place of a part, or of several that are picked:
// nudge, turn, lock, group, line up, space evenly. And the question an edit
// leaves open when something was measured from what has moved.

import { Do, send } from '../protocol.js';
import { button, h, keyed, picture, setAttr, setText, showText } from '../dom.js';
import { rove } from '../rove.js';
import { freshId } from './entry.js';
import { makePartRow, renewPartRow } from './parts.js';

/** The two ways along each axis, as a builder calls them: [key, towards less, towards more]. */
const WAYS = [['x', 'Forward', 'Back'], ['y', 'Left', 'Right'], ['z', 'Down', 'Up']];

/** What is laid on one line along each axis. */
const LINES = [
  ['x', 'Along', [['low', 'Front ends'], ['middle', 'Middles, along'], ['high', 'Rear ends']]],
  ['y', 'Across', [['low', 'Left sides'], ['middle', 'Middles, across'], ['high', 'Right sides']]],
  ['z', 'Up and down', [['low', 'Undersides'], ['middle', 'Middles, upright'], ['high', 'Tops']]],
];

/** About which axis a part turns: [key, label, what a positive angle does]. */
const TURNS = [
  ['x', 'Roll', 'About the vehicle’s length; positive lifts the right side.'],
  ['y', 'Pitch', 'About the crosswise axis; positive lifts the front end.'],
  ['z', 'Yaw', 'About the upright axis; positive turns the rear end to the right.'],
];

/** Builds the block; returns its element and renewal. */
export function makeArrange(page) {
  const stays = h('p', { class: 'arrange-stays' });
  const nudge = makeNudge(page);
  const state = { item: null };
  const lock = button({
    class: 'arrange-lock', on: { click: () => page.say(send({ do: Do.lock, part: page.formPart(), on: !state.item.locked })) },
  });
  const room = button({ class: 'arrange-room', on: { click: () => page.say(send({ do: Do.room, on: !state.item.room })) } }, 'Where may it sit?');
  const sits = h('p', { class: 'arrange-sits', role: 'status' });
  const several = button({ on: { click: () => page.say(send({ do: Do.pick, on: true })) } }, 'Pick several');
  const one = h('div', { class: 'row arrange-row' }, room, lock, several);
  const group = makeGroupLine(page, state);
  const checks = makeChecks(page);
  const picked = makePicked(page);
  const lines = makeLines(page);
  const turn = makeTurn(page);
  const el = h('section', { class: 'form-group arrange', 'aria-label': 'Move and arrange', hidden: true },
    checks.el, picked.el, stays, nudge.el, one, sits, group.el, turn.el, lines.el);
  return {
    el,
    renew(a, parts) {
      el.hidden = !a;
      if (!a) return;
      state.item = a;
      checks.renew(a, parts ?? []);
      const ready = !a.stays && (!a.many || a.ids.length > 0);
      showText(stays, a.stays);
      nudge.el.hidden = !ready;
      turn.el.hidden = !ready;
      nudge.renew(a);
      one.hidden = a.many;
      lock.hidden = !a.can_lock;
      setAttr(room, 'aria-pressed', String(a.room));
      showText(sits, a.many ? '' : a.sits);
      setText(lock, a.locked ? 'Unlock' : 'Lock in its place');
      picked.renew(a);
      lines.renew(a);
      group.renew(a);
    },
  };
}

/** Six buttons, two for each axis, that move by the finest step. */
function makeNudge(page) {
  const title = h('h3', { class: 'group-name' });
  const make = (axis, label, steps) => button({
    class: 'nudge', 'data-way': `${axis}${steps < 0 ? '-' : '+'}`,
    on: { click: () => page.say(send({ do: Do.nudge, key: axis, mm: steps })) },
  }, label);
  const grid = h('div', { class: 'nudges' },
    ...WAYS.map(([axis, less, more]) => (axis === 'z' ? make(axis, more, 1) : make(axis, less, -1))),
    ...WAYS.map(([axis, less, more]) => (axis === 'z' ? make(axis, less, -1) : make(axis, more, 1))));
  const el = h('div', { role: 'group' }, title, grid);
  return {
    el,
    renew(a) {
      setText(title, `Nudge by ${a.step}`);
      setAttr(el, 'aria-label', `Nudge by ${a.step}`);
    },
  };
}

/** Turning about a line through the reference point: quarters, or an angle. */
function makeTurn(page) {
  const axis = h('select', { class: 'input', id: freshId(), 'aria-label': 'Turn about' },
    ...TURNS.map(([key, label]) => h('option', { value: key, text: label })));
  axis.value = 'z';
  const about = h('p', { class: 'field-help' });
  const angle = h('input', {
    type: 'text', class: 'input', inputmode: 'text', autocomplete: 'off', enterkeyhint: 'done', placeholder: 'degrees', 'aria-label': 'Angle in degrees',
  });
  const turn = (text) => {
    const reply = send({ do: Do.turn, key: axis.value, text });
    page.say(reply);
    return !reply.error;
  };
  const typed = () => {
    if (angle.value.trim() && turn(angle.value)) angle.value = '';
  };
  angle.addEventListener('keydown', (e) => { if (e.key === 'Enter') typed(); });
  const tell = () => setText(about, TURNS.find(([key]) => key === axis.value)[2]);
  axis.addEventListener('change', tell);
  tell();
  const el = h('details', { class: 'fold arrange-turn' }, h('summary', {}, 'Turn about its reference point'),
    h('div', { class: 'arrange-body' },
      h('div', { class: 'row' }, axis, button({ class: 'turn-quarter', on: { click: () => turn('-90') } }, '−90°'),
        button({ class: 'turn-quarter', on: { click: () => turn('90') } }, '+90°')),
      h('div', { class: 'row' }, angle, button({ class: 'turn-angle', on: { click: typed } }, 'Turn by this')),
      about));
  return { el };
}

/** Every part with a tick: what the parts' own list is where it is not in sight. */
function makeChecks(page) {
  const list = h('ul', { class: 'plain-list check-list', 'aria-label': 'Parts' });
  const oneStop = rove(list, '.list-row');
  return {
    el: list,
    renew(a, parts) {
      list.hidden = !a.many;
      const items = a.many ? parts.map((x) => ({ ...x, picking: true, picked: a.ids.includes(x.id) })) : [];
      keyed(list, items, (x) => x.id, () => makePartRow(page), renewPartRow);
      oneStop();
    },
  };
}

/** What is picked, in its order. */
function makePicked(page) {
  const list = h('ol', { class: 'picked-list' });
  return {
    el: list,
    renew(a) {
      list.hidden = !a.many || a.ids.length === 0;
      const items = a.ids.map((id, i) => ({ id, name: a.names[i] }));
      keyed(list, items, (x) => x.id, () => makePick(page), renewPick);
    },
  };
}

function makePick(page) {
  const li = h('li');
  const name = h('span');
  li.parts = { name, drop: button({ class: 'chip', on: { click: () => page.say(send({ do: Do.pick, part: li.item.id, on: false })) } }, name, picture('close')) };
  li.append(li.parts.drop);
  return li;
}

function renewPick(li, x) {
  li.item = x;
  setText(li.parts.name, x.name);
  setAttr(li.parts.drop, 'aria-label', `Pick ${x.name} no longer`);
  setAttr(li.parts.drop, 'title', `Pick ${x.name} no longer`);
}

/** Lining up and spacing of the picked parts. */
function makeLines(page) {
  const rows = LINES.map(([axis, name, choices]) => h('div', { class: 'arrange-lines', role: 'group', 'aria-label': `Line up: ${name}` },
    ...choices.map(([line, label]) => button({
      'data-line': `${axis}-${line}`, on: { click: () => page.say(send({ do: Do.align, key: axis, text: line })) },
    }, label))));
  const with1 = h('h3', { class: 'group-name' });
  const lined = h('div', {}, with1, ...rows);
  const spaced = h('div', {}, h('h3', { class: 'group-name', text: 'Make the gaps equal' }),
    h('div', { class: 'arrange-lines', role: 'group', 'aria-label': 'Make the gaps equal' }, ...LINES.map(([axis, name]) => button({
      'data-space': axis, on: { click: () => page.say(send({ do: Do.space, key: axis })) },
    }, name))));
  return {
    el: h('div', { class: 'arrange-many' }, lined, spaced),
    renew(a) {
      lined.hidden = !a.many || a.ids.length < 2;
      setText(with1, `Line up with ${a.names[0] ?? ''}, which stays`);
      spaced.hidden = !a.many || a.ids.length < 3;
    },
  };
}

/** The group a part is in, with the way out; or making one of what is picked. */
function makeGroupLine(page, state) {
  const words = h('p', { class: 'arrange-words' });
  const alone = h('input', { type: 'checkbox', id: freshId() });
  alone.addEventListener('change', () => page.say(send({ do: Do.alone, on: alone.checked })));
  const aloneRow = h('label', { class: 'arrange-alone', for: alone.id }, alone, 'Move it without its group');
  const apart = button({ on: { click: () => page.say(send({ do: Do.ungroup, key: state.item.group_id })) } }, 'Take the group apart');
  const name = h('input', { type: 'text', class: 'input', maxlength: 80, autocomplete: 'off', placeholder: 'Group’s name', 'aria-label': 'Name of the group' });
  const make = h('form', { class: 'row arrange-row' }, name, h('button', { type: 'submit', class: 'make-group' }, 'Group them'));
  make.addEventListener('submit', (e) => {
    e.preventDefault();
    const reply = send({ do: Do.group, text: name.value.trim() });
    page.say(reply);
    if (!reply.error) name.value = '';
  });
  return {
    el: h('div', { class: 'arrange-group' }, words, aloneRow, h('div', { class: 'row arrange-row' }, apart), make),
    renew(a) {
      const others = a.mates === 1 ? '1 other' : `${a.mates} others`;
      showText(words, a.group && (a.many ? `They are the group ${a.group}.` : `In the group ${a.group} with ${others}: they move together.`));
      aloneRow.hidden = a.many || !a.group;
      alone.checked = a.alone;
      apart.parentElement.hidden = !a.group;
      make.hidden = !a.many || Boolean(a.group) || a.ids.length < 2;
    },
  };
}

let asked = null;

/** Shows the question an edit has left open over the drawing, or takes it down. */
export function renewAsk(page, ask) {
  const text = ask?.text ?? '';
  if (!asked) {
    if (!text) return;
    asked = makeAsk(page);
    document.getElementById('app').append(asked.el);
  }
  asked.el.hidden = !text;
  if (!text) return;
  setText(asked.words, ask.text);
  setText(asked.yes, ask.yes);
  setText(asked.no, ask.no);
}

function makeAsk(page) {
  const answer = (on) => () => page.say(send({ do: Do.follow, on }));
  const words = h('p', { role: 'status' });
  const yes = button({ class: 'primary', on: { click: answer(true) } });
  const no = button({ on: { click: answer(false) } });
  return { words, yes, no, el: h('section', { id: 'ask', 'aria-label': 'Question' }, words, h('div', { class: 'row' }, yes, no)) };
}
