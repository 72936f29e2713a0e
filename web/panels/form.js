// The form of what is picked up, of the vehicle or of the scene.

import { Do, send } from '../protocol.js';
import { button, h, keyed, picture, setAttr, setText, showText } from '../dom.js';
import { makeArrange } from './arrange.js';
import { makeEntry, makeHelp } from './entry.js';
import { makeJoined, makeNear } from './pairs.js';
import { makeTable } from './table.js';
import { makeMark, makeOpen, toField } from './unmeasured.js';
import { dated } from './tape.js';

/** Builds the form; returns its element and renewal. */
export function makeForm(page) {
  const state = { target: '', back: '', list: 'Findings' };
  const target = () => state.target;
  const title = h('h2', { class: 'form-title', tabindex: '-1' });
  const sub = h('p', { class: 'subline' });
  const caution = h('p', { class: 'caution-text' });
  const cautionBox = h('details', { class: 'caution' }, h('summary', {}, 'Caution'), caution);
  // What is typed for its place stands above the buttons that move it.
  const first = h('div', { class: 'groups' });
  const rest = h('div', { class: 'groups' });
  const warn = h('p', { class: 'caution-text form-warn', role: 'status', hidden: true });
  const backTo = h('span', { text: 'Findings' });
  const back = button({ class: 'back', on: { click: () => page.closeForm() } }, picture('back'), backTo);
  const actions = makeActions(page, state);
  const another = button({ class: 'quiet place-another', on: { click: () => page.place() } }, 'Place a part');
  let unseen = false; // it was put to its top while it could not be scrolled
  const top = () => {
    body.scrollTop = 0;
    unseen = !body.checkVisibility();
  };
  const arrange = makeArrange({ ...page, formPart: () => partOf(state.target) });
  const near = makeNear(page);
  const joined = makeJoined(page);
  const open = makeOpen(page, target);
  const body = h('div', { class: 'scroll' }, title, sub, warn, open.el, cautionBox, first, arrange.el, rest, near.el, joined.el);
  const el = h('section', { class: 'form', 'aria-label': 'Form' }, h('div', { class: 'form-top' }, back, another), body, actions);
  return {
    el,
    focus: () => title.focus({ preventScroll: true }),
    top,
    /** Where it leads back to when the form names nothing else: what is listed. */
    leadsTo(name) {
      setText(backTo, state.back || name);
      state.list = name;
    },
    seen: () => { if (unseen) top(); },
    renew(form, parts) {
      if (form.target !== state.target) {
        // Nothing typed for one part may stay for the next.
        first.replaceChildren();
        rest.replaceChildren();
        top();
        cautionBox.open = false;
      }
      state.target = form.target;
      setText(title, form.title);
      showText(sub, form.sub);
      showText(warn, form.warn);
      state.back = form.back;
      setText(backTo, form.back || state.list);
      setText(caution, form.caution);
      cautionBox.hidden = !form.caution;
      actions.hidden = !form.can_move || Boolean(form.arrange?.many && !form.arrange.ids.length);
      another.hidden = !form.can_move || Boolean(form.arrange?.many);
      arrange.renew(form.arrange, parts);
      open.renew(form);
      near.renew(form.near);
      joined.renew(form.joined);
      const groups = grouped(form.fields ?? []);
      const upTo = groups.findLastIndex((g) => g.name === PLACE) + 1;
      for (const [box, list] of [[first, groups.slice(0, upTo)], [rest, groups.slice(upTo)]]) {
        keyed(box, list, (g) => g.key, (g) => makeGroup(page, target, form.folded?.includes(g.name)), renewGroup);
      }
      const focus = form.focus ? `${form.target} ${form.focus}` : '';
      if (focus && focus !== state.focus) toField(body, form.focus);
      state.focus = focus;
    },
  };
}

/** The heading of the fields that say where a part stands. */
const PLACE = 'Position';

/** The part a form is of; empty when it is of something else. */
const partOf = (target) => (target.startsWith('part:') ? target.slice(5) : '');

