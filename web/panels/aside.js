// A sheet in the place of the panel that leaves the drawing in sight: a title,
// a way to close it, and what it holds.

import { button, h, picture, setAttr } from '../dom.js';

let open = null; // one at a time

/**
 * Makes a sheet that is closed at first.
 * @param {string} id
 * @param {string} title
 * @param {HTMLElement} opener  the button that opens it and gets the focus back
 * @param {...Node} content
 * @returns {{el: HTMLElement, show: (on: boolean) => void, shown: () => boolean}}
 */
export function makeAside(id, title, opener, ...content) {
  const head = h('h2', { class: 'aside-title', tabindex: '-1', text: title });
  const close = button({ class: 'icon', 'aria-label': 'Close', on: { click: () => aside.show(false) } }, picture('close'));
  const el = h('section', { class: 'aside', id, 'aria-label': title, hidden: true },
    h('div', { class: 'aside-head' }, head, close),
    h('div', { class: 'aside-body' }, ...content));
  el.addEventListener('keydown', (e) => { if (e.key === 'Escape') aside.show(false); });
  setAttr(opener, 'aria-controls', id);
  setAttr(opener, 'aria-expanded', 'false');
  const aside = {
    el,
    shown: () => !el.hidden,
    show(on) {
      if (on === !el.hidden) return;
      if (on) open?.show(false);
      open = on ? aside : null;
      const within = el.contains(document.activeElement);
      el.hidden = !on;
      document.getElementById('panel').inert = on;
      setAttr(opener, 'aria-expanded', String(on));
      if (on) head.focus({ preventScroll: true });
      else if (within) opener.focus({ preventScroll: true });
    },
  };
  document.getElementById('panel').after(el);
  return aside;
}
