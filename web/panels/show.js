// What is drawn and how: which sorts of parts, from where the outline is looked
// at, light, dark or for the sun.

import { Do, send } from '../protocol.js';
import { button, h, keyed, setAttr, setText, showText } from '../dom.js';
import * as theme from '../theme.js';
import { freshId } from './entry.js';
import { press } from './bar.js';
import { makeAside } from './aside.js';

/** Where this browser keeps what is hidden: a way of looking goes into no file. */
const KEY = 'scrubline.hidden';

const FROM = [
  ['front_left', 'Front left'], ['front_right', 'Front right'], ['rear_left', 'Rear left'],
  ['rear_right', 'Rear right'], ['above', 'Above'], ['below', 'Below'],
];

/**
 * Builds the bar's button and its sheet.
 * @param {{say: (reply: Object) => void}} page
 */
export function makeShow(page) {
  const top = button({ class: 'tool tool-show', on: { click: () => aside.show(!aside.shown()) } }, 'Show');
  const list = h('ul', { class: 'plain-list show-list' });
  const all = button({ on: { click: () => page.say(send({ do: Do.show })) } }, 'Show everything');
  const from = h('div', { class: 'choice-grid', role: 'group', 'aria-label': 'Outline, looked at from' },
    ...FROM.map(([key, label]) => button({ on: { click: () => page.say(send({ do: Do.look_from, text: key })) } }, label)));
  const aside = makeAside('show', 'Show', top,
    h('h3', { class: 'group-name', text: 'In the drawing' }),
    h('p', { class: 'subline', text: 'What is hidden is still checked, and its findings stay in the list.' }),
    list, h('div', { class: 'row' }, all),
    h('h3', { class: 'group-name', text: 'Outline, looked at from' }), from,
    h('h3', { class: 'group-name', text: 'Screen' }), themes());
  const words = h('span');
  const note = h('p', { class: 'hidden-note', hidden: true }, words, button({ class: 'quiet', on: { click: () => page.say(send({ do: Do.show })) } }, 'Show everything'));
  document.querySelector('.col-a .tabs').before(note);
  return {
    top,
    renew(p) {
      keyed(list, p.see.show, (x) => x.id, (x) => makeRow(page, x.id), renewRow);
      setAttr(all, 'aria-disabled', p.see.hidden ? null : 'true');
      setText(words, p.see.hidden);
      note.hidden = !p.see.hidden;
      remember(p);
    },
    /** Hides again what was hidden of this scene when the page was left; to be called once it is open. */
    recall(title) {
      for (const key of recalled(title)) send({ do: Do.show, key, on: false });
    },
  };
}

let kept = null; // what is in the browser's store, once that is known

function recalled(title) {
  try {
    const was = JSON.parse(localStorage.getItem(KEY));
    return was?.title === title ? was.hidden : [];
  } catch {
    return [];
  }
}

/** Keeps what is hidden, with the name of the scene it is hidden in. */
function remember(p) {
  if (!p.see.show.length) return; // nothing is known of a scene that is still to be checked
  const hidden = p.see.show.filter((x) => !x.shown).map((x) => x.id);
  const text = hidden.length ? JSON.stringify({ title: p.title, hidden }) : '';
  if (text === kept) return;
  kept = text;
  try {
    if (text) localStorage.setItem(KEY, text);
    else localStorage.removeItem(KEY);
  } catch {
    // It holds until the page is left.
  }
}

function makeRow(page, id) {
  const box = h('input', { type: 'checkbox', id: freshId() });
  box.addEventListener('change', () => page.say(send({ do: Do.show, key: id, on: box.checked })));
  const name = h('span', { class: 'list-title' });
  const about = h('span', { class: 'list-about' });
  const li = h('li', {}, h('label', { class: 'show-row', for: box.id }, box, h('span', { class: 'list-words' }, name, about)));
  li.parts = { box, name, about };
  return li;
}

function renewRow(li, x) {
  const { box, name, about } = li.parts;
  box.checked = x.shown;
  setText(name, x.label);
  const parts = x.parts === 1 ? '1 part' : `${x.parts} parts`;
  setText(about, x.short ? `${parts}, ${x.short} of them with findings` : parts);
}

/** Light, dark, sunlight, or as the device; the File menu has it too. */
function themes() {
  const group = h('div', { class: 'choice-grid', role: 'group', 'aria-label': 'Light, dark or for the sun' },
    ...theme.Themes.map((t) => button({ 'data-value': t.value, on: { click: () => theme.choose(t.value) } }, t.label)));
  theme.onChange(() => press(group, theme.chosen()));
  press(group, theme.chosen());
  return group;
}
