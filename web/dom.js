// Building and renewing the page's elements. Text always goes in as text:
// nothing that came from a file is ever read as HTML.

const SVG = 'http://www.w3.org/2000/svg';

/**
 * Makes an element. Properties: class, text, on (an object of listeners);
 * all others are attributes, where true is an empty one and false, null or
 * undefined is none.
 * @param {string} tag
 * @param {Object} [props]
 * @param {...(Node|string|null|undefined|false)} children
 * @returns {HTMLElement}
 */
export function h(tag, props, ...children) {
  const el = document.createElement(tag);
  for (const [key, value] of Object.entries(props ?? {})) {
    if (key === 'class') el.className = value;
    else if (key === 'text') el.textContent = value;
    else if (key === 'on') for (const [type, f] of Object.entries(value)) el.addEventListener(type, f);
    else setAttr(el, key, value);
  }
  el.append(...children.filter((c) => c !== null && c !== undefined && c !== false));
  return el;
}

/** A button that does not submit anything. */
export function button(props, ...children) {
  return h('button', { type: 'button', ...props }, ...children);
}

/** Sets or removes an attribute, only when it differs. */
export function setAttr(el, name, value) {
  if (value === false || value === null || value === undefined) {
    if (el.hasAttribute(name)) el.removeAttribute(name);
    return;
  }
  const text = value === true ? '' : String(value);
  if (el.getAttribute(name) !== text) el.setAttribute(name, text);
}

/**
 * Text whose figures stay whole at the end of a line: "2 15/16", "30 %", "rear −130"
 * and a day such as 2026-11-25 are each read as one.
 */
const whole = (text) => (/\d/.test(text) ? text.replace(/(\d|[Ff]ront|[Rr]ear) (?=\d+\/\d|%|[−+]\d)/g, '$1\u00a0').replace(/(\d{4})-(\d\d)-(\d\d)/g, '$1-\u2060$2-\u2060$3') : text);

/** Sets an element's text, only when it differs. */
export function setText(el, text) {
  const said = whole(String(text ?? ''));
  if (el.textContent !== said) el.textContent = said;
}

/** Shows or hides an element, and sets its text when it has one. */
export function showText(el, text) {
  setText(el, text ?? '');
  el.hidden = !text;
}

/**
 * Makes the children of parent follow items: one element for each key, made
 * once, renewed when its item changed, put into order, dropped when gone.
 * Elements that stay are not moved, so focus and caret stay with them.
 * @template T
 * @param {HTMLElement} parent
 * @param {T[]} items
 * @param {(item: T) => string} keyOf
 * @param {(item: T) => HTMLElement} make
 * @param {(el: HTMLElement, item: T) => void} renew
 */
export function keyed(parent, items, keyOf, make, renew) {
  const old = new Map();
  for (const el of [...parent.children]) old.set(el.dataset.key, el);
  const used = new Set();
  let next = parent.firstElementChild;
  for (const item of items) {
    let key = keyOf(item);
    while (used.has(key)) key += '+';
    used.add(key);
    let el = old.get(key);
    if (!el) {
      el = make(item);
      el.dataset.key = key;
    }
    const json = JSON.stringify(item);
    if (el.itemJSON !== json) {
      el.itemJSON = json;
      renew(el, item);
    }
    if (el === next) next = next.nextElementSibling;
    else if (next && !used.has(next.dataset.key) && next.nextElementSibling === el) {
      // The one before it is gone: drop that one rather than move this one.
      next.remove();
      next = el.nextElementSibling;
    } else parent.insertBefore(el, next);
  }
  for (const el of [...parent.children]) if (!used.has(el.dataset.key)) el.remove();
}

/** The paths of the marks and of the small pictures, in a box of 20 by 20. */
const PATHS = {
  touch: { d: 'M10 1 19 10 10 19 1 10Z', fill: true, name: 'touch' },
  tight: { d: 'M10 2.5 18.5 17.5H1.5Z', name: 'tight' },
  back: { d: 'M12.5 3.5 6 10l6.5 6.5' },
  down: { d: 'M4 7.5 10 13.5l6-6' },
  up: { d: 'M4 12.5 10 6.5l6 6' },
  flat: { d: 'M3 10H17' },
  close: { d: 'M4 4 16 16M16 4 4 16' },
  plus: { d: 'M10 3V17M3 10H17' },
  fit: { d: 'M2 7V2H7M13 2H18V7M18 13V18H13M7 18H2V13' },
  tick: { d: 'M3 10.5 8 15.5 17 5' },
  undo: { d: 'M7.5 3.5 3.5 7.5l4 4M4 7.5H12a4.5 4.5 0 0 1 0 9H8' },
  redo: { d: 'M12.5 3.5l4 4-4 4M16 7.5H8a4.5 4.5 0 0 0 0 9h4' },
};

/** A small picture. Marks carry their name for screen readers. */
export function picture(name) {
  const svg = document.createElementNS(SVG, 'svg');
  svg.setAttribute('viewBox', '0 0 20 20');
  svg.setAttribute('class', `pic pic-${name}`);
  svg.setAttribute('focusable', 'false');
  setPicture(svg, name);
  return svg;
}

/** Makes an existing picture another one. */
export function setPicture(svg, name) {
  if (svg.dataset.name === name) return;
  svg.dataset.name = name;
  svg.setAttribute('class', `pic pic-${name}`);
  svg.replaceChildren();
  const spec = PATHS[name];
  setAttr(svg, 'role', spec?.name ? 'img' : null);
  setAttr(svg, 'aria-label', spec?.name ?? null);
  setAttr(svg, 'aria-hidden', spec?.name ? null : 'true');
  if (!spec) return;
  const path = document.createElementNS(SVG, 'path');
  path.setAttribute('d', spec.d);
  path.setAttribute('class', spec.fill ? 'pic-fill' : 'pic-line');
  svg.append(path);
}
