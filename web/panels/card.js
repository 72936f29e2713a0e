// A sheet of its own over the page: a title, what it says, a way to close it.
// It takes the focus and gives it back; Escape closes it.

import { button, h, picture, showText } from '../dom.js';

let count = 0;

/**
 * Shows a sheet until it is closed.
 * @param {string} title
 * @param {...(Node|string|null|false)} content
 * @returns {{el: HTMLElement, body: HTMLElement, close: () => void}}
 */
export function openCard(title, ...content) {
  count += 1;
  const id = `card-${count}`;
  const from = document.activeElement;
  // It may scroll, and the keys must be able to.
  const body = h('div', { class: 'card-body', tabindex: '0', role: 'group', 'aria-labelledby': id }, ...content);
  const el = h('dialog', { class: 'card', 'aria-labelledby': id },
    h('div', { class: 'card-head' }, h('h2', { id, class: 'card-title', text: title }),
      button({ class: 'icon card-close', 'aria-label': 'Close', on: { click: () => el.close() } }, picture('close'))),
    body);
  el.addEventListener('close', () => {
    el.remove();
    if (from?.isConnected && from.checkVisibility()) from.focus({ preventScroll: true });
    else document.querySelector('.menu-top')?.focus({ preventScroll: true });
  });
  // A tap beside it closes it.
  el.addEventListener('pointerdown', (e) => { if (e.target === el) el.close(); });
  document.getElementById('app').append(el);
  el.showModal();
  return { el, body, close: () => el.close() };
}

/**
 * A line in a sheet that says what came of a command: messages of the page lie
 * below an open sheet.
 */
export function makeSay() {
  const el = h('p', { class: 'card-say', role: 'status', hidden: true });
  const say = (reply, done) => {
    showText(el, reply.error ?? done);
    el.classList.toggle('is-error', Boolean(reply.error));
  };
  return {
    el,
    say,
    renew: (p) => { if (p.message) say({}, p.message); },
  };
}
