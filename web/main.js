// Puts the page together and starts the sketcher.

import { Do, send } from './protocol.js';
import { setText, showText } from './dom.js';
import * as files from './files.js';
import * as host from './host.js';
import * as store from './store.js';
import * as tabs from './tabs.js';
import * as theme from './theme.js';
import { follow as followLetters } from './letters.js';
import { goOffline } from './offline.js';
import { renewAsk } from './panels/arrange.js';
import { makeBar } from './panels/bar.js';
import { showHint } from './panels/help.js';
import { edited } from './panels/mend.js';
import { makeMenu } from './panels/menu.js';
import { makePanel } from './panels/panel.js';
import { makeShow } from './panels/show.js';
import { makeTape } from './panels/tape.js';
import { keepReady, openShelf, renewShelf } from './panels/shelf.js';
import { openNeeds, renewNeeds } from './panels/needs.js';
import { openVariants, renewVariants } from './panels/variants.js';
import { makeStart } from './panels/start.js';
import { makeWay, notice, say, toast } from './panels/toast.js';

let begin = () => {}; // what the sketcher has the page do before its first picture
let restored = false; // nothing is stored before what was stored is back

const page = {
  /** Shows what a reply says; done is shown when all went well. */
  say(reply, done) {
    if (reply.error) toast(reply.error, true);
    else if (done) toast(done);
  },
  openForm(which) {
    page.say(send({ do: Do.form, text: which }));
    panel.openForm();
  },
  raiseForm: () => panel.openForm(),
  panels: () => shown,
  openShelf: () => openShelf(page),
  openVariants: () => openVariants(page),
  openNeeds: () => openNeeds(page),
  openPhotos() {
    panel.openPhotos();
  },
  /** Asks the questions a new vehicle begins with. */
  begin: () => start(),
  async starter() {
    page.say(await files.replaceWith({ do: Do.starter }), 'A new vehicle. What was open before is under File.');
  },
};

theme.apply();
const menu = makeMenu(page);
const panel = makePanel(document.getElementById('panel'), page);
const start = makeStart(page);
const tape = makeTape(page);
const showing = makeShow(page);
const renewBar = makeBar(document.getElementById('bar'), { ...page, menu: menu.el, tools: [tape.top, showing.top] });

/** The way back after a finding has moved the body. */
const chip = document.getElementById('back-chip');
chip.addEventListener('click', () => page.say(send({ do: Do.back })));

/** Says that what is shown and changed is a variant. */
const variantChip = document.getElementById('variant-chip');
variantChip.addEventListener('click', () => page.openVariants());

let lastJSON = '';
let lastMessage = '';
let kinds = [];
let shown = {}; // what stands on the page
let held = false; // what the sketcher said of the document before is not shown

function showPanels(p) {
  if (p.kinds?.length) kinds = p.kinds;
  p.kinds = kinds;
  shown = p;
  p.findings ??= [];
  p.parts ??= [];
  p.see ??= { tapes: [], taping: { words: '' }, checked: { words: '' }, show: [], hidden: '', four: false };
  p.variants ??= [];
  renewBar(p);
  menu.unmeasured(p.unmeasured ?? 0);
  panel.renew(p);
  tape.renew(p);
  showing.renew(p);
  renewVariants(p);
  renewShelf(p);
  renewNeeds(p);
  setText(document.querySelector('title'), p.title ? `${p.title} – Scrubline` : 'Scrubline');
  showText(chip, p.back);
  const variant = p.shown && p.variants.find((v) => v.id === p.shown);
  showText(variantChip, variant ? `Variant: ${variant.name}` : '');
  renewAsk(page, p.ask);
  say(p.live ?? '');
  if (p.message && p.message !== lastMessage) toast(p.message);
  lastMessage = p.message ?? '';
}

/** Frames after which the sketcher has answered for a document put before it. */
const ANSWERED = 8;

/**
 * Takes down what stands beside the drawing until the new document is checked:
 * "nothing falls short" must never be read off the one before. The sketcher
 * stays silent when both read the same; then the old words hold.
 */
function hold() {
  held = true;
  panel.replaced();
  const old = lastJSON ? JSON.parse(lastJSON) : {};
  showPanels({
    ...old, title: '…', note: '', undo: '', redo: '', headline: 'Checking every pair …', subline: '',
    findings: [], joined: [], lowered: [], movements: [], parts: [], lowest: [], form: null, ladder: undefined, see: undefined, assumed: false, back: '', live: '', message: '',
  });
  host.afterFrames(ANSWERED, () => {
    if (held && lastJSON) showPanels(JSON.parse(lastJSON));
    held = false;
  });
}

window.scrubPage = {
  panels(json) {
    lastJSON = json;
    const p = JSON.parse(json);
    if (p.kinds?.length) kinds = p.kinds; // they come once
    keepReady(p);
    if (!restored) return; // this is of the document the sketcher starts with
    held = false;
    showPanels(p);
  },
  wake: host.wake,
  serves: () => begin(),
  save(name, text, steps) {
    edited();
    if (restored) store.keepSoon({ name, text, steps });
  },
};

/**
 * Looks for what was open, and fetches the demo vehicle where nothing was, while the sketcher still starts.
 * @returns {Promise<{kept: ?import('./store.js').Kept, demo: ?import('./protocol.js').Command, error: string}>}
 */
