// The copy that works without a network, and the change to a newer one.

import { notice } from './panels/toast.js';
import { keepNow } from './store.js';

/** How often an open page looks for a newer version, ms. */
const LOOK = 60 * 60 * 1000;

let asked = false; // this tab was told to load the newer version

/**
 * Registers the service worker and tells in one sentence what works.
 * @param {(text: string) => void} tell
 */
export async function goOffline(tell) {
  if (!('serviceWorker' in navigator)) {
    tell(window.isSecureContext
      ? 'Needs the network: this browser keeps no copy of the page.'
      : 'Needs the network: at a plain http address the browser keeps no copy of the page. Your work is still kept here.');
    return;
  }
  watchHands();
  let registration;
  try {
    registration = await navigator.serviceWorker.register('sw.js');
    offerNewer(registration);
    await navigator.serviceWorker.ready;
    tell('Works without a network.');
  } catch {
    tell('Needs the network: the browser does not trust this address’s certificate, so it keeps no copy of the page.');
    return;
  }
  // Another tab may have asked for the newer version: only the tab that asked
  // is loaded again, the others go on with what they have.
  navigator.serviceWorker.addEventListener('controllerchange', () => { if (asked) window.location.reload(); });
  const look = () => { if (document.visibilityState === 'visible') registration.update().catch(() => {}); };
  setInterval(look, LOOK);
  document.addEventListener('visibilitychange', look);
}

function offerNewer(registration) {
  const offer = () => whenStill(() => notice('newer', 'A new version is ready.', [
    { label: 'Load it now', act: () => load(registration) },
    { label: 'Later', act: () => notice('newer', '') },
  ]));
  if (registration.waiting && navigator.serviceWorker.controller) offer();
  registration.addEventListener('updatefound', () => {
    const fresh = registration.installing;
    fresh?.addEventListener('statechange', () => {
      if (fresh.state === 'installed' && navigator.serviceWorker.controller) offer();
    });
  });
}

async function load(registration) {
  await keepNow();
  asked = true;
  if (registration.waiting) registration.waiting.postMessage('use now');
  else window.location.reload(); // another tab has asked before
}

const down = new Set(); // fingers, pens and buttons that are down
let onLift = [];

function watchHands() {
  document.addEventListener('pointerdown', (e) => down.add(e.pointerId), true);
  for (const type of ['pointerup', 'pointercancel']) {
    document.addEventListener(type, (e) => {
      down.delete(e.pointerId);
      // What the lifting finger does comes first.
      setTimeout(lifted);
    }, true);
  }
  document.addEventListener('focusout', () => setTimeout(lifted), true);
}

const still = () => down.size === 0 && !document.activeElement?.matches('input:not([type="checkbox"]), textarea, select');

function lifted() {
  if (!still()) return;
  const due = onLift;
  onLift = [];
  for (const act of due) act();
}

/** Acts at once, or when no finger is down and no field is being filled in: a notice moves the drawing. */
function whenStill(act) {
  onLift.push(act);
  lifted();
}
