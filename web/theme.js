// Light or dark: as the device says, or as chosen here.

import { Do, send } from './protocol.js';

const KEY = 'scrubline.theme';
const dark = matchMedia('(prefers-color-scheme: dark)');

/** The choices, as stored and as shown. */
export const Themes = Object.freeze([
  { value: 'device', label: 'As the device' },
  { value: 'light', label: 'Light' },
  { value: 'dark', label: 'Dark' },
]);

/** What was chosen: device, light or dark. */
export function chosen() {
  try {
    const value = localStorage.getItem(KEY);
    return value === 'light' || value === 'dark' ? value : 'device';
  } catch {
    return 'device';
  }
}

/** What holds now: light or dark. */
export function current() {
  const value = chosen();
  if (value !== 'device') return value;
  return dark.matches ? 'dark' : 'light';
}

/** Puts what holds onto the page and, when it runs, the sketcher. */
export function apply() {
  const now = current();
  document.documentElement.dataset.theme = now;
  for (const meta of document.querySelectorAll('meta[name="theme-color"]')) {
    meta.content = now === 'dark' ? '#101518' : '#ECEAE3';
  }
  if (window.scrub) send({ do: Do.theme, text: now });
}

/** Chooses, and remembers it where the browser lets it. */
export function choose(value) {
  try {
    if (value === 'device') localStorage.removeItem(KEY);
    else localStorage.setItem(KEY, value);
  } catch {
    // Nothing is remembered in this window; the choice holds until it closes.
  }
  apply();
}

dark.addEventListener('change', apply);
