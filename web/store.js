// Keeping the work on this device: the whole document goes into IndexedDB at
// every edit, and the steps of undo with it, in one record: they never belong
// to another state of it. While one is being written, the last of those that
// follow waits.
// What was open before another document was opened is kept beside it.
//
// Several tabs share the store, and one of them holds the pen: only it writes
// under "current". Each taking of the pen leaves a number in the store for
// good, one above the last; a writing first claims the number after its own,
// which fails, and the whole writing with it, where another tab has taken the
// pen since. So no tab ever overwrites what it has not seen, even one that
// slept meanwhile, and without reading first: a page that is about to go has
// no time for an answer. A tab without the pen keeps its work aside.

const DB = 'scrubline';
const SHELF = 'documents';

/** How many takings of the pen stay on record: a tab older than that many starts is long gone. */
const PENS = 2000;

/** After a writing that failed it is tried again, in milliseconds. */
const AGAIN = 20000;

/**
 * @typedef {Object} Kept
 * @property {string} name
 * @property {string} text  the scene file
 * @property {string} [steps]  the steps of undo that belong to it
 * @property {number} at    when, ms since 1970; no two writings of a tab have the same
 * @property {number} from  the at of what it began from
 */

/** What this tab is: not decided yet, the one that writes, or one beside it. */
const Mode = Object.freeze({ open: 'open', writer: 'writer', guest: 'guest' });

/** This tab's name in the store and among the tabs. */
export const TAB = [...crypto.getRandomValues(new Uint32Array(2))].map((n) => n.toString(36)).join('');

/** Where a tab without the pen keeps its work. */
export const asideOf = (tab) => `aside ${tab}`;

/** Where the work of a tab lies that was let go. */
export const goneOf = (tab) => `gone ${tab}`;

/** How many of those stay: the oldest make room. */
const GONE = 5;

let opening = null;
let store = null; // the open store
let waiting = null; // a Work that is not written yet
let writing = false;
let failed = false; // the last writing did not work
let again = 0; // the timer of the next try
let mode = Mode.open;
let pen = 0;
let seen = 0; // the at of the last "current" this tab read or wrote
let tell = () => {};
let aside = () => {};

/**
 * Tells what became of each writing.
 * @param {(error: string, at: number) => void} listener  error is empty when it went well
 */
export function onKept(listener) {
  tell = listener;
}

/** Tells when work was put aside because another tab holds the pen. */
export function onAside(listener) {
  aside = listener;
}

function openDB() {
  opening ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(DB, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(SHELF);
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
    request.onblocked = () => reject(new Error('the store is in use by another tab'));
  }).then((db) => {
    store = db;
    db.onclose = () => { opening = store = null; }; // the browser took it away: open it anew
    return db;
  }, (err) => {
    opening = null;
    throw err;
  });
  return opening;
}

async function inShelf(access, action, talks = false) {
  // No waiting for what is open: a page that is about to go runs no further
  // than this turn.
  const db = store ?? await openDB();
  return new Promise((resolve, reject) => {
    const deal = db.transaction(SHELF, access);
    const request = action(deal.objectStore(SHELF));
    // Said now, it holds even when the page is gone before the answer comes.
    if (access === 'readwrite' && !talks) deal.commit?.();
    deal.oncomplete = () => resolve(request.result);
    deal.onerror = (e) => reject(e.target.error ?? deal.error);
    deal.onabort = () => reject(deal.error ?? new Error('the device is full'));
  });
}

/**
 * Reads what is kept under key: current, before, unread, some tab's aside or what was let go.
 * @returns {Promise<?Kept>}
 */
export async function kept(key) {
  const found = (await inShelf('readonly', (shelf) => shelf.get(key))) ?? null;
  if (key === 'current') seen = found?.at ?? 0;
  return found;
}

/** When what is kept as current was written; 0 for nothing. */
export async function currentAt() {
  return (await inShelf('readonly', (shelf) => shelf.get('current')))?.at ?? 0;
}

/** The at of the last current this tab read or wrote. */
export const seenAt = () => seen;

/**
 * What is to be kept.
 * @typedef {{name: string, text: string, steps?: string}} Work
 */

/** @param {Work} work */
const record = ({ name, text, steps = '' }) => ({ name, text, steps, at: Math.max(Date.now(), seen + 1), from: seen });

/**
 * Puts a document under key at once.
 * @param {string} key
 * @param {Work} work
 */
export function keep(key, work) {
  return orWithoutSteps(work, (it) => inShelf('readwrite', (shelf) => shelf.put(record(it), key)));
}

