// @ts-check
// Starts Python with numpy and the core inside a worker, from files of this site only.

/** @typedef {import('./assets.js').Assets} Assets */

/**
 * @param {Assets} assets
 * @param {string | URL} base  what the names in `assets` are relative to
 * @param {(text: string, fraction: number) => void} say  progress in words and as a fraction
 * @returns {Promise<(name: string, json: string) => string>}  the core's one entry
 */
export async function boot(assets, base, say) {
  const folder = new URL(assets.runtime, base).href;
  const stop = askEarly([`${folder}pyodide.asm.wasm`, `${folder}stdlib.zip`]);
  const progress = countBytes(assets.sizes, say);
  const zips = Promise.all([
    progress.fetch(`${folder}numpy.zip`),
    progress.fetch(new URL(assets.core, base).href),
  ]);
  zips.catch(() => {});  // awaited at the end, where a failure is reported
  /** @type {any} */
  let python;
  try {
    const [{loadPyodide}] = await Promise.all(
      ['pyodide.mjs', 'pyodide.asm.mjs'].map(name => import(`${folder}${name}`)));
    python = await loadPyodide({
      indexURL: folder,
      stdLibURL: `${folder}stdlib.zip`,
      packageBaseUrl: folder,
      lockFileContents: {info: assets.info, packages: {}},
      fsInit: async (/** @type {any} */ FS, /** @type {{sitePackages: string}} */ {sitePackages}) => {
        for (const zip of await zips.catch(() => [])) unpack(FS, `${sitePackages}/`, zip);
      },
    });
  } finally {
    stop();
  }
  await zips;
  progress.end();
  say('starting the calculator', 0.95);
  return python.pyimport('slipfit_site').call_json;
}

/**
 * Files that the runtime will fetch are asked for before it has itself arrived.
 * @param {string[]} urls
 * @returns {() => void}  to be called when the runtime has them, or never will
 */
function askEarly(urls) {
  const fetch = globalThis.fetch, answers = new Map(urls.map(url => [url, fetch(url)]));
  for (const answer of answers.values()) answer.catch(() => {});  // the runtime will hear of it
  globalThis.fetch = (what, ...rest) => {
    const answer = answers.get(String(what));
    answers.delete(String(what));
    return answer ?? fetch(what, ...rest);
  };
  return () => { globalThis.fetch = fetch; };
}

/**
 * Counts what has arrived. Files that the runtime fetches for itself count when they are complete,
 * because wrapping their answers would lose the browser's cache of compiled code.
 * @param {Record<string, number>} sizes
 * @param {(text: string, fraction: number) => void} say
 */
function countBytes(sizes, say) {
  const total = Object.values(sizes).reduce((sum, size) => sum + size, 0);
  /** @type {Map<string, number>} */
  const arrived = new Map();
  let shown = -1;
  const words = (/** @type {number} */ sum) =>
    `loading the calculator, ${Math.floor(sum / 1e6)} of ${Math.ceil(total / 1e6)} MB`;
  const note = (/** @type {string} */ name, /** @type {number} */ bytes) => {
    if (!(name in sizes)) return;
    arrived.set(name, Math.min(bytes, sizes[name]));
    const sum = [...arrived.values()].reduce((a, b) => a + b, 0);
    if (Math.floor(sum / 1e6) === shown) return;
    shown = Math.floor(sum / 1e6);
    say(words(sum), 0.9 * sum / total);
  };
  say(words(0), 0);
  const fileName = (/** @type {string} */ url) => url.slice(url.lastIndexOf('/') + 1);
  const observer = new PerformanceObserver(list => {
    for (const {name} of list.getEntries()) note(fileName(name), Infinity);
  });
  observer.observe({type: 'resource', buffered: true});
  return {
    end: () => observer.disconnect(),
    /** @param {string} url */
    async fetch(url) {
      const answer = await fetch(url);
      if (!answer.ok || !answer.body) throw Error(`${fileName(url)} could not be loaded (HTTP ${answer.status})`);
      const bytes = new Uint8Array(sizes[fileName(url)]);
      const reader = answer.body.getReader();
      let at = 0;
      for (;;) {
        const {done, value} = await reader.read();
        if (done) break;
        if (at + value.length > bytes.length) throw Error(`${fileName(url)} is longer than it should be`);
        bytes.set(value, at);
        note(fileName(url), at += value.length);
      }
      if (at !== bytes.length) throw Error(`${fileName(url)} arrived incomplete`);
      return bytes;
    },
  };
}

/**
 * Writes the files of an uncompressed zip into the runtime's file system, without copying them.
 * @param {any} FS
 * @param {string} root
 * @param {Uint8Array} zip
 */
function unpack(FS, root, zip) {
  const made = new Set();
  for (const [name, bytes] of storedFiles(zip)) {
    const target = root + name, folder = target.slice(0, target.lastIndexOf('/'));
    if (!made.has(folder)) {
      FS.mkdirTree(folder);
      made.add(folder);
    }
    FS.writeFile(target, bytes, {canOwn: true});
  }
}

/**
 * The files of an uncompressed zip, by its central directory.
 * @param {Uint8Array} zip
 * @returns {Generator<[string, Uint8Array]>}
 */
function* storedFiles(zip) {
  const view = new DataView(zip.buffer, zip.byteOffset, zip.byteLength), text = new TextDecoder();
  let end = zip.length - 22;
  while (end >= 0 && view.getUint32(end, true) !== 0x06054b50) end--;
  if (end < 0) throw Error('a file of the calculator is not a zip');
  let at = view.getUint32(end + 16, true);
  for (let count = view.getUint16(end + 10, true); count > 0; count--) {
    const method = view.getUint16(at + 10, true), size = view.getUint32(at + 20, true);
    const nameLength = view.getUint16(at + 28, true);
    const more = view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
    const head = view.getUint32(at + 42, true);
    const name = text.decode(zip.subarray(at + 46, at + 46 + nameLength));
    if (method !== 0) throw Error(`${name} is compressed`);
    const start = head + 30 + view.getUint16(head + 26, true) + view.getUint16(head + 28, true);
    if (!name.endsWith('/')) yield [name, zip.subarray(start, start + size)];
    at += 46 + nameLength + more;
  }
}
