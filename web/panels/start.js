// The questions a new vehicle begins with: a step at a time, in the order in
// which one measures, with a drawing that shows which distance is meant. What
// is asked, what is wrong with an answer and what is drawn come from the
// sketcher: its StartPage is in wasm/app/start.go.

import { Do, send } from '../protocol.js';
import { button, h, keyed, picture, setAttr, setText, showText } from '../dom.js';
import * as files from '../files.js';
import { press } from './bar.js';
import { freshId, makeHelp } from './entry.js';
import { makeSketch } from './start_sketch.js';

const DEFAULT = 'default, not measured';

/** Makes the sheet; returns the call that opens it. */
export function makeStart(page) {
  const state = { answers: {}, step: 0, focus: '', left: new Set() };
  const sketch = makeSketch();
  const { el, title, count, ask, fields, units, back, next, last } = buildSheet(sketch.el, {
    units: (value) => changeUnits(value), back: () => go(state.step - 1), next: () => forward(), skip: () => leave(() => page.starter()),
  });

  const put = (name, text) => {
    state.answers[name] = text;
    show();
  };
  const parts = { state, put, forward: () => forward(), show: () => show() };

  /** Asks the sketcher for the step as it stands, and shows it. */
  function show() {
    const reply = send({ do: Do.begin, text: JSON.stringify(state.answers), row: state.step, field: state.focus });
    if (!reply.text) {
      page.say(reply);
      return;
    }
    render(JSON.parse(reply.text));
  }

  function render(p) {
    state.page = p;
    setText(title, p.title);
    setText(count, `${p.step + 1} of ${p.steps}`);
    setText(ask, p.ask);
    press(units, p.units);
    setText(next, p.step + 1 === p.steps ? 'Make the vehicle' : 'Next');
    setAttr(back, 'aria-disabled', p.step === 0 ? 'true' : null);
    last.hidden = p.step + 1 < p.steps;
    fields.classList.toggle('is-many', p.questions.length > 3);
    keyed(fields, p.questions.map((q) => ({ ...q, shows: state.left.has(q.name) })), (q) => q.name, (q) => makeQuestion(q, parts), (x, q) => x.renew(q));
    sketch.renew(p.sketch);
  }

  function go(step) {
    if (step < 0) return;
    state.step = step;
    state.focus = '';
    show();
    const first = state.page.questions[0];
    state.focus = first.name;
    show();
    el.querySelector('.start-body').scrollTop = 0;
    // A keypad that jumps up by itself would hide the drawing.
    if (matchMedia('(hover: hover)').matches && first.type !== 'choice') fields.querySelector('input').focus();
    else title.focus({ preventScroll: true });
  }

  /** On to the next step, unless an answer of this one cannot be used. */
  function forward() {
    for (const q of state.page.questions) state.left.add(q.name);
    show();
    const wrong = state.page.questions.find((q) => q.error);
    if (wrong) {
      fields.querySelector(`[data-key="${wrong.name}"] input`)?.focus();
      return;
    }
    if (state.step + 1 < state.page.steps) go(state.step + 1);
    else make();
  }

  async function make() {
    const command = { do: Do.begin, text: JSON.stringify(state.answers), row: state.step, on: true };
    const reply = await files.replaceWith(command);
    if (reply.error) {
      if (!reply.text) {
        page.say(reply);
        return;
      }
      const at = JSON.parse(reply.text).step;
      for (const q of JSON.parse(reply.text).questions) state.left.add(q.name);
      go(at);
      return;
    }
    state.answers = {};
    state.left.clear();
    state.step = 0;
    el.close();
    page.say(reply, 'Your vehicle. What is not measured yet is listed. What was open before is under File.');
  }

  function leave(then) {
    el.close();
    then();
  }

  function changeUnits(value) {
    page.say(send({ do: Do.units, text: value }));
    show();
  }

  const fit = keepAboveKeypad(el);
  return () => {
    fit();
    if (!el.open) el.showModal();
    go(state.step);
  };
}

/** The sheet's elements, put into the page; acts are what its buttons do. */
function buildSheet(drawing, acts) {
  const title = h('h2', { class: 'start-title', tabindex: '-1', id: freshId() });
  const count = h('span', { class: 'start-count' });
  const ask = h('p', { class: 'start-ask' });
  const fields = h('div', { class: 'start-fields' });
  const units = h('div', { class: 'choice', role: 'group', 'aria-label': 'Lengths in' },
    ...[['mm', 'mm, millimetres'], ['in', 'in, inches']].map(([value, name]) => button({
      'data-value': value, 'aria-label': name, on: { click: () => acts.units(value) },
    }, value)));
  const back = button({ class: 'start-back', on: { click: acts.back } }, picture('back'), 'Back');
  const next = button({ class: 'primary start-next', on: { click: acts.next } });
  const skip = button({ class: 'quiet start-skip', on: { click: acts.skip } }, 'Skip the questions');
  const last = h('p', { class: 'hint start-last', text: 'What is open now stays under File, and Undo goes back to it.' });
  const el = h('dialog', { class: 'start', 'aria-labelledby': title.id },
    h('div', { class: 'start-head' }, h('div', { class: 'start-name' }, title, count), units,
      button({ class: 'icon', 'aria-label': 'Leave the questions', on: { click: () => el.close() } }, picture('close'))),
    h('div', { class: 'start-body' }, h('div', { class: 'start-drawing' }, drawing), h('div', { class: 'start-form' }, ask, fields, last)),
    h('div', { class: 'start-foot' }, back, skip, next));
  document.getElementById('app').append(el);
  return { el, title, count, ask, fields, units, back, next, last };
}

