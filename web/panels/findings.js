// What falls short: the count, then one finding below the other, worst first.

import { Do, send } from '../protocol.js';
import { button, h, keyed, picture, setAttr, setPicture, setText, showText } from '../dom.js';
import { rove } from '../rove.js';
import { makeGap } from './gap.js';
import { makeMend } from './mend.js';
import { makeJoined, makeLowered } from './pairs.js';
import { makeCount } from './unmeasured.js';
import { makeShown } from './variants.js';

/** Builds the head with the count and the list; returns its parts and renewal. */
export function makeFindings(page) {
  const headline = h('h2', { class: 'headline', tabindex: '-1' });
  const subline = h('p', { class: 'subline count-line' });
  const list = h('ul', { class: 'findings', 'aria-label': 'Findings' });
  const oneStop = rove(list, '.finding-top, .finding-fold');
  const assumed = button({ class: 'quiet assumed', hidden: true, on: { click: () => page.openForm('vehicle') } },
    'Numbers of a new vehicle are assumed: put yours in');
  const shown = makeShown(page);
  const joined = makeJoined(page);
  const lowered = makeLowered();
  const open = makeCount(page);
  const unfolded = new Set(); // findings whose like are shown below them
  const empty = h('p', { class: 'hint', text: 'What touches or comes too close is listed here, worst first.', hidden: true });
  return {
    head: h('div', {}, shown.el, h('div', { class: 'count' }, headline)),
    body: h('div', {}, assumed, open.el, subline, list, empty, joined.el, lowered.el),
    renew(p) {
      setText(headline, p.headline);
      shown.renew(p);
      showText(subline, p.subline);
      assumed.hidden = !p.assumed || p.unmeasured > 0; // the count says it then
      open.renew(p.unmeasured);
      joined.renew(p.joined);
      lowered.renew(p.lowered);
      const had = list.contains(document.activeElement);
      keyed(list, p.findings, (f) => f.key, (f) => makeFinding(f, page, unfolded), renewFinding);
      fold(list, unfolded);
      oneStop();
      for (const li of list.children) {
        const own = (x) => (li.item.selected && x?.key === li.item.key ? x : null);
        li.parts.gap.renew(own(p.gap), li.item.mark);
        li.parts.mend.renew(own(p.mend));
        if (li.item.selected && !li.wasSelected) li.scrollIntoView({ block: 'nearest' });
        li.wasSelected = li.item.selected;
      }
      if (had && !list.contains(document.activeElement)) headline.focus({ preventScroll: true });
      empty.hidden = p.findings.length > 0;
    },
  };
}

/** Shows what is folded behind a finding, or not; one that is open is shown. */
function fold(list, unfolded) {
  const open = new Set([...list.children].filter((li) => li.item.under && li.item.selected).map((li) => li.item.under));
  for (const li of list.children) {
    const { key, under } = li.item;
    li.hidden = Boolean(under) && !unfolded.has(under) && !open.has(under);
    setAttr(li.parts.fold, 'aria-expanded', String(unfolded.has(key) || open.has(key)));
  }
}

function makeFinding(first, page, unfolded) {
  const li = h('li', { class: 'finding' });
  const p = {
    mark: picture(first.mark), title: h('span', { class: 'finding-title' }),
    figures: h('span', { class: 'finding-figures' }), where: h('p', { class: 'finding-figures' }), here: h('span', { class: 'finding-here' }),
    open: h('span', { class: 'finding-open' }),
    unsure: h('p', { class: 'unsure', text: 'Within the tape’s tolerance: measure again before you cut.' }),
    why: h('p', { class: 'why' }), caution: h('p', { class: 'caution-text' }),
  };
  p.top = button({
    class: 'finding-top',
    on: {
      click: () => {
        if (li.item.opens) page.openForm(li.item.opens);
        else page.say(send({ do: Do.finding, key: li.item.selected ? '' : li.item.key }));
      },
    },
  }, p.mark, h('span', { class: 'finding-words' }, p.title, p.figures, p.here, p.open));
  p.fold = button({
    class: 'finding-fold',
    on: {
      click: () => {
        if (unfolded.has(li.item.key)) unfolded.delete(li.item.key);
        else unfolded.add(li.item.key);
        fold(li.parentElement, unfolded);
      },
    },
  });
  p.gap = makeGap();
  p.mend = makeMend(page);
  p.more = h('div', { class: 'finding-more' }, p.where, p.unsure, p.mend.el, p.gap.el, p.why,
    p.cautionBox = h('details', { class: 'caution' }, h('summary', {}, 'Caution'), p.caution),
    p.need = button({ class: 'quiet finding-need', on: { click: () => page.openForm(`need:${li.item.a}|${li.item.b}`) } }, 'Change what they need'),
    p.join = makeJoin(li, page));
  li.parts = p;
  li.append(p.top, p.more, p.fold);
  return li;
}

function renewFinding(li, f) {
  const p = li.parts;
  li.item = f;
  setPicture(p.mark, f.mark);
  setText(p.title, f.title);
  showText(p.figures, f.figures);
  showText(p.where, f.where);
  showText(p.here, f.here);
  showText(p.open, f.unmeasured);
  p.unsure.hidden = f.sure;
  showText(p.why, f.why);
  setText(p.caution, f.caution);
  p.cautionBox.hidden = !f.caution;
  p.join.hidden = p.need.hidden = !f.a || !f.b;
  p.join.warn(f.join_warning);
  p.more.hidden = !f.selected;
  li.classList.toggle('is-selected', f.selected);
  setAttr(p.top, 'aria-expanded', f.opens ? null : String(f.selected));
  li.classList.toggle('is-under', Boolean(f.under));
  setText(p.fold, f.more);
  p.fold.hidden = !f.more;
}

/** "These are meant to touch": asks why, in one line, and joins the pair. */
function makeJoin(li, page) {
  const why = h('input', { type: 'text', class: 'input', placeholder: 'for example: bracket bolted to the frame', maxlength: 120 });
  const warning = h('p', { class: 'caution-text' });
  const form = h('form', { class: 'join-form', hidden: true },
    warning, h('p', { text: 'Joined parts are not checked against each other any more. They stay listed below the findings and can be separated.' }),
    h('label', {}, h('span', { class: 'join-label', text: 'Why may they touch?' }), why),
    h('div', { class: 'row' },
      h('button', { type: 'submit', class: 'primary' }, 'Join the two'),
      button({ on: { click: () => show(false) } }, 'Leave it')));
  const ask = button({ class: 'quiet', on: { click: () => show(true) } }, 'These are meant to touch');
  const show = (on) => {
    form.hidden = !on;
    ask.hidden = on;
    (on ? why : ask).focus();
  };
  form.addEventListener('submit', (e) => {
    e.preventDefault();
    const { a, b } = li.item;
    page.say(send({ do: Do.join, a, b, on: true, text: why.value.trim() }));
  });
  const el = h('div', { class: 'join' }, ask, form);
  el.warn = (text) => showText(warning, text);
  return el;
}
