// A table field: one card for each row, its cells as entries, with a button
// to add a row after it and one to take it away.

import { Do, send } from '../protocol.js';
import { button, h, keyed, picture, setAttr, setText, showText } from '../dom.js';
import { makeEntry, makeHelp, signButton } from './entry.js';
import { makeMark } from './unmeasured.js';

/**
 * Makes a table field.
 * @param {() => string} target  which form it stands in now
 */
export function makeTable(page, target) {
  const name = h('h4', { class: 'table-name' });
  const help = makeHelp('');
  const mark = makeMark(page, target, help);
  const rows = h('div', { class: 'table-rows' });
  const el = h('div', { class: 'table-field' },
    h('div', { class: 'table-head' }, h('div', {}, name, mark.word), help.ask), help.text, mark.change, rows);
  const state = { field: null };
  const change = (row, add) => page.say(send({ do: Do.row, target: target(), field: state.field.field, row, add }));
  const first = button({ class: 'quiet add-first', on: { click: () => change(-1, true) } }, picture('plus'), 'Add a row');
  el.append(first);
  return {
    el,
    renew(field) {
      state.field = field;
      // The heading above says it already when it is the table's alone.
      showText(name, field.label === field.group ? '' : field.label);
      const columnHelp = (field.columns ?? []).filter((c) => c.help);
      help.renew([field.help, ...columnHelp.map((c) => `${c.label}: ${c.help}`)].filter(Boolean).join(' '), field.label);
      mark.renew(field);
      const items = (field.rows ?? []).map((cells, i) => ({
        i, cells, columns: field.columns, name: field.row_names?.[i] || `Row ${i + 1}`,
        more: !field.max_rows || field.rows.length < field.max_rows,
        fewer: field.rows.length > (field.min_rows ?? 0),
      }));
      keyed(rows, items, (x) => `${field.field}/${x.i}`, () => makeRow(state, target, change), renewRow);
      first.hidden = items.length > 0;
    },
  };
}

function makeRow(state, target, change) {
  const card = h('div', { class: 'table-row', role: 'group' });
  const p = {
    number: h('span', { class: 'row-number' }),
    sign: signButton(() => card.typing?.turn()),
    add: button({ class: 'icon', on: { click: () => change(card.item.i, true) } }, picture('plus')),
    drop: button({ class: 'icon', on: { click: () => change(card.item.i, false) } }, picture('close')),
    cells: h('div', { class: 'cells' }),
  };
  card.parts = p;
  card.cell = (j) => {
    const column = card.item.columns[j];
    const commit = (text) => send({
      do: Do.edit, target: target(), text,
      field: `${state.field.field}/${card.item.i}/${card.item.columns[j].field || j}`,
    });
    const entry = makeEntry({ ...column, type: column.type || 'number' }, commit);
    const text = h('span', { class: 'cell-name' });
    entry.input.addEventListener('focus', () => { card.typing = entry; });
    const el = h('div', { class: 'cell' }, h('label', { for: entry.input.id }, text), entry.box, entry.error);
    el.entry = entry;
    el.text = text;
    return el;
  };
  card.append(h('div', { class: 'row-head' }, p.number, p.sign, p.add, p.drop), p.cells);
  return card;
}

function renewRow(card, item) {
  const p = card.parts;
  card.item = item;
  const n = item.i + 1;
  setText(p.number, item.name);
  setAttr(card, 'aria-label', item.name);
  setAttr(p.add, 'aria-label', `Add a row after row ${n}`);
  setAttr(p.add, 'title', `Add a row after row ${n}`);
  setAttr(p.drop, 'aria-label', `Take row ${n} away`);
  setAttr(p.drop, 'title', `Take row ${n} away`);
  p.sign.hidden = (item.columns ?? []).every((c) => c.unsigned);
  p.add.hidden = !item.more;
  p.drop.hidden = !item.fewer;
  const cells = (item.columns ?? []).map((c, j) => ({ ...c, j, value: item.cells[j] ?? '' }));
  keyed(p.cells, cells, (c) => String(c.j), (c) => card.cell(c.j), (el, c) => {
    showText(el.text, c.unit ? `${c.label}, ${c.unit}` : c.label);
    el.entry.renew(c);
  });
}
