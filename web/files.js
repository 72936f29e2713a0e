// Files in and out: open, save, share. What is replaced is kept first, so
// that opening never loses work.

import { Do, send } from './protocol.js';
import * as store from './store.js';

const LARGEST = 16 << 20; // bytes; scene.MaxFileBytes, which a test holds it to

/** The document as a file: { name, text }, or { error }. */
export function currentFile() {
  return send({ do: Do.save });
}

/** The document with its steps of undo, as they are kept: { name, text, steps }, or { error }. */
export function currentWork() {
  return { ...currentFile(), steps: send({ do: Do.steps }).text };
}

/** Hands the document over as a download. */
export function saveFile() {
  const file = currentFile();
  if (file.error) return file;
  const url = URL.createObjectURL(new Blob([file.text], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = file.name || 'vehicle.json';
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 30000);
  return { text: `Saved as ${link.download}` };
}

/** The forms in which a device may take a scene: as it is, or as plain text. */
function shareable(name, text) {
  const forms = [
    new File([text], name, { type: 'application/json' }),
    new File([text], `${name}.txt`, { type: 'text/plain' }),
  ];
  return forms.find((file) => navigator.canShare?.({ files: [file] })) ?? null;
}

/** Says whether this device can hand files to another program. */
export function canShare() {
  return typeof navigator.share === 'function' && shareable('vehicle.json', '{}') !== null;
}

/** Hands the document to another program of the device. */
export async function shareFile() {
  const file = currentFile();
  if (file.error) return file;
  const form = shareable(file.name || 'vehicle.json', file.text);
  if (!form) return { error: 'This device shares no files from here. Save it instead.' };
  try {
    await navigator.share({ files: [form], title: file.name });
    return {};
  } catch (err) {
    if (err.name === 'AbortError') return {};
    return { error: 'Sharing did not work. Save the file instead.' };
  }
}

let replaced = () => {};

/** Tells when another document took the place of the one that was open. */
export function onReplaced(listener) {
  replaced = listener;
}

/**
 * The command that opens what was kept, with its steps of undo.
 * @param {import('./store.js').Kept} doc
 */
export const opens = ({ text, name, steps }) => ({ do: Do.open, text, name, steps });

/** Opens a document where nothing has to be kept, as at the start. */
export function put(command) {
  const reply = send(command);
  if (!reply.error) replaced();
  return reply;
}

/**
 * Replaces the document; what was open is kept as "before".
 * @param {import('./protocol.js').Command} command
 */
export async function replaceWith(command) {
  const old = currentWork();
  const reply = put(command);
  if (reply.error || old.error || !old.text) return reply;
  try {
    await store.keep('before', old);
  } catch {
    // The banner about keeping says it already; Undo is the other way back.
  }
  return reply;
}

/** Opens a file the user chose or dropped. */
export async function openFile(file) {
  if (file.size > LARGEST) return { error: `${file.name} is larger than a scene file can be (16 MB).` };
  let text;
  try {
    text = await file.text();
  } catch {
    return { error: `${file.name} could not be read.` };
  }
  return replaceWith({ do: Do.open, text, name: file.name });
}

/** The demo vehicle's scene file. */
export async function demoText() {
  const response = await fetch('scenes/bakery-van.json');
  if (!response.ok) throw new Error((await response.text()).trim());
  return response.text();
}

/** Opens the demo vehicle. */
export async function openDemo() {
  try {
    return await replaceWith({ do: Do.open, text: await demoText(), name: 'bakery-van.json' });
  } catch (err) {
    return { error: `The demo vehicle did not arrive: ${err.message}` };
  }
}

/** Opens what was open before the last opening, and swaps the two. */
export async function openBefore() {
  const before = await store.kept('before').catch(() => null);
  if (!before) return { error: 'Nothing was open before.' };
  return replaceWith(opens(before));
}

/** Opens what was let go; what is open is kept as "before", and it is offered no more. */
export async function openGone(key) {
  const doc = await store.kept(key).catch(() => null);
  if (!doc) return { error: 'It is not on this device any more.' };
  const reply = await replaceWith(opens(doc));
  if (!reply.error) await store.forget(key).catch(() => {});
  return reply;
}

/** Takes files dropped anywhere on the page. */
export function takeDrops(opened) {
  const root = document.documentElement;
  root.addEventListener('dragover', (e) => {
    if ([...e.dataTransfer.types].includes('Files')) e.preventDefault();
  });
  root.addEventListener('drop', async (e) => {
    const file = e.dataTransfer.files[0];
    if (!file) return;
    e.preventDefault();
    opened(await openFile(file), file.name);
  });
}
