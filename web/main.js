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
import { notice, say, toast } from './panels/toast.js';

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
  save(name, text, steps) {
    edited();
    if (restored) store.keepSoon({ name, text, steps });
  },
};

/** Looks for what was open, and fetches the demo vehicle where nothing was, while the sketcher still starts. */
function lookUp() {
  const old = tabs.first().catch((err) => {
    sayUnkept(store.reason(err));
    return null;
  });
  const demo = old.then((found) => (found ? null : files.demoText()));
  demo.catch(() => {}); // told where it is waited for
  return { old, demo };
}

/** Brings back what was open, or the demo vehicle. */
async function restore(found) {
  const old = await found.old;
  if (old) {
    const reply = files.put(files.opens(old));
    if (!reply.error) {
      showing.recall(reply.name);
      return;
    }
    await store.keep('unread', old).catch(() => {});
    notice('unread', `What was open here last could not be read: ${reply.error} It is set aside.`, [
      { label: 'Save it as a file', act: () => download(old) },
    ]);
  }
  try {
    const reply = files.put({ do: Do.open, text: await found.demo ?? await files.demoText(), name: 'bakery-van.json' });
    page.say(reply);
    if (!reply.error) showing.recall(reply.name);
  } catch (err) {
    toast(`The demo vehicle did not arrive: ${err.message}`, true);
  }
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
  const found = lookUp();
  try {
    await host.start(sayStopped);
  } catch (err) {
    sign.classList.add('is-error');
    setText(sign, `The sketcher did not start. ${err.message}`);
    return;
  }
  theme.apply();
  followLetters();
  files.onReplaced(hold);
  await restore(found);
  restored = true;
  tabs.settle(sheet);
  if (!held) hold(); // nothing was opened: what it starts with stays
  sign.remove();
  document.documentElement.dataset.ready = '1';
  goOffline(menu.network);
}

boot();
