// The sheet "On a tablet": where a tablet finds this page, as words and as a
// code to scan, and what works there.

import { h } from '../dom.js';
import { openCard } from './card.js';

/** What a browser withholds at a plain http address (W3C Secure Contexts). */
const PLAIN = [
  'Works at such an address: drawing, checking, opening and saving files, keeping the work on the tablet.',
  'Does not work there: using it without the network, adding it to the home screen as an app, sharing to another program. '
    + 'For these the address must begin with https and the tablet must trust its certificate.',
];

const SECURE = [
  'Once loaded there, it works without the network. To have it on the home screen as an app: in Safari Share, then Add to Home Screen; '
    + 'in other browsers Install or Add to home screen, in their menu.',
];

/** Opens the sheet. */
export async function openReach() {
  const body = h('div', { class: 'reach' });
  openCard('On a tablet', body);
  body.append(...await content());
}

async function content() {
  const served = await fetch('reach.json').then((r) => (r.ok ? r.json() : null), () => null);
  const own = window.location;
  if (served?.addresses.length) {
    const secure = served.addresses[0].url.startsWith('https:');
    return [
      h('p', { text: 'In the same network, scan the code with the tablet’s camera or type the address.' }),
      ...served.addresses.map(address),
      ...notes(secure),
    ];
  }
  if (served?.listen || ['localhost', '127.0.0.1', '[::1]'].includes(own.hostname)) {
    return [
      h('p', { text: 'Only this computer reaches this page now. Stop it, and start it for the tablets in your network with:' }),
      h('p', {}, h('code', { class: 'address', text: served?.listen || 'scrubline serve -listen :8765' })),
      h('p', { text: 'It then tells the address, also here, with a code to scan.' }),
    ];
  }
  return [
    h('p', { text: 'Open this address on the tablet:' }),
    h('p', {}, h('code', { class: 'address', text: own.origin + own.pathname })),
    ...notes(own.protocol === 'https:'),
  ];
}

function address({ url, code }) {
  return h('figure', { class: 'reach-address' },
    h('img', { src: code, width: 240, height: 240, alt: `Code to scan for ${url}` }),
    h('figcaption', {}, h('code', { class: 'address', text: url })));
}

function notes(secure) {
  return (secure ? SECURE : PLAIN).map((text) => h('p', { class: 'card-note', text }));
}
