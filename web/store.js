// Keeping the work on this device: the whole document goes into IndexedDB at
// every edit; while one is being written, the last of those that follow waits.
// What was open before another document was opened is kept beside it.

const DB = 'scrubline';
const SHELF = 'documents';

/**
 * @typedef {Object} Kept
 * @property {string} name
 * @property {string} text  the scene file
 * @property {number} at    when, ms since 1970
 */

let opening = null;
let store = null; // the open store
let waiting = null; // the Kept that is not written yet
let writing = false;
let tell = () => {};

/**
 * Tells what became of each writing.
 * @param {(error: string, at: number) => void} listener  error is empty when it went well
 */
export function onKept(listener) {
  tell = listener;
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

async function inShelf(mode, action) {
  // No waiting for what is open: a page that is about to go runs no further
  // than this turn.
  const db = store ?? await openDB();
  return new Promise((resolve, reject) => {
    const deal = db.transaction(SHELF, mode);
    const request = action(deal.objectStore(SHELF));
    // Said now, it holds even when the page is gone before the answer comes.
    if (mode === 'readwrite') deal.commit?.();
    deal.oncomplete = () => resolve(request.result);
    deal.onerror = () => reject(deal.error);
    deal.onabort = () => reject(deal.error ?? new Error('the device is full'));
  });
}

/**
 * Reads what is kept under key: current, before or unread.
 * @returns {Promise<?Kept>}
 */
export async function kept(key) {
  return (await inShelf('readonly', (shelf) => shelf.get(key))) ?? null;
}

/** Puts a document under key at once. */
export function keep(key, name, text) {
  return inShelf('readwrite', (shelf) => shelf.put({ name, text, at: Date.now() }, key));
}

/** Puts the document under current as soon as the one before is written. */
export function keepSoon(name, text) {
  waiting = { name, text };
  if (!writing) keepNow();
}

/** Writes what still waits. */
export async function keepNow() {
  if (!waiting) return;
  const { name, text } = waiting;
  waiting = null;
  writing = true;
  try {
    await keep('current', name, text);
    tell('', Date.now());
  } catch (err) {
    tell(reason(err), 0);
  }
  writing = false;
  if (waiting) keepNow();
}

/** Says in plain words why nothing could be kept. */
export function reason(err) {
  if (err?.name === 'QuotaExceededError') return 'there is no room left on this device';
  if (err?.name === 'InvalidStateError' || err?.name === 'SecurityError') return 'this browser window keeps nothing (a private window?)';
  return err?.message || 'this browser refused';
}

/** Writes when the page is put away, and asks the browser not to clear it. */
export function keepAlways() {
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') keepNow();
  });
  window.addEventListener('pagehide', keepNow);
}

/** Asks once that the store be spared when the device runs short of room. */
export async function askToStay() {
  try {
    return Boolean(await navigator.storage?.persist?.());
  } catch {
    return false;
  }
}

/**
 * Calls found when another tab of this page is open: both keep their work in
 * one place, and the last change of either is what stays.
 */
export function watchTabs(found) {
  if (typeof BroadcastChannel !== 'function') return;
  const channel = new BroadcastChannel(DB);
  channel.onmessage = (e) => {
    if (e.data === 'here?') channel.postMessage('here');
    found();
  };
  channel.postMessage('here?');
}
