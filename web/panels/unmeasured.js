// What is not measured yet: the word beside a field with the way to change it,
// the count, the line in a form.

import { Do, send } from '../protocol.js';
import { button, h, setAttr, setText } from '../dom.js';
import { freshId } from './entry.js';

/** "12 not measured". */
export const counted = (n) => `${n} not measured`;

/**
 * The mark of one field: word stands by its label, change opens with its help.
 * @param {() => string} target  which form it stands in now
 * @param {ReturnType<import('./entry.js').makeHelp>} help
 */
export function makeMark(page, target, help) {
  const word = h('span', { class: 'field-mark', id: freshId(), text: 'not measured', hidden: true });
  const change = button({ class: 'quiet field-measured', hidden: true });
  let field = null;
  change.addEventListener('click', () => {
    page.say(send({ do: Do.measured, target: target(), field: field.field, on: field.measured === 'no' }));
  });
  const open = () => { change.hidden = !field?.measured || help.ask.getAttribute('aria-expanded') !== 'true'; };
  help.ask.addEventListener('click', open);
  return {
    word,
    change,
    renew(f) {
      field = f;
      word.hidden = f.measured !== 'no';
      setText(change, f.measured === 'no' ? 'It is measured' : 'Mark as not measured');
      if (f.measured) help.ask.hidden = false;
      open();
    },
  };
}

/** The button with the count of all; it opens the list. */
export function makeCount(page) {
  const el = button({ class: 'quiet assumed unmeasured-count', hidden: true, on: { click: () => page.openForm('unmeasured') } });
  return {
    el,
    renew(n) {
      el.hidden = !n;
      setText(el, counted(n));
    },
  };
}

/** The line below a form's title: how many of its values are not measured. */
export function makeOpen(page, target) {
  const text = h('span', { class: 'field-mark' });
  const all = button({ class: 'quiet', on: { click: () => page.say(send({ do: Do.measured, target: target(), on: true })) } }, 'All measured');
  const list = button({ class: 'quiet', on: { click: () => page.openForm('unmeasured') } }, 'See the list');
  const el = h('div', { class: 'form-open', hidden: true }, text, all, list);
  return {
    el,
    renew(form) {
      el.hidden = !form.unmeasured;
      setText(text, `${counted(form.unmeasured)} here`);
      all.hidden = form.target === 'heights'; // they are typed one by one
      setAttr(all, 'aria-label', `All measured: ${form.title}`);
    },
  };
}

/** Takes a form to a field: unfolds what hides it, and puts the caret there. */
export function toField(groups, name) {
  const el = [...groups.querySelectorAll('.field, .table-field')].find((x) => x.dataset.key?.replace(/:[^:]*$/, '') === name);
  if (!el) return;
  const fold = el.closest('details');
  if (fold) fold.open = true;
  el.scrollIntoView({ block: 'center' });
  const into = el.querySelector('input, select') ?? el.querySelector('button');
  into?.focus({ preventScroll: true });
  into?.select?.(); // what is typed takes the place of what stands there
}
