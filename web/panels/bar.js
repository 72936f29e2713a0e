// The bar on top: what is open, undo and redo, the view, the unit, the menu.

import { Do, Views, send } from '../protocol.js';
import { button, h, picture, setAttr, setText, showText } from '../dom.js';

/**
 * Builds the bar.
 * @param {HTMLElement} bar
 * @param {{say: (reply: Object) => void, menu: HTMLElement, tools: HTMLElement[], openForm: (which: string) => void}} page
 */
export function makeBar(bar, page) {
  const title = h('span', { class: 'bar-title' });
  const note = h('span', { class: 'bar-note' });
  const head = h('h1', {}, button({
    class: 'bar-head', title: 'Name, tolerance and unit', on: { click: () => page.openForm('scene') },
  }, title, note));
  const undo = stepButton('Undo', Do.undo, page);
  const redo = stepButton('Redo', Do.redo, page);
  const views = h('div', { class: 'choice', role: 'group', 'aria-label': 'View' },
    ...Views.map((v) => button({
      'data-value': v.value, on: { click: () => page.say(send({ do: Do.view, view: v.value })) },
    }, v.label)));
  const fit = button({ class: 'bar-fit', 'aria-label': 'Show all', title: 'Show all', on: { click: () => page.say(send({ do: Do.fit })) } },
    picture('fit'), h('span', { text: 'Show all' }));
  const units = h('div', { class: 'choice', role: 'group', 'aria-label': 'Lengths in' },
    ...[['mm', 'mm', 'mm, millimetres'], ['in', 'in', 'in, inches']].map(([value, text, name]) => button({
      'data-value': value, 'aria-label': name, on: { click: () => page.say(send({ do: Do.units, text: value })) },
    }, text)));
  bar.append(head,
    h('div', { class: 'bar-steps' }, undo.el, redo.el),
    h('div', { class: 'bar-view' }, views, fit, units),
    h('div', { class: 'bar-tools' }, ...page.tools),
    page.menu);
  return (p) => {
    setText(title, p.title || 'Unnamed vehicle');
    showText(note, p.note);
    undo.renew(p.undo);
    redo.renew(p.redo);
    press(views, p.view);
    views.querySelector('[data-value="four"]').hidden = !p.see.four;
    press(units, p.units);
  };
}

/** Marks the one button of a group that holds. */
export function press(group, value) {
  for (const b of group.children) setAttr(b, 'aria-pressed', String(b.dataset.value === value));
}

function stepButton(word, what, page) {
  const text = h('span', { class: 'step-what' });
  const el = button({
    class: `step step-${what}`, on: { click: () => page.say(send({ do: what })) },
  }, picture(what), text);
  return {
    el,
    renew(done) {
      const full = done ? `${word}: ${done}` : word;
      setText(text, full);
      setAttr(el, 'aria-label', full);
      setAttr(el, 'title', full);
      // Focus would be lost from a button that is switched off under it.
      setAttr(el, 'aria-disabled', done ? null : 'true');
    },
  };
}
