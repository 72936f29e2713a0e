// Light, dark or for the sun: as the device says, or as chosen here.

import { Do, send } from './protocol.js';

const KEY = 'scrubline.theme';
const dark = matchMedia('(prefers-color-scheme: dark)');
const bold = matchMedia('(prefers-contrast: more)');
const listeners = [];

/** Has f called whenever another theme is chosen. */
export function onChange(f) {
  listeners.push(f);
}

/** The choices, as stored and as shown. */
export const Themes = Object.freeze([
  { value: 'device', label: 'As the device' },
  { value: 'light', label: 'Light' },
  { value: 'dark', label: 'Dark' },
  { value: 'sun', label: 'Sunlight' },
]);

/** What was chosen: device, light, dark or sun. */
export function chosen() {
  try {
    const value = localStorage.getItem(KEY);
    return value !== 'device' && Themes.some((t) => t.value === value) ? value : 'device';
  } catch {
    return 'device';
  }
}

/** What holds now: light, dark or sun. */
export function current() {
  const value = chosen();
  if (value !== 'device') return value;
  if (bold.matches) return 'sun';
  return dark.matches ? 'dark' : 'light';
}

const DESK = { light: '#ECEAE3', dark: '#101518', sun: '#FFFFFF' };

/** Puts what holds onto the page and, when it runs, the sketcher. */
export function apply() {
  const now = current();
  document.documentElement.dataset.theme = now;
  for (const meta of document.querySelectorAll('meta[name="theme-color"]')) {
    meta.content = DESK[now];
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
  for (const f of listeners) f();
}

dark.addEventListener('change', apply);
bold.addEventListener('change', apply);
