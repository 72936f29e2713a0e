// The File menu: open, save, share, start anew; the forms of the vehicle and
// the scene; light or dark; what is kept where.

import { button, h, picture, setAttr, setText, showText } from '../dom.js';
import * as files from '../files.js';
import * as store from '../store.js';
import * as theme from '../theme.js';
import { press } from './bar.js';
import { openHelp } from './help.js';
import { openReach } from './reach.js';

/**
 * Builds the menu's button with its list.
 * @param {{say: (reply: Object, done?: string) => void, openForm: (which: string) => void, starter: () => void}} page
 */
export function makeMenu(page) {
  const list = h('div', { class: 'menu-list', id: 'menu-list', hidden: true });
  const top = button({
    class: 'menu-top', 'aria-expanded': 'false', 'aria-controls': 'menu-list',
  }, 'File', picture('down'));
  const menu = h('div', { class: 'menu' }, top, list);
  const status = h('p', { class: 'menu-status' });
  const net = h('p', { class: 'menu-status' });
  const before = item('Back to the one before', null);
  const gone = h('div', { hidden: true });
  const show = (on) => {
    if (on) {
      renewBefore(before, page, show);
      renewGone(gone, page, show);
    }
    list.hidden = !on;
    setAttr(top, 'aria-expanded', String(on));
  };
  top.addEventListener('click', () => show(list.hidden));
  const open = item('', () => {
    show(false);
    page.openForm('unmeasured');
  });
  fillMenu(list, page, show, [before, gone], open);
  list.append(themeChoice(), status, net);
  closeOutside(menu, top, show);
  return {
    el: menu,
    kept: (text) => showText(status, text),
    network: (text) => showText(net, text),
    /** How many values are not measured yet. */
    unmeasured: (n) => setText(open, n ? `${n} not measured yet` : 'Not measured: none'),
  };
}

function fillMenu(list, page, show, before, open) {
  const act = (label, action) => item(label, async () => {
    show(false);
    await action();
  });
  const opener = document.getElementById('opener');
  opener.addEventListener('change', async () => {
    const file = opener.files[0];
    opener.value = '';
    if (file) page.say(await files.openFile(file), `Opened ${file.name}`);
  });
  list.append(
    act('Open …', () => opener.click()),
    act('Save a file', () => sayText(page, files.saveFile())));
  if (files.canShare()) list.append(act('Share …', async () => page.say(await files.shareFile())));
  list.append(
    act('New vehicle', () => page.begin()),
    act('Demo: bakery van', async () => page.say(await files.openDemo())),
    ...before,
    h('hr'),
    act('Photos behind the drawing', () => page.openPhotos()),
    act('Vehicle: axles and tyres', () => page.openForm('vehicle')),
    act('Scene: name, tolerance, unit', () => page.openForm('scene')),
    act('Heights: aired out, ride, aired up', () => page.openForm('heights')),
    act('Needs: what parts must keep', () => page.openNeeds()),
    open,
    act('Shelf: parts, mass, cost', () => page.openShelf()),
    act('Variants: side by side', () => page.openVariants()),
    h('hr'),
    act('On a tablet', openReach),
    act('How it works', openHelp),
    h('hr'));
}

function sayText(page, reply) {
  page.say(reply, reply.text);
}

function item(label, action) {
  return button({ class: 'menu-item', on: action ? { click: action } : {} }, label);
}

/** Offers what was open before, when there is something. */
async function renewBefore(el, page, show) {
  el.hidden = true;
  const old = await store.kept('before').catch(() => null);
  if (!old) return;
  el.hidden = false;
  const clock = new Date(old.at).toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' });
  el.textContent = `Back to ${(old.name || 'the one before').replace(/\.json$/, '')}, as it was at ${clock}`;
  el.onclick = async () => {
    show(false);
    page.say(await files.openBefore());
  };
}

/** Offers what another tab had left and was let go. */
async function renewGone(el, page, show) {
  const all = await store.gone().catch(() => []);
  el.hidden = all.length === 0;
  el.replaceChildren(...all.map(({ key, doc }) => {
    const when = new Date(doc.at).toLocaleString([], { weekday: 'short', hour: '2-digit', minute: '2-digit' });
    const row = item(`Open what was let go: ${(doc.name || 'a vehicle').replace(/\.json$/, '')}, last changed ${when}`, async () => {
      show(false);
      page.say(await files.openGone(key));
    });
    setAttr(row, 'data-gone', key);
    return row;
  }));
}

function themeChoice() {
  const group = h('div', { class: 'choice', role: 'group', 'aria-label': 'Light or dark' },
    ...theme.Themes.map((t) => button({
      'data-value': t.value,
      on: {
        click: () => {
          theme.choose(t.value);
          press(group, theme.chosen());
        },
      },
    }, t.label)));
  theme.onChange(() => press(group, theme.chosen()));
  press(group, theme.chosen());
  return group;
}

/** Closes the list by Escape, by a tap beside it and when focus leaves it. */
function closeOutside(menu, top, show) {
  menu.addEventListener('keydown', (e) => {
    if (e.key !== 'Escape') return;
    show(false);
    top.focus();
  });
  menu.addEventListener('focusout', (e) => {
    if (e.relatedTarget && !menu.contains(e.relatedTarget)) show(false);
  });
  document.addEventListener('pointerdown', (e) => {
    if (!menu.contains(e.target)) show(false);
  }, true);
}
