// Photos on their way in: shrunk so that they fit a scene file, and decoded
// once for the sketcher, which reads no pictures itself.

import { h } from './dom.js';

/** A kept picture's longer side, tried in this order until it is small enough. */
const LONGEST = [1600, 1280, 1024, 800];
const QUALITIES = [0.86, 0.76, 0.66];
const MOST = 295000; // bytes; the scene refuses above 300 kB

const toBlob = (canvas, type, quality) => new Promise((done) => canvas.toBlob(done, type, quality));

/** A canvas with a picture on it, its longer side at most so long, on white where it is clear. */
function drawn(bitmap, longest) {
  const f = Math.min(1, longest / Math.max(bitmap.width, bitmap.height));
  const canvas = h('canvas', { width: Math.max(1, Math.round(bitmap.width * f)), height: Math.max(1, Math.round(bitmap.height * f)) });
  const paint = canvas.getContext('2d');
  paint.imageSmoothingQuality = 'high';
  paint.fillStyle = '#fff';
  paint.fillRect(0, 0, canvas.width, canvas.height);
  paint.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  return canvas;
}

/** WebP where the browser writes it, JPEG elsewhere. */
async function packed(canvas, quality) {
  const blob = await toBlob(canvas, 'image/webp', quality);
  return blob?.type === 'image/webp' ? blob : toBlob(canvas, 'image/jpeg', quality);
}

async function base64Of(blob) {
  const bytes = new Uint8Array(await blob.arrayBuffer());
  let text = '';
  for (let i = 0; i < bytes.length; i += 0x8000) text += String.fromCharCode(...bytes.subarray(i, i + 0x8000));
  return btoa(text);
}

/**
 * Makes a picture small enough to be kept.
 * @param {File} file
 * @returns {Promise<{error: string} | {kind: string, base64: string}>}
 */
export async function shrink(file) {
  let bitmap;
  try {
    bitmap = await createImageBitmap(file);
  } catch {
    return { error: `${file.name || 'The picture'} cannot be read as a picture here. JPEG, PNG and WebP can.` };
  }
  for (const longest of LONGEST) {
    const canvas = drawn(bitmap, longest);
    for (const quality of QUALITIES) {
      const blob = await packed(canvas, quality);
      if (blob && blob.size <= MOST) {
        bitmap.close();
        return { kind: blob.type, base64: await base64Of(blob) };
      }
    }
  }
  bitmap.close();
  return { error: `${file.name || 'The picture'} cannot be made small enough to keep (300 kB).` };
}

/** A picture out of its bytes in base64. */
export async function decode(kind, base64) {
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i += 1) bytes[i] = text.charCodeAt(i);
  return createImageBitmap(new Blob([bytes], { type: kind }));
}

/** The document's picture of that key, or null when it has none. */
export async function pictureOf(key) {
  const url = window.scrub?.pictureURL(key) ?? '';
  const [, kind, base64] = /^data:([^;]+);base64,(.*)$/.exec(url) ?? [];
  return base64 ? decode(kind, base64) : null;
}

const under = new Set(); // being decoded
const refused = new Set(); // cannot be decoded: not asked for again

/**
 * Decodes what the sketcher wants and hands it over.
 * @param {import('./protocol.js').PhotoItem[]} photos
 * @param {(error: string) => void} tell
 */
export function bring(photos, tell) {
  for (const p of photos) if (p.wanted && !under.has(p.key) && !refused.has(p.key)) bringOne(p, tell);
}

async function bringOne(p, tell) {
  under.add(p.key);
  try {
    const bitmap = await pictureOf(p.key);
    if (bitmap) {
      const canvas = h('canvas', { width: bitmap.width, height: bitmap.height });
      const paint = canvas.getContext('2d', { willReadFrequently: true });
      paint.drawImage(bitmap, 0, 0);
      bitmap.close();
      const pixels = paint.getImageData(0, 0, canvas.width, canvas.height);
      const error = window.scrub.givePicture(p.key, pixels.width, pixels.height, pixels.data);
      window.scrubPage.wake(200);
      if (error) throw new Error(error);
    }
  } catch (err) {
    refused.add(p.key);
    tell(`The photo ${p.name} cannot be shown: ${err.message || 'its picture cannot be read'}.`);
  }
  under.delete(p.key);
}
