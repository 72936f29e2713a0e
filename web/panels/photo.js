// The photos behind the views: taking one in, how strong it is, whether it is
// shown, where it lies, and how true it is.

import { Do, send } from '../protocol.js';
import { button, h, keyed, picture, setAttr, setText } from '../dom.js';
import { afterFrames } from '../host.js';
import { bring, decode, pictureOf, shrink } from '../photo.js';
import { freshId, makeEntry } from './entry.js';
import { makePhotoEdit } from './photo-edit.js';

/** Frames after which the drawing has the room that a phone's sheet has left. */
const ROOM = 4;

/**
 * Builds the list.
 * @param {{say: (reply: Object, done?: string) => void, lower: () => void}} page  lower: has a phone's sheet out of the way
 */
export function makePhotos(page) {
  const state = { photos: [], units: 'mm' };
  const edit = makePhotoEdit(page, () => {
    page.say({}, 'The photo stands behind the drawing. Slide its strength, or move it with a finger.');
  });
  // The drawing gets its whole room before the photo is fitted into it.
  const open = (reply, image) => {
    page.lower();
    edit(JSON.parse(reply.text), image, state.units);
  };
  const take = async (file) => {
    const shrunk = await shrink(file);
    if (shrunk.error) { page.say(shrunk); return; }
    const reply = send({ do: Do.photo_take, kind: shrunk.kind, text: shrunk.base64 });
    if (reply.error) { page.say(reply); return; }
    open(reply, await decode(shrunk.kind, shrunk.base64));
  };
  const change = async (p) => {
    const reply = send({ do: Do.photo_get, key: p.id });
    if (reply.error) { page.say(reply); return; }
    const image = await pictureOf(p.key).catch(() => null);
    if (!image) { page.say({ error: `The picture of ${p.name} cannot be read here.` }); return; }
    open(reply, image);
  };
  const list = h('ul', { class: 'plain-list photo-items' });
  return {
    el: h('div', { class: 'photos' },
      h('p', { class: 'photo-help', text: 'Hold the camera square to what you want to trace, and have something in the picture whose size you know. A wide-angle lens bends straight lines: use the plain one, from further away.' }),
      h('div', { class: 'photo-sources' },
        source('Take a photo', { capture: 'environment' }, take), source('Choose a picture', {}, take)),
      list),
    renew(p) {
      state.units = p.units;
      state.photos = p.photos ?? [];
      keyed(list, state.photos.map((x) => ({ ...x, units: p.units })), (x) => x.id, () => makeItem(page, change), (li, x) => li.renew(x));
      bring(state.photos, (error) => page.say({ error }));
    },
  };
}

/** A button that asks for a picture, from the camera or from a file. */
function source(label, props, take) {
  const input = h('input', { type: 'file', accept: 'image/*', class: 'unseen', tabindex: '-1', 'aria-hidden': 'true', ...props });
  input.addEventListener('change', () => {
    const file = input.files[0];
    input.value = '';
    if (file) take(file);
  });
  return h('span', { class: 'photo-source' }, button({ class: 'primary', on: { click: () => input.click() } }, label), input);
}

/** One photo of the list. */
function makeItem(page, change) {
  const now = { x: null };
  const set = (field, text) => send({ do: Do.photo_set, key: now.x.id, field, text });
  const tell = (command) => page.say(send({ key: now.x.id, ...command }));
  const title = h('span', { class: 'list-title' });
  const where = h('span', { class: 'list-about' });
  const strength = makeStrength((text) => page.say(set('opacity', text)));
  const hide = button({ on: { click: () => page.say(set('hidden', String(!now.x.hidden))) } }, 'Hide');
  const hold = button({
    on: {
      click: () => {
        if (!now.x.held) page.lower();
        tell({ do: Do.photo_hold, on: !now.x.held });
      },
    },
  }, 'Move by finger');
  const places = [0, 1, 2].map((i) => makePlaceLine((text) => set(['at_mm/0', 'at_mm/1', 'turn_deg'][i], text)));
  const warnings = h('ul', { class: 'photo-warnings' });
  const lines = h('ul', { class: 'photo-lines' });
  const li = h('li', { class: 'photo' },
    button({ class: 'list-row', on: { click: () => { page.lower(); afterFrames(ROOM, () => tell({ do: Do.photo_show })); } } }, h('span', { class: 'list-words' }, title, where)),
    strength.el, h('div', { class: 'photo-acts' }, hide, hold), warnings,
    h('details', { class: 'fold' }, h('summary', {}, 'Where it lies'), ...places.map((p) => p.el)),
    h('details', { class: 'fold' }, h('summary', {}, 'How true it is'), lines),
    h('div', { class: 'photo-acts' }, button({ on: { click: () => change(now.x) } }, 'Change'), button({ class: 'warn', on: { click: () => tell({ do: Do.photo_remove }) } }, 'Remove')));
  li.renew = (x) => {
    now.x = x;
    setText(title, x.name);
    setText(where, x.here ? `${x.where}, shown now` : x.where);
    strength.renew(x);
    setText(hide, x.hidden ? 'Show' : 'Hide');
    setAttr(hide, 'aria-label', `${x.hidden ? 'Show' : 'Hide'} ${x.name}`);
    setText(hold, x.held ? 'Stop moving' : 'Move by finger');
    setAttr(hold, 'aria-pressed', String(x.held));
    places.forEach((p, i) => p.renew(i < 2 ? { label: x.axes[i], value: x.at[i], unit: x.units } : { label: 'Turned', value: x.turn, unit: '°' }));
    rows(warnings, x.warnings, () => picture('tight'));
    rows(lines, x.lines, () => null);
  };
  return li;
}

function rows(list, texts, sign) {
  keyed(list, (texts ?? []).map((text, i) => ({ key: String(i), text })), (x) => x.key, () => h('li', {}, sign(), h('span')), (li, x) => setText(li.lastChild, x.text));
}

/** The slider of how strong a photo is. */
function makeStrength(set) {
  const id = freshId();
  const input = h('input', { type: 'range', id, min: '5', max: '100', step: '5', on: { input: () => set(String(input.value / 100)) } });
  const words = h('output', { for: id });
  return {
    el: h('div', { class: 'movement photo-strength' }, h('label', { for: id, text: 'Strength' }), words, input),
    renew(x) {
      const percent = String(Math.round(x.opacity * 100));
      if (document.activeElement !== input || input.value !== percent) input.value = percent;
      setText(words, `${percent} %`);
      setAttr(input, 'aria-valuetext', `${percent} percent`);
    },
  };
}

function makePlaceLine(set) {
  const entry = makeEntry({ type: 'number' }, set);
  const label = h('label', { class: 'field-label', for: entry.input.id });
  return {
    el: h('div', { class: 'field field-number' }, label, entry.box, entry.error),
    renew(x) {
      setText(label, x.label);
      entry.renew(x);
    },
  };
}
