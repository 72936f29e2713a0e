// Words that come and go: messages, what screen readers say, and the notices
// that stay until they are dealt with.

import { button, h, picture, setText } from '../dom.js';

const STAY = 7000; // ms: long enough to read two lines

let timer = 0;

/** Shows a message for a while. */
export function toast(text, isError = false) {
  const el = document.getElementById('toast');
  clearTimeout(timer);
  setText(el, text);
  el.classList.toggle('is-error', isError);
  el.classList.toggle('is-shown', Boolean(text));
  if (text) timer = setTimeout(() => toast(''), STAY);
}

/** Takes a message that has been read away from a drawing that is touched: where
 * the part in hand stands is written below it. What went wrong stays. */
export function makeWay() {
  const { classList } = document.getElementById('toast');
  if (classList.contains('is-shown') && !classList.contains('is-error')) toast('');
}

let liveTimer = 0;

/** Has a screen reader say text, once it has stopped changing. */
export function say(text) {
  clearTimeout(liveTimer);
  liveTimer = setTimeout(() => setText(document.getElementById('live'), text), 400);
}

/**
 * Shows a notice that stays. Its key makes it one of its kind.
 * @param {string} key
 * @param {string} text  empty takes it away
 * @param {{label: string, act: () => void}[]} [actions]
 */
export function notice(key, text, actions = []) {
  const box = document.getElementById('notices');
  const old = [...box.children].find((el) => el.dataset.key === key);
  if (!text) {
    old?.remove();
    return;
  }
  const el = h('div', { class: 'notice', role: 'status' }, h('p', { text }));
  el.dataset.key = key;
  for (const a of actions) el.append(button({ on: { click: a.act } }, a.label));
  el.append(button({ class: 'icon', 'aria-label': 'Put this notice away', on: { click: () => el.remove() } }, picture('close')));
  if (old) old.replaceWith(el);
  else box.append(el);
}
