// The panel beside the drawing: findings and parts in one column, and in the
// other how low it goes, or the form, or the placing list. On a wide screen
// the second takes the first one's place, on a tall one they stand side by side.

import { Do, send } from '../protocol.js';
import { button, h, picture, setAttr } from '../dom.js';
import { makeFindings } from './findings.js';
import { makeForm } from './form.js';
import { makeHeights } from './heights.js';
import { makeLadder } from './ladder.js';
import { makeMovements } from './movements.js';
import { makeParts } from './parts.js';
import { makePhotos } from './photo.js';
import { makePlace } from './place.js';
import { makeSheet } from './sheet.js';

/** Builds the panel into its element; returns renewal and the calls others need. */
export function makePanel(el, page) {
  const grip = document.getElementById('grip');
  const place = () => setMode('place');
  grip.append(h('span', { class: 'grip-bar', 'aria-hidden': 'true' }), h('span', { class: 'grip-name', text: 'Findings' }));
  grip.after(button({ class: 'primary grip-place', on: { click: place } }, 'Place a part'));
  const sheet = makeSheet(el, grip, () => form.seen());
  let mode = '';
  let last = null;
  let toForm = false; // the form that comes next is to be read from its title
  const setMode = (next) => {
    if (next === mode) return;
    mode = next;
    el.dataset.mode = mode;
    // What was not shown could not be scrolled: a browser brings its old place back.
    if (mode === 'form') form.top();
    if (mode === 'photos') sheet.raise();
    if (mode === 'place') {
      sheet.set('full');
      placing.begin();
    }
  };
  const leavePlace = () => setMode(last?.form ? 'form' : 'findings');
  const closePhotos = () => {
    page.say(send({ do: Do.photo_hold, on: false }));
    leavePlace();
    sheet.set('low');
  };
  const closePlace = () => {
    leavePlace();
    sheet.set('low');
    [...el.querySelectorAll('.place-button, .grip-place, .place-another')].find((b) => b.offsetParent)?.focus();
  };
  const calls = {
    ...page,
    place,
    closeForm: () => {
      page.say(send(last?.form?.can_move ? { do: Do.select, part: '' } : { do: Do.form, text: '' }));
    },
    placed: (reply) => {
      page.say(reply);
      if (reply.error) return;
      sheet.set('low');
      leavePlace();
      toForm = true; // the panels with the new part come with the next frame
    },
  };
  const findings = makeFindings(calls);
  const parts = makeParts(calls);
  const ladder = makeLadder(calls);
  const heights = makeHeights(calls);
  const movements = makeMovements(calls);
  const form = makeForm(calls);
  grip.nextElementSibling.after(heights.short);
  const placing = makePlace(calls);
  const photos = makePhotos({ ...calls, lower: () => sheet.set('low') });
  const tabs = makeTabs(findings.body, ladder.el, parts.el, form.leadsTo);
  document.getElementById('panel-in').append(
    h('div', { class: 'col-a' }, findings.head, tabs.el, h('div', { class: 'scroll' }, findings.body, ladder.el, parts.el)),
    h('div', { class: 'col-b' },
      h('div', { class: 'side-findings' }, heights.el, movements.el, button({ class: 'primary place-button', on: { click: place } }, 'Place a part')),
      h('div', { class: 'side-form' }, form.el),
      h('section', { class: 'side-photos', 'aria-label': 'Photos behind the drawing' },
        button({ class: 'back', on: { click: closePhotos } }, picture('back'), 'Back'),
        h('div', { class: 'scroll' }, h('h2', { class: 'form-title', text: 'Photos behind the drawing', tabindex: '-1' }), photos.el)),
      h('section', { class: 'side-place', 'aria-label': 'Place a part' },
        button({ class: 'back', on: { click: closePlace } }, picture('back'), 'Back'),
        h('div', { class: 'scroll' }, h('h2', { class: 'form-title', text: 'Place a part' }), placing.el))));
  onEscape(el.querySelector('.side-form'), calls.closeForm);
  onEscape(el.querySelector('.side-place'), closePlace);
  onEscape(el.querySelector('.side-photos'), closePhotos);
  setMode('findings');
  return {
    openPhotos() {
      setMode('photos');
      el.querySelector('.side-photos .form-title').focus({ preventScroll: true });
    },
    /** Another vehicle takes the place of this one: what is open of it closes. */
    replaced() {
      if (mode === 'photos' || mode === 'place') setMode('findings');
      tabs.begin();
    },
    openForm() {
      sheet.raise();
      toForm = true;
    },
    renew(p) {
      const changed = (p.form?.target ?? '') !== (last?.form?.target ?? '');
      const lost = last?.form && !p.form && form.el.contains(document.activeElement);
      if (p.opened > (last?.opened ?? 0)) {
        // A mark was tapped in the drawing: its finding is read in the list.
        tabs.toFindings(p.on_rung);
        if (!p.form) {
          setMode('findings');
          sheet.raise();
        }
      }
      last = p;
      findings.renew(p);
      parts.renew(p);
      ladder.renew(p.ladder);
      heights.renew(p);
      movements.renew(p.movements);
      placing.renew(p);
      photos.renew(p);
      tabs.renew(p);
      if (p.form) form.renew(p.form, p.parts);
      if (changed || (mode === 'form') !== Boolean(p.form)) {
        if ((mode !== 'place' && mode !== 'photos') || changed) setMode(p.form ? 'form' : 'findings');
      }
      if (p.form && toForm) {
        toForm = false;
        form.focus();
      }
      sheet.name(p.form ? p.form.title : p.headline || 'Findings');
      if (lost) el.querySelector('.headline').focus({ preventScroll: true });
    },
  };
}

