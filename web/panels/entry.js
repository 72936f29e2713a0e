// One thing to type into, tick or choose. What the sketcher says goes in,
// unless someone is typing there; what is typed goes out when the field is
// left or Enter is pressed. A refused value stays as typed, with the reason
// beside it.

import { button, h, setAttr, setText, showText } from '../dom.js';
import { toast } from './toast.js';

let count = 0;

/** ms after which a tap that closes a form has closed it. */
const CLOSED = 400;

/** A fresh id, for labels and reasons. */
export function freshId() {
  count += 1;
  return `f${count}`;
}

const minus = /^\s*[-−]\s*/;

/**
 * Makes an entry.
 * @param {import('../protocol.js').FormField} spec  its type, unit and choices
 * @param {(text: string) => import('../protocol.js').Reply} commit
 * @returns {{box: HTMLElement, input: HTMLElement, error: HTMLElement, renew: (value: string) => void}}
 */
export function makeEntry(spec, commit) {
  const id = freshId();
  const error = h('p', { class: 'field-error', id: `${id}-error`, role: 'alert', hidden: true });
  const say = (text) => {
    showText(error, text);
    setAttr(input, 'aria-invalid', text ? 'true' : null);
    setAttr(input, 'aria-errormessage', text ? error.id : null);
  };
  const entry = spec.type === 'flag' ? flagEntry(id, commit, say)
    : spec.type === 'choice' ? choiceEntry(id, commit, say)
      : textEntry(id, spec, commit, say);
  const { input } = entry;
  return { ...entry, error };
}

function flagEntry(id, commit, say) {
  const input = h('input', { type: 'checkbox', id });
  let value = false;
  input.addEventListener('change', () => {
    const reply = commit(String(input.checked));
    say(reply.error ?? '');
    if (reply.error) input.checked = value;
  });
  return {
    box: h('span', { class: 'flag-box' }, input),
    input,
    renew(spec) {
      value = spec.value === 'true';
      input.checked = value;
    },
  };
}

function choiceEntry(id, commit, say) {
  const input = h('select', { id, class: 'input' });
  let value = '';
  let known = '';
  input.addEventListener('change', () => {
    const reply = commit(input.value);
    say(reply.error ?? '');
    if (reply.error) input.value = value;
  });
  return {
    box: h('span', { class: 'entry-box' }, input),
    input,
    renew(spec) {
      const json = JSON.stringify(spec.choices ?? []);
      if (json !== known) {
        known = json;
        input.replaceChildren(...(spec.choices ?? []).map((c) => h('option', { value: c.value, text: c.label })));
      }
      value = spec.value;
      input.value = value;
    },
  };
}

function textEntry(id, spec, commit, say) {
  const number = spec.type === 'number';
  const input = h('input', { type: 'text', id, class: 'input', autocomplete: 'off', autocapitalize: 'off', spellcheck: 'false', enterkeyhint: 'done' });
  const unit = h('span', { class: 'unit', 'aria-hidden': 'true' });
  const state = { value: '', typed: false };
  const settle = () => {
    if (!state.typed && document.activeElement !== input && input.value !== state.value) input.value = state.value;
  };
  const give = () => {
    if (!state.typed) return;
    // Typed as it stood, a value that was not measured is measured.
    if (input.value === state.value && !state.open) {
      state.typed = false;
      say('');
      return;
    }
    const reply = commit(input.value);
    say(reply.error ?? '');
    if (reply.error) sayElsewhere(input, reply.error);
    else {
      state.typed = false;
      state.value = input.value; // until the next frame tells it: a field that is left must not show the old one
    }
  };
  input.addEventListener('input', () => { state.typed = true; });
  input.addEventListener('change', give);
  input.addEventListener('blur', () => { give(); settle(); });
  if (number) takeWhole(input);
  input.addEventListener('keydown', (e) => {
    if (e.key === 'Enter') give();
    if (e.key === 'Escape' && state.typed) {
      e.stopPropagation();
      state.typed = false;
      input.value = state.value;
      say('');
    }
  });
  const turn = () => turnSign(input, state);
  const sign = number ? signButton(turn) : null;
  return {
    turn,
    box: h('span', { class: 'entry-box' }, sign, input, unit),
    input,
    renew(next) {
      // Fractions of an inch need a slash and a space, which a number keypad lacks.
      if (number) setAttr(input, 'inputmode', next.unit === 'in' ? 'text' : 'decimal');
      setAttr(input, 'placeholder', next.zero_is);
      if (sign) sign.hidden = Boolean(next.unsigned);
      showText(unit, next.unit);
      state.value = next.value ?? '';
      state.open = next.measured === 'no';
      settle();
    },
  };
}

/** A tap that leaves the field may also close what it stands in: then why a value was refused is said as a message. */
function sayElsewhere(input, error) {
  const name = input.labels[0]?.textContent ?? input.getAttribute('aria-label') ?? '';
  const typed = input.value;
  setTimeout(() => {
    if (!input.checkVisibility()) toast(`${name}: “${typed}” was not taken. ${error}`, true);
  }, CLOSED);
}

/**
 * What is typed into a number's field takes the place of what stands there:
 * the tap that comes into it marks all of it. A second tap sets the caret.
 */
export function takeWhole(input) {
  let fresh = false;
  input.addEventListener('pointerdown', () => { fresh = document.activeElement !== input; });
  input.addEventListener('focus', () => input.select());
  input.addEventListener('click', () => {
    if (fresh) input.select(); // the tap has put the caret somewhere meanwhile
    fresh = false;
  });
}

function turnSign(input, state) {
  const text = input.value;
  input.value = minus.test(text) ? text.replace(minus, '') : `-${text.replace(/^\s*\+/, '').trim()}`;
  state.typed = true;
}

/**
 * The number keypad of a phone has no minus sign; this button, which shows
 * while the field is typed into on a touch screen, turns the sign.
 */
export function signButton(turn) {
  return button({
    class: 'sign', tabindex: '-1', 'aria-label': 'Turn the sign', title: 'Turn the sign',
    on: { pointerdown: (e) => e.preventDefault(), click: turn },
  }, '±');
}

/** The "?" beside a field and the line it opens. */
export function makeHelp(label) {
  const text = h('p', { class: 'field-help', id: freshId(), hidden: true });
  const ask = button({
    class: 'ask', 'aria-expanded': 'false', 'aria-controls': text.id,
    on: {
      click: () => {
        text.hidden = !text.hidden;
        setAttr(ask, 'aria-expanded', String(!text.hidden));
      },
    },
  }, h('span', { 'aria-hidden': 'true', text: '?' }));
  return {
    ask,
    text,
    renew(help, name) {
      setText(text, help ?? '');
      ask.hidden = !help;
      if (!help) text.hidden = true;
      setAttr(ask, 'aria-label', `About ${name ?? label}`);
    },
  };
}
