// Several tabs of this page on one device: which of them writes, what the
// others are told, and what becomes of work done in two of them.

import * as store from './store.js';
import { notice } from './panels/toast.js';

/** How long the tab that writes has for an answer, ms. */
const ANSWER = 300;
const STEPS = 6;

/** Under which a tab remembers over a reload how it is called. */
const KEY = 'scrubline.tab';

const channel = typeof BroadcastChannel === 'function' ? new BroadcastChannel('scrubline') : null;
const post = (say) => channel?.postMessage({ say, tab: store.TAB });

let sheet = null;
let carried = null; // what this tab had aside before it was loaded again
let changed = false; // this tab has work aside that is not part of what is kept
const living = new Set(); // tabs that have work aside and are still open

/**
 * @typedef {Object} Sheet
 * @property {() => {name?: string, text?: string, steps?: string, error?: string}} current  what is on the sheet
 * @property {(doc: import('./store.js').Kept) => void} show  puts a document onto it
 * @property {(doc: import('./store.js').Kept) => Promise<boolean>} open  the same; what was there is kept as before; whether it worked
 * @property {(text: string) => void} said  shows a message
 * @property {(text: string) => void} kept  says where the work is
 */

/** What to begin with: what this tab had aside before a reload, or what is kept as current. */
export async function first() {
  const was = sessionTab();
  const current = await store.kept('current');
  carried = was ? await store.kept(store.asideOf(was)) : null;
  if (!carried) return current;
  await store.move(store.asideOf(was), store.asideOf(store.TAB));
  return carried;
}

/**
 * Finds out what this tab is among the others, once the page shows what is kept.
 * @param {Sheet} given
 */
export async function settle(given) {
  sheet = given;
  store.onAside(onAside);
  channel?.addEventListener('message', heard);
  document.addEventListener('visibilitychange', lookAround);
  rememberTab();
  const there = await writerThere();
  if (carried && (there || carried.from !== store.seenAt())) {
    store.yieldPen();
    changed = true;
    askWhich();
  } else if (there) {
    store.yieldPen();
    tellGuest('This vehicle is open in another tab too, and is kept from there.');
  } else {
    await takeOver();
    if (carried) await keepSheet();
    store.keepNow();
    offerAside();
  }
}

function heard({ data }) {
  if (data.say === 'who writes?') {
    if (store.hasPen()) post('I write');
    else if (changed) post('aside');
  }
  if (data.say === 'aside') living.add(data.tab);
  if (data.say === 'mine' && store.hasPen()) {
    store.yieldPen();
    tellGuest('Work on this vehicle goes on in another tab.');
  }
}

/** Asks whether another tab writes. */
function writerThere() {
  if (!channel) return Promise.resolve(false);
  return new Promise((resolve) => {
    const answered = ({ data }) => { if (data.say === 'I write') done(true); };
    const done = (there) => {
      clearTimeout(timer);
      channel.removeEventListener('message', answered);
      resolve(there);
    };
    // In steps: where both tabs share a busy process, each leaves the answer room to come.
    let left = STEPS, timer = 0;
    const step = () => {
      if (left-- > 0) timer = setTimeout(step, ANSWER / STEPS);
      else done(false);
    };
    step();
    channel.addEventListener('message', answered);
    post('who writes?');
  });
}

/** Makes this the tab that writes. Where the store refuses, the next writing says so. */
async function takeOver() {
  await store.takePen().catch(() => {});
  post('mine');
  notice('tabs', '');
  changed = false;
}

/** A tab that only looked on goes on by itself once the one that wrote is closed. */
async function lookAround() {
  if (document.visibilityState !== 'visible' || store.hasPen() || changed || await writerThere()) return;
  if (!changed) await workHere();
}

function tellGuest(text) {
  notice('tabs', text, [{ label: 'Work in this tab', act: workHere }]);
}

/** Goes on here with what the other tab kept last. */
async function workHere() {
  await takeOver();
  const theirs = await store.kept('current').catch(() => null);
  if (theirs && theirs.text !== sheet.current().text) sheet.show(theirs);
}

/** Something was changed here while another tab has the pen. */
async function onAside() {
  sheet.kept('Kept aside: another tab has this vehicle open.');
  if (!changed && !await writerThere() && await store.currentAt().catch(() => -1) === store.seenAt()) {
    await takeOver(); // the other one is gone and left nothing new
    await keepSheet();
    return;
  }
  if (!changed || !document.querySelector('#notices [data-key="tabs"]')) askWhich();
  changed = true;
}

function askWhich() {
  notice('tabs', 'This vehicle was changed in two tabs. Which one do you want to keep? The other one stays under File.', [
    { label: 'Keep this one', act: keepThis },
    { label: 'Take the other one', act: takeOther },
  ]);
}

async function keepThis() {
  await takeOver();
  await putBefore(await store.kept('current').catch(() => null));
  await keepSheet();
}

async function takeOther() {
  await takeOver();
  const mine = sheet.current();
  const theirs = await store.kept('current').catch(() => null);
  if (!theirs) {
    await keepSheet();
    return;
  }
  await putBefore(mine);
  sheet.show(theirs);
  await store.forget(store.asideOf(store.TAB)).catch(() => {});
}

/** Keeps a document for "Back to …" in the File menu. */
async function putBefore(doc) {
  if (doc?.text) await store.keep('before', doc).catch(() => {});
}

/** Keeps what is on the sheet as current; what lay aside is in it. */
async function keepSheet() {
  const mine = sheet.current();
  if (!mine.text) return;
  store.keepSoon(mine);
  await store.forget(store.asideOf(store.TAB)).catch(() => {});
}

/** Offers what a tab had aside when it was closed without a choice. */
async function offerAside() {
  const all = await store.asides().catch(() => []);
  const tab = all.find((t) => !living.has(t) && t !== store.TAB);
  if (!tab) return;
  const key = store.asideOf(tab);
  const doc = await store.kept(key);
  const clock = new Date(doc.at).toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' });
  const open = async () => {
    if (!await sheet.open(doc)) return; // what cannot be opened is not thrown away
    notice('aside', '');
    await store.forget(key);
    offerAside();
  };
  const letGo = async () => {
    notice('aside', '');
    await store.letGo(tab);
    sheet.said(`Let go. The changes made in another tab, last at ${clock}, can be opened from the File menu.`);
    offerAside();
  };
  notice('aside', `Changes made in another tab, last at ${clock}, were not kept with the rest.`, [
    { label: 'Open them', act: open },
    { label: 'Let them go', act: letGo },
  ]);
}

function sessionTab() {
  try {
    return sessionStorage.getItem(KEY);
  } catch {
    return null;
  }
}

function rememberTab() {
  try {
    sessionStorage.setItem(KEY, store.TAB);
  } catch {
    // After a reload the work is then offered as that of a closed tab.
  }
}
