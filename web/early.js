// Asks for what the sketcher takes longest to start from before anything else of
// the page is there: it is compiled while the page's own modules still arrive.

async function fetchBytes(path) {
  const response = await fetch(path);
  if (!response.ok) throw new Error(`${path}: ${await response.text()}`);
  return new Uint8Array(await response.arrayBuffer());
}

async function compile() {
  if (typeof WebAssembly !== 'object') return null; // host.js says so in plain words
  const response = await fetch('app.wasm');
  if (!response.ok) throw new Error((await response.text()).trim());
  // Some hosts of plain files send it under another type, which streaming refuses.
  if (!/^application\/wasm\b/.test(response.headers.get('Content-Type') ?? '')) {
    return WebAssembly.compile(await response.arrayBuffer());
  }
  return WebAssembly.compileStreaming(response);
}

/** The compiled sketcher, and the two faces' bytes. */
export const early = Promise.all([
  compile(), fetchBytes('fonts/B612-Regular.otf'), fetchBytes('fonts/B612-Bold.otf'),
]);
early.catch(() => {}); // what went wrong is told where it is waited for