async function lookUp() {
  const kept = await tabs.first().catch((err) => {
    sayUnkept(store.reason(err));
    return null;
  });
  if (kept) return { kept, demo: null, error: '' };
  return { kept: null, ...await lookUpDemo() };
}

async function lookUpDemo() {
  try {
    return { demo: { do: Do.open, text: await files.demoText(), name: 'bakery-van.json' }, error: '' };
  } catch (err) {
    return { demo: null, error: err.message };
  }
}

/** Puts what was found on the sheet; returns the sketcher's answer. */
function putFound({ kept, demo }) {
  theme.apply();
  // The page has it as it is: writing it down at once would hold up its first picture.
  const reply = files.put({ ...(kept ? files.opens(kept) : demo), on: true });
  if (!reply.error) {
    showing.recall(reply.name);
    host.onSheet();
  }
  return reply;
}

/**
 * Brings back what was open, or the demo vehicle.
 * @param {Object} found  what lookUp found
 * @param {?import('./protocol.js').Reply} put  the answer of the sketcher, where it was put on the sheet already
 */
async function restore(found, put) {
  let reply = put ?? (found.error ? {} : putFound(found));
  if (found.kept && reply.error) {
    await store.keep('unread', found.kept).catch(() => {});
    notice('unread', `What was open here last could not be read: ${reply.error} It is set aside.`, [
      { label: 'Save it as a file', act: () => download(found.kept) },
    ]);
    found = await lookUpDemo();
    reply = found.error ? {} : putFound(found);
  }
  if (found.error) toast(`The demo vehicle did not arrive: ${found.error}`, true);
  page.say(reply);
  if (found.error || reply.error) host.onSheet(0); // what the sketcher starts with stays
}

function download({ name, text }) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  link.download = name || 'vehicle.json';
  link.click();
}

function sayUnkept(why) {
  notice('unkept', `Your work is not kept on this device: ${why}. Save a file before you leave.`, [
    { label: 'Save a file', act: () => page.say(files.saveFile()) },
  ]);
  menu.kept('Not kept on this device.');
}

function watchStore() {
  let asked = false;
  store.onKept(async (error, at) => {
    if (error) {
      sayUnkept(error);
      return;
    }
    notice('unkept', '');
    const clock = new Date(at).toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' });
    menu.kept(`Kept on this device at ${clock}.`);
    if (asked) return;
    asked = true;
    if (!await store.askToStay()) menu.kept(`Kept on this device at ${clock}. A browser may clear it after days without use: save a file too.`);
  });
  store.keepAlways();
}

/** What the page lets the tabs do with the sheet. */
const sheet = {
  current: files.currentWork,
  show: (doc) => page.say(files.put(files.opens(doc))),
  async open(doc) {
    const reply = await files.replaceWith(files.opens(doc));
    page.say(reply);
    return !reply.error;
  },
  said: (text) => toast(text),
  kept: (text) => menu.kept(text),
};

function watchKeys() {
  document.addEventListener('keydown', (e) => {
    if (!(e.ctrlKey || e.metaKey) || e.altKey) return;
    const key = e.key.toLowerCase();
    const typing = e.target.matches?.('input, select, textarea');
    if (key === 's') page.say(files.saveFile());
    else if (key === 'o') document.getElementById('opener').click();
    else if (!typing && key === 'z') page.say(send({ do: e.shiftKey ? Do.redo : Do.undo }));
    else if (!typing && key === 'y') page.say(send({ do: Do.redo }));
    else return;
    e.preventDefault();
  });
}

/** Keeps the field in sight when the keypad covers the lower half. */
function watchKeypad() {
  window.visualViewport?.addEventListener('resize', () => {
    const el = document.activeElement;
    if (el?.matches?.('#panel input')) el.scrollIntoView({ block: 'center' });
  });
}

function sayStopped() {
  notice('stopped', `The sketcher stopped. Your work up to the last change is kept. ${host.likelyReason()}`, [
    { label: 'Reload', act: () => window.location.reload() },
  ]);
}

async function boot() {
  showHint(); // first of all: it takes its room before anything is drawn
  watchStore();
  watchKeys();
  watchKeypad();
  files.takeDrops((reply, name) => page.say(reply, `Opened ${name}`));
  const sign = document.getElementById('boot');
  let found = null, put = null;
  const looking = lookUp().then((it) => { found = it; });
  // What is on hand when the sketcher begins is what it draws first.
  begin = () => { if (found && !found.error) put = putFound(found); };
  try {
    document.getElementById('host').addEventListener('pointerdown', makeWay, true);
    await host.start(sayStopped, looking);
  } catch (err) {
    sign.classList.add('is-error');
    setText(sign, `The sketcher did not start. ${err.message}`);
    return;
  }
  if (!put) theme.apply(); // the first picture had it otherwise
  followLetters();
  files.onReplaced(hold);
  await looking;
  await restore(found, put);
  restored = true;
  tabs.settle(sheet);
  if (!held) hold(); // nothing was opened: what it starts with stays
  sign.remove();
  host.noteDrawn();
  document.documentElement.dataset.ready = '1';
  goOffline(menu.network);
}

boot();
