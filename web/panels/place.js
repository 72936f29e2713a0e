// The placing list: every kind of part under its heading, with a search.

import { Do, send } from '../protocol.js';
import { button, h } from '../dom.js';
import { rove } from '../rove.js';

/** Builds the list; returns its element, renewal and a call to begin. */
export function makePlace(page) {
  const search = h('input', { type: 'search', class: 'input', placeholder: 'Find a kind of part', 'aria-label': 'Find a kind of part', enterkeyhint: 'done' });
  const groups = h('div', { class: 'groups' });
  const oneStop = rove(groups, '.list-row');
  const none = h('p', { class: 'hint', text: 'No kind of that name. A plain shape may stand for it.', hidden: true });
  let kinds = [];
  const place = (kind) => page.placed(send({ do: Do.place, kind }));
  const filter = () => {
    const words = search.value.trim().toLowerCase();
    let shown = [];
    for (const section of groups.children) {
      let any = false;
      for (const row of section.querySelectorAll('.list-row')) {
        const hit = !words || row.searchText.includes(words);
        row.parentElement.hidden = !hit;
        if (hit) shown.push(row);
        any ||= hit;
      }
      section.hidden = !any;
    }
    none.hidden = shown.length > 0;
    oneStop();
    return shown;
  };
  search.addEventListener('input', filter);
  search.addEventListener('keydown', (e) => {
    if (e.key !== 'Enter') return;
    const shown = filter();
    if (shown.length === 1) place(shown[0].dataset.kind);
  });
  return {
    el: h('div', { class: 'place' }, search, groups, none),
    renew(p) {
      if (!p.kinds?.length) return;
      kinds = p.kinds;
      groups.replaceChildren(...grouped(kinds).map(([name, list]) => makeGroup(name, list, place)));
      filter();
    },
    begin() {
      search.value = '';
      filter();
      // A keypad that jumps up hides the list: only a keyboard's user starts in the search.
      if (matchMedia('(hover: hover)').matches) search.focus();
    },
  };
}

/** Kinds by heading, headings in the order they first come. */
function grouped(kinds) {
  const map = new Map();
  for (const k of kinds) {
    if (!map.has(k.group)) map.set(k.group, []);
    map.get(k.group).push(k);
  }
  return [...map];
}

function makeGroup(name, list, place) {
  return h('section', {}, h('h3', { class: 'group-name', text: name }),
    h('ul', { class: 'plain-list' }, ...list.map((k) => {
      const row = button({ class: 'list-row', 'data-kind': k.name, on: { click: () => place(k.name) } },
        h('span', { class: 'list-words' },
          h('span', { class: 'list-title', text: k.label }), h('span', { class: 'list-about', text: k.about })));
      row.searchText = `${k.label} ${k.about} ${k.group}`.toLowerCase();
      return h('li', {}, row);
    })));
}