/** Where there is no room for the steps of undo too, the work is kept without them. */
async function orWithoutSteps(work, put) {
  try {
    return await put(work);
  } catch (err) {
    if (err?.name !== 'QuotaExceededError' || !work.steps) throw err;
    return put({ ...work, steps: '' });
  }
}

/** Moves a document from one key to another, as it is. */
export function move(key, to) {
  return inShelf('readwrite', (shelf) => {
    const got = shelf.get(key);
    got.onsuccess = () => {
      if (got.result) shelf.put(got.result, to);
      shelf.delete(key);
    };
    return got;
  }, true);
}

/** Takes a document away. */
export function forget(key) {
  return inShelf('readwrite', (shelf) => shelf.delete(key));
}

/** The tabs that have put work aside. */
export const asides = () => tabsUnder('aside ');

async function tabsUnder(word) {
  const range = IDBKeyRange.bound(word, `${word.trim()}!`);
  return (await inShelf('readonly', (shelf) => shelf.getAllKeys(range))).map((key) => key.slice(word.length));
}

/** Lets the work of a tab go: it is no longer offered, but stays to be brought back. */
export async function letGo(tab) {
  await move(asideOf(tab), goneOf(tab));
  for (const { key } of (await gone()).slice(GONE)) await forget(key);
}

/**
 * What was let go, the last change first.
 * @returns {Promise<{key: string, doc: Kept}[]>}
 */
export async function gone() {
  const all = await Promise.all((await tabsUnder('gone ')).map(async (tab) => ({ key: goneOf(tab), doc: await kept(goneOf(tab)) })));
  return all.filter((x) => x.doc).sort((a, b) => b.doc.at - a.doc.at);
}

/** Makes this tab the one that writes. */
export async function takePen() {
  mode = Mode.writer;
  let mine = 0;
  await inShelf('readwrite', (shelf) => {
    const last = shelf.openKeyCursor(IDBKeyRange.bound(0, Infinity), 'prev');
    last.onsuccess = () => {
      mine = (last.result?.key ?? 0) + 1;
      shelf.add('', mine);
      shelf.delete(IDBKeyRange.upperBound(mine - PENS));
    };
    return last;
  }, true);
  pen = mine;
}

/** Makes this tab one that keeps its work aside. */
export function yieldPen() {
  mode = Mode.guest;
  pen = 0;
}

export const hasPen = () => mode === Mode.writer;

/**
 * Puts the document under current as soon as the one before is written.
 * @param {Work} work
 */
export function keepSoon(work) {
  waiting = work;
  if (!writing && mode !== Mode.open) keepNow();
}

/** Writes what still waits. */
export async function keepNow() {
  if (!waiting) return;
  const doc = waiting;
  waiting = null;
  writing = true;
  try {
    await orWithoutSteps(doc, write);
    failed = false;
  } catch (err) {
    failed = true;
    waiting ??= doc;
    tell(reason(err), 0);
  }
  writing = false;
  if (!waiting) return;
  clearTimeout(again);
  if (failed) again = setTimeout(keepNow, AGAIN);
  else keepNow();
}

async function write(work) {
  if (mode === Mode.writer && !pen) await takePen();
  const doc = record(work);
  if (mode === Mode.writer) {
    try {
      await inShelf('readwrite', (shelf) => {
        shelf.add('', pen + 1);
        shelf.delete(pen + 1);
        return shelf.put(doc, 'current');
      });
      seen = doc.at;
      tell('', doc.at);
      return;
    } catch (err) {
      if (err?.name !== 'ConstraintError') throw err;
      yieldPen();
    }
  }
  await inShelf('readwrite', (shelf) => shelf.put(doc, asideOf(TAB)));
  aside();
}

/** Says in plain words why nothing could be kept. */
export function reason(err) {
  if (err?.name === 'QuotaExceededError') return 'there is no room left on this device';
  if (err?.name === 'InvalidStateError' || err?.name === 'SecurityError') return 'this browser window keeps nothing (a private window?)';
  return err?.message || 'this browser refused';
}

/** Writes when the page is put away, and holds back a page whose work is kept nowhere. */
export function keepAlways() {
  document.addEventListener('visibilitychange', () => { if (mode !== Mode.open) keepNow(); });
  window.addEventListener('pagehide', keepNow);
  window.addEventListener('beforeunload', (e) => { if (failed) e.preventDefault(); });
}

/** Asks once that the store be spared when the device runs short of room. */
export async function askToStay() {
  try {
    return Boolean(await navigator.storage?.persist?.());
  } catch {
    return false;
  }
}