function makeActions(page, state) {
  const part = () => partOf(state.target); // none: what is picked
  const act = (label, what, extra) => button({
    class: extra, on: { click: () => page.say(send({ do: what, part: part() })) },
  }, label);
  return h('div', { class: 'actions' },
    act('Duplicate', Do.duplicate), act('Other side', Do.mirror), act('Delete', Do.delete, 'warn'));
}

/** Runs of fields under one heading, in their order. */
function grouped(fields) {
  const groups = [];
  for (const f of fields) {
    const last = groups.at(-1);
    if (last && last.name === f.group) last.fields.push(f);
    else groups.push({ key: f.field, name: f.group, fields: [f] }); // by its field: a heading may be what one types
  }
  return groups;
}

function makeGroup(page, target, folded) {
  const name = folded ? h('summary', {}) : h('h3', { class: 'group-name' });
  const el = h(folded ? 'details' : 'section', { class: folded ? 'form-group fold' : 'form-group' });
  el.parts = { name, fields: h('div', { class: 'fields' }) };
  el.append(el.parts.name, el.parts.fields);
  el.makeField = (f) => {
    if (f.type === 'table') return holder(makeTable(page, target));
    if (f.type === 'action') return makeAction(page, f);
    return f.type === 'shown' ? makeShown(f) : makeField(page, f, target);
  };
  return el;
}

function renewGroup(el, group) {
  showText(el.parts.name, group.name);
  keyed(el.parts.fields, group.fields, (f) => `${f.field}:${f.type}`, el.makeField, (x, f) => x.renew(f));
}

function holder(table) {
  table.el.renew = table.renew;
  return table.el;
}

/** A value to read. */
function makeShown(first) {
  const label = h('span', { class: 'field-label' });
  const value = h('output', { class: 'shown-value' });
  const help = makeHelp(first.label);
  const el = h('div', { class: 'field field-shown' }, label, value, help.ask, help.text);
  el.renew = (f) => {
    setText(label, f.label);
    setText(value, f.value);
    help.renew(f.help, f.label);
  };
  return el;
}

/** A button that sends a command of its own. */
function makeAction(page, first) {
  const text = h('span');
  const act = button({ class: 'quiet', on: { click: () => page.say(send(dated(el.item.action))) } }, text);
  const help = makeHelp(first.label);
  const el = h('div', { class: 'field field-action' }, act, help.ask, help.text);
  el.renew = (f) => {
    el.item = f;
    setText(text, f.label);
    help.renew(f.help, f.label);
  };
  return el;
}

/** Letters from which a label takes a line of its own above its field. */
const LONG = 30;

function makeField(page, first, target) {
  const entry = makeEntry(first, (text) => send({ do: Do.edit, target: target(), field: first.field, text }));
  const help = makeHelp(first.label);
  const mark = makeMark(page, target, help);
  const label = h('label', { class: 'field-label', for: entry.input.id });
  const el = h('div', { class: `field field-${first.type}` }, h('div', { class: 'field-names' }, label, mark.word), entry.box, help.ask, help.text, mark.change, entry.error);
  if (first.type === 'number') goesOn(el, entry);
  el.renew = (f) => {
    setText(label, f.label);
    setAttr(entry.input, 'aria-describedby', f.measured === 'no' ? mark.word.id : null);
    el.classList.toggle('field-long', f.label.length > LONG);
    help.renew(f.help, f.label);
    mark.renew(f);
    entry.renew(f);
  };
  return el;
}

/**
 * Enter in a number's field goes on to the next number of its group, so that a
 * place is typed without a tap between its lengths. A refused one keeps it.
 */
function goesOn(el, entry) {
  const next = () => {
    for (let e = el.nextElementSibling; e; e = e.nextElementSibling) {
      if (e.matches('.field-number') && e.checkVisibility()) return e.querySelector('input');
    }
    return null;
  };
  entry.input.addEventListener('focus', () => setAttr(entry.input, 'enterkeyhint', next() ? 'next' : 'done'));
  entry.input.addEventListener('keydown', (e) => {
    if (e.key === 'Enter' && entry.error.hidden) next()?.focus();
  });
}