/** The sheet ends where the keypad begins; returns the call that fits it. */
function keepAboveKeypad(el) {
  const fit = () => {
    const view = window.visualViewport;
    if (view) el.style.setProperty('--sees', `${Math.round(view.height)}px`);
  };
  window.visualViewport?.addEventListener('resize', () => {
    fit();
    document.activeElement?.closest?.('.start-question')?.scrollIntoView({ block: 'nearest' });
  });
  return fit;
}

/** One question: what it is called, where it is answered, what holds there. */
function makeQuestion(first, parts) {
  const el = h('div', { class: `start-question start-${first.type}` });
  const id = freshId();
  const help = makeHelp(first.label);
  const label = h(first.type === 'choice' ? 'span' : 'label', { class: 'start-label', id: `${id}-label`, for: first.type === 'choice' ? null : id });
  const note = h('p', { class: 'start-note', id: `${id}-note`, text: DEFAULT });
  const error = h('p', { class: 'field-error', id: `${id}-error`, role: 'alert', hidden: true });
  const answer = first.type === 'choice' ? choiceAnswer(first, id, parts) : typedAnswer(first, id, parts);
  el.append(h('div', { class: 'start-row' }, label, help.ask), answer.box, note, error, help.text);
  el.renew = (q) => {
    setText(label, q.label);
    help.renew(q.help, q.label);
    answer.renew(q);
    const wrong = q.shows ? q.error : '';
    showText(error, wrong);
    // Its line is kept, so that nothing below moves while one types.
    const blank = q.given || (q.value && q.type !== 'choice');
    note.hidden = Boolean(wrong);
    note.classList.toggle('is-blank', Boolean(blank));
    answer.input.forEach((x) => {
      setAttr(x, 'aria-invalid', wrong ? 'true' : null);
      setAttr(x, 'aria-describedby', wrong ? error.id : blank ? null : note.id);
    });
  };
  return el;
}

function typedAnswer(first, id, parts) {
  const { state } = parts;
  const input = h('input', { type: 'text', id, class: 'input', autocomplete: 'off', autocapitalize: 'off', spellcheck: 'false', enterkeyhint: 'next' });
  const unit = h('span', { class: 'unit', 'aria-hidden': 'true' });
  input.addEventListener('input', () => parts.put(first.name, input.value));
  input.addEventListener('focus', () => {
    state.focus = first.name;
    input.select();
    parts.show();
  });
  input.addEventListener('blur', () => {
    if (!input.value.trim() || state.left.has(first.name)) return;
    state.left.add(first.name);
    parts.show();
  });
  input.addEventListener('keydown', (e) => {
    if (e.key !== 'Enter') return;
    e.preventDefault();
    const all = [...input.closest('.start-fields').querySelectorAll('input')];
    const after = all[all.indexOf(input) + 1];
    state.left.add(first.name);
    parts.show();
    if (after && !state.page.questions.find((q) => q.name === first.name).error) after.focus();
    else parts.forward();
  });
  return {
    box: h('span', { class: 'entry-box' }, input, unit),
    input: [input],
    renew(q) {
      // Fractions of an inch, and a tyre's size, need more than a number keypad has.
      setAttr(input, 'inputmode', q.type === 'tyre' || q.unit === 'in' ? 'text' : 'decimal');
      setAttr(input, 'placeholder', q.default);
      showText(unit, q.unit);
      if (document.activeElement !== input && input.value !== q.value) input.value = q.value;
    },
  };
}

const FEW = 3; // answers that stand beside each other as buttons; more are a list

function choiceAnswer(first, id, parts) {
  const { state, put } = parts;
  const choose = (value) => {
    state.focus = first.name;
    put(first.name, value);
  };
  if (first.choices.length > FEW) return listAnswer(first, id, parts, choose);
  const box = h('div', { class: 'choice wrap', role: 'group', 'aria-labelledby': `${id}-label` });
  return {
    box,
    input: [box],
    renew(q) {
      keyed(box, q.choices, (c) => c.value, (c) => button({ 'data-value': c.value, on: { click: () => choose(c.value) } }), (b, c) => setText(b, c.label));
      for (const b of box.children) b.dataset.value = b.dataset.key;
      press(box, q.value);
    },
  };
}

function listAnswer(first, id, parts, choose) {
  const input = h('select', { class: 'input', id, 'aria-labelledby': `${id}-label` });
  let known = '';
  input.addEventListener('change', () => choose(input.value));
  input.addEventListener('focus', () => {
    parts.state.focus = first.name;
    parts.show();
  });
  return {
    box: h('span', { class: 'entry-box' }, input),
    input: [input],
    renew(q) {
      const json = JSON.stringify(q.choices);
      if (json !== known) {
        known = json;
        input.replaceChildren(...q.choices.map((c) => h('option', { value: c.value, text: c.label })));
      }
      input.value = q.value;
    },
  };
}
