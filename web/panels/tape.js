// The tape: what two taps on the drawing lay, the list of what was laid, and
// ticking off what was measured at the truck.

import { Do, send } from '../protocol.js';
import { button, h, keyed, picture, setAttr, setPicture, setText, showText } from '../dom.js';
import { freshId } from './entry.js';
import { makeAside } from './aside.js';

/** Today as ISO 8601 writes it, where the user is. */
export function today() {
  const d = new Date();
  const two = (n) => String(n).padStart(2, '0');
  return `${d.getFullYear()}-${two(d.getMonth() + 1)}-${two(d.getDate())}`;
}

/** A command that notes a day gets today's. */
export function dated(command) {
  return command.do === Do.check && command.on ? { ...command, name: today() } : command;
}

/**
 * Builds the bar's button, the words over the drawing and the list.
 * @param {{say: (reply: Object, done?: string) => void}} page
 */
export function makeTape(page) {
  const top = button({ class: 'tool tool-tape', on: { click: () => page.say(send({ do: Do.tape, on: top.getAttribute('aria-pressed') !== 'true' })) } }, 'Tape');
  const list = button({ class: 'tape-list' }, 'Tapes');
  const words = h('p', { class: 'tape-words', 'aria-live': 'polite' });
  const next = button({ 'aria-label': 'Next one of what lies here', on: { click: () => page.say(send({ do: Do.tape_next })) } }, 'Next one');
  const datum = (key, label, name) => button({ 'aria-label': name, on: { click: () => page.say(send({ do: Do.tape_datum, key })) } }, label);
  const bar = h('section', { id: 'tape-bar', 'aria-label': 'Laying a tape', hidden: true }, words,
    h('div', { class: 'tape-acts' }, next, datum('ground', 'Ground', 'To the ground'), datum('frame', 'Frame', 'To the frame datum'), list,
      button({ on: { click: () => page.say(send({ do: Do.tape, on: false })) } }, 'Done')));
  document.getElementById('back-chip').before(bar);
  const sheet = makeSheet(page, list);
  list.addEventListener('click', () => sheet.aside.show(!sheet.aside.shown()));
  return {
    top,
    renew(p) {
      const { taping, tapes } = p.see;
      setAttr(top, 'aria-pressed', String(taping.on));
      bar.hidden = !taping.on;
      setText(words, taping.words);
      next.hidden = !taping.more;
      setText(list, tapes.length ? `Tapes (${tapes.length})` : 'Tapes');
      if (!taping.on && sheet.aside.shown()) sheet.aside.show(false);
      sheet.renew(p);
    },
  };
}

function makeSheet(page, opener) {
  const count = h('p', { class: 'subline' });
  const list = h('ul', { class: 'plain-list tapes' });
  const none = h('p', { class: 'subline', text: 'None yet. Tap two places in the drawing.' });
  const aside = makeAside('tapes', 'Tapes', opener, count, none, list);
  return {
    aside,
    renew(p) {
      const { tapes, checked } = p.see;
      showText(count, checked.words);
      count.classList.toggle('is-stale', checked.stale);
      none.hidden = tapes.length > 0;
      keyed(list, tapes, (x) => x.id, (x) => makeRow(page, x.id, p.units), renewRow);
      for (const li of list.children) li.parts.units(p.units);
    },
  };
}

function makeRow(page, id) {
  const li = h('li', { class: 'tape' });
  const name = h('input', { type: 'text', class: 'input', maxlength: 200, 'aria-label': 'Name of the tape', enterkeyhint: 'done' });
  name.addEventListener('change', () => {
    const reply = send({ do: Do.tape_name, key: id, text: name.value });
    page.say(reply);
    if (reply.error) name.value = li.item.name;
  });
  const p = {
    name,
    length: h('p', { class: 'tape-length' }),
    ends: h('p', { class: 'list-about' }),
    lost: h('p', { class: 'tape-stale' }),
    check: checkLine('tape-check'),
    stale: checkLine('tape-stale'),
  };
  setPicture(p.check.mark, 'tick');
  setPicture(p.stale.mark, 'tight');
  li.parts = p;
  p.see = button({ on: { click: () => page.say(send({ do: Do.tape_show, key: id })) } }, 'Show it');
  p.back = button({ on: { click: () => page.say(send({ do: Do.check, key: id, on: false })) } }, 'Take the check back');
  const tick = makeTick(page, id);
  p.tick = tick.ask;
  p.units = tick.units;
  li.append(name, p.length, p.ends, p.lost, p.check.el, p.stale.el,
    h('div', { class: 'row' }, p.see, tick.ask, p.back,
      button({ class: 'warn', on: { click: () => page.say(send({ do: Do.tape_delete, key: id })) } }, 'Delete')),
    tick.form);
  return li;
}

function checkLine(cls) {
  const mark = picture('');
  const text = h('span');
  return { el: h('p', { class: cls, hidden: true }, mark, text), mark, text };
}

/**
 * "Tick off": asks what the tape reads, and notes it with the day, as soon as
 * the field is left too: a number keypad has no other key to end with.
 */
function makeTick(page, id) {
  const unit = h('span', { class: 'unit' });
  const read = h('input', { type: 'text', class: 'input', id: freshId(), autocomplete: 'off', enterkeyhint: 'done' });
  const form = h('form', { class: 'tick-form', hidden: true },
    h('label', { for: read.id, text: 'What does the tape read?' }),
    h('div', { class: 'row' }, h('span', { class: 'entry-box' }, read, unit), h('button', { type: 'submit', class: 'primary' }, 'Note it')));
  const ask = button({
    'aria-expanded': 'false', on: { click: () => show(form.hidden) },
  }, 'Tick off');
  const show = (on) => {
    form.hidden = !on;
    setAttr(ask, 'aria-expanded', String(on));
    if (on) read.focus();
  };
  const note = () => {
    const reply = send({ do: Do.check, key: id, on: true, text: read.value, name: today() });
    page.say(reply, 'Noted with today’s date.');
    if (reply.error) return false;
    read.value = '';
    show(false);
    return true;
  };
  form.addEventListener('submit', (e) => {
    e.preventDefault();
    if (!form.hidden && note()) ask.focus(); // hidden: leaving the field has noted it already
  });
  read.addEventListener('blur', (e) => {
    if (read.value.trim() && !ownRow(e.relatedTarget)) note();
  });
  read.addEventListener('keydown', (e) => {
    if (e.key !== 'Escape' || !read.value) return;
    e.stopPropagation();
    read.value = '';
  });
  // What is tapped beside it in its own row says by itself what is meant.
  const ownRow = (el) => Boolean(el && form.parentElement?.contains(el));
  const units = (value) => {
    setText(unit, value);
    // Fractions of an inch need a slash and a space, which a number keypad lacks.
    setAttr(read, 'inputmode', value === 'in' ? 'text' : 'decimal');
  };
  return { ask, form, units };
}

function renewRow(li, x) {
  const p = li.parts;
  li.item = x;
  if (document.activeElement !== p.name) p.name.value = x.name;
  showText(p.length, x.lost ? '' : x.along ? `${x.length}: ${x.along}` : x.length);
  setText(p.ends, x.ends);
  showText(p.lost, x.lost);
  setText(p.check.text, x.check);
  p.check.el.hidden = !x.check;
  setText(p.stale.text, x.stale);
  p.stale.el.hidden = !x.stale;
  p.back.hidden = !x.check;
  setAttr(p.see, 'aria-pressed', String(x.selected));
  li.classList.toggle('is-selected', x.selected);
}
