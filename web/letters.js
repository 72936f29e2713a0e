// The drawing's letters follow the size of text that the reader has set in the
// browser, as the page's do by themselves.

import { Do, send } from './protocol.js';

const USUAL = 16; // CSS pixels of text that nobody has set to another size

/** Tells the sketcher now, and whenever the size changes. */
export function follow() {
  const probe = document.createElement('span');
  probe.className = 'unseen letters-probe';
  probe.setAttribute('aria-hidden', 'true');
  document.getElementById('app').append(probe);
  let told = '1';
  new ResizeObserver(() => {
    const now = (probe.getBoundingClientRect().width / USUAL).toFixed(3);
    if (now === told || !(now > 0)) return;
    told = now;
    send({ do: Do.letters, text: now });
  }).observe(probe);
}