/** Leaves by the Escape key, unless a field took it to undo its typing. */
function onEscape(el, leave) {
  el.addEventListener('keydown', (e) => { if (e.key === 'Escape') leave(); });
}

/** Findings, the way down, or parts, as tabs; named is told which one is shown. */
function makeTabs(findings, ladder, parts, named) {
  const make = (label, body, id) => {
    body.id = id;
    body.hidden = true;
    setAttr(body, 'role', 'tabpanel');
    const tab = button({ class: 'tab', role: 'tab', 'aria-controls': id, on: { click: () => choose(tab) } }, label);
    tab.body = body;
    tab.name = label;
    return tab;
  };
  const tabs = [make('Findings', findings, 'tab-findings'), make('Way down', ladder, 'tab-ladder'), make('Parts', parts, 'tab-parts')];
  // Each tab has a place of its own in what scrolls, which differs with the screen.
  const scrollers = (t) => [t.body.parentElement, t.body.closest('#panel-in')];
  const choose = (tab) => {
    const was = tabs.find((t) => !t.body.hidden && t !== tab);
    if (was) was.at = scrollers(was).map((s) => s.scrollTop);
    for (const t of tabs) {
      t.body.hidden = t !== tab;
      setAttr(t, 'aria-selected', String(t === tab));
      t.tabIndex = t === tab ? 0 : -1;
    }
    if (was) scrollers(tab).forEach((s, i) => { s.scrollTop = tab.at?.[i] ?? 0; });
    named(tab.name);
  };
  const el = h('div', { class: 'tabs', role: 'tablist', 'aria-label': 'What is listed' }, ...tabs);
  el.addEventListener('keydown', (e) => {
    if (e.key !== 'ArrowLeft' && e.key !== 'ArrowRight') return;
    const at = tabs.indexOf(document.activeElement) + (e.key === 'ArrowRight' ? 1 : tabs.length - 1);
    const other = tabs[at % tabs.length];
    choose(other);
    other.focus();
  });
  choose(tabs[0]);
  return {
    el,
    /** Shows the findings; a rung of the staff is read in the way down where that is shown. */
    toFindings(onRung) { if (!onRung || tabs[1].body.hidden) choose(tabs[0]); },
    /** What is listed is of another vehicle: each tab begins at its top. */
    begin() {
      for (const t of tabs) {
        t.at = null;
        scrollers(t).forEach((s) => { s.scrollTop = 0; });
      }
    },
    renew(p) {
      tabs[1].name = p.ladder?.up ? 'Way up' : 'Way down';
      tabs[1].textContent = tabs[1].name;
      named(tabs.find((t) => !t.body.hidden).name);
      tabs[2].textContent = p.parts?.length ? `Parts (${p.parts.length})` : 'Parts';
      tabs[0].textContent = p.findings?.length ? `Findings (${p.findings.length})` : 'Findings';
    },
  };
}
