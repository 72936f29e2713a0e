// How single parts move by themselves: a slider for each movement, and the way
// back to rest.

import { Do, send } from '../protocol.js';
import { button, h, keyed, setAttr, setText } from '../dom.js';
import { freshId } from './entry.js';

/** Builds the folded group; returns its element and renewal. */
export function makeMovements(page) {
  const summary = h('summary', {});
  const list = h('div', { class: 'movement-list' });
  const rest = button({ on: { click: () => page.say(send({ do: Do.rest })) } }, 'Back to rest');
  const el = h('details', { class: 'fold movements', hidden: true }, summary, list, rest);
  return {
    el,
    renew(items) {
      el.hidden = !items?.length;
      const away = (items ?? []).filter((x) => x.at !== 0);
      setText(summary, away.length ? `Movements (${away.length} not at rest)` : 'Movements');
      keyed(list, items ?? [], (x) => x.id, (x) => makeSlider(page, x.id), renewSlider);
      // Focus would be lost from a button that is switched off under it.
      setAttr(rest, 'aria-disabled', away.length ? null : 'true');
    },
  };
}

/** Degrees or millimetres of one press of an arrow key. */
const STEP = 1;

function makeSlider(page, id) {
  const input = h('input', { type: 'range', id: freshId(), step: STEP });
  const name = h('label', { for: input.id });
  const words = h('output', { for: input.id });
  input.addEventListener('input', () => page.say(send({ do: Do.move, key: id, mm: Number(input.value) })));
  const el = h('div', { class: 'movement' }, name, words, input);
  el.parts = { name, words, input };
  return el;
}

function renewSlider(el, x) {
  const { name, words, input } = el.parts;
  setText(name, x.name);
  setText(words, x.words);
  setAttr(input, 'min', x.from);
  setAttr(input, 'max', x.to);
  // A finding's worst state may lie between two steps.
  setAttr(input, 'step', Number.isInteger(x.at) && Number.isInteger(x.from) ? STEP : 'any');
  setAttr(input, 'aria-valuetext', x.words);
  if (Number(input.value) !== x.at) input.value = String(x.at);
}
