// The copy that works without a network, and the change to a newer one.

import { notice } from './panels/toast.js';
import { keepNow } from './store.js';

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
  const first = !navigator.serviceWorker.controller;
  try {
    const registration = await navigator.serviceWorker.register('sw.js');
    offerNewer(registration);
    await navigator.serviceWorker.ready;
    tell('Works without a network.');
  } catch {
    tell('Needs the network: the browser does not trust this address’s certificate, so it keeps no copy of the page.');
    return;
  }
  let reloading = first; // the first worker taking over is no reason to reload
  navigator.serviceWorker.addEventListener('controllerchange', () => {
    if (reloading) {
      reloading = false;
      return;
    }
    reloading = true;
    window.location.reload();
  });
}

function offerNewer(registration) {
  const offer = () => notice('newer', 'A newer version of Scrubline is here.', [{
    label: 'Use it now',
    act: async () => {
      await keepNow();
      registration.waiting?.postMessage('use now');
    },
  }]);
  if (registration.waiting && navigator.serviceWorker.controller) offer();
  registration.addEventListener('updatefound', () => {
    const fresh = registration.installing;
    fresh?.addEventListener('statechange', () => {
      if (fresh.state === 'installed' && navigator.serviceWorker.controller) offer();
    });
  });
}
