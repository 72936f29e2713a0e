// A long list is one stop of the Tab key: within it the arrow keys, Home and
// End go from row to row, and a letter goes to the next row that begins with
// what was typed. The rows stay the buttons of a list that they are, so a
// screen reader reads and counts them as before.

const TYPED = 700; // ms after which a letter begins a new word

/**
 * Makes the rows within list one tab stop.
 * @param {HTMLElement} list  what holds the rows
 * @param {string} rows  selects the buttons that are rows
 * @returns {() => void} to be called after the rows were renewed
 */
export function rove(list, rows) {
  let at = null; // the row that Tab comes to
  let word = '';
  let late = 0;
  const every = () => [...list.querySelectorAll(rows)];
  const seen = (b) => {
    const hid = b.closest('[hidden]');
    return !hid || hid === list || !list.contains(hid); // the list itself may not be in sight now
  };
  const shown = () => every().filter(seen);
  const hold = (row) => {
    const all = every();
    at = all.includes(row) && seen(row) ? row : all.find(seen) ?? null;
    for (const b of all) {
      const index = b === at ? 0 : -1;
      if (b.tabIndex !== index) b.tabIndex = index;
    }
  };
  const typed = (letter, all, from) => {
    const now = performance.now();
    word = now > late ? letter : word + letter;
    late = now + TYPED;
    const again = [...word].every((c) => c === word[0]); // the same letter goes on to the next such row
    const start = again ? word[0] : word;
    const first = again ? from + 1 : from;
    return [...all.slice(first), ...all.slice(0, first)].find((b) => begins(b, start));
  };
  list.addEventListener('focusin', (e) => {
    const row = e.target.closest(rows);
    if (row) hold(row);
  });
  list.addEventListener('keydown', (e) => {
    if (e.ctrlKey || e.metaKey || e.altKey || !e.target.matches(rows)) return;
    const all = shown();
    const i = all.indexOf(e.target);
    const to = { ArrowDown: all[i + 1], ArrowUp: all[i - 1], Home: all[0], End: all.at(-1) };
    const letter = e.key.length === 1 && e.key !== ' ';
    if (!(e.key in to) && !letter) return;
    e.preventDefault();
    (letter ? typed(e.key.toLowerCase(), all, i) : to[e.key])?.focus();
  });
  return () => hold(at);
}

/** Whether what a row says begins with word; a mark before the words does not count. */
function begins(row, word) {
  const title = row.querySelector('.list-title, .finding-title, .rung-title') ?? row;
  return title.textContent.trim().toLowerCase().startsWith(word);
}
