// @ts-check
// A line to the calculator's worker. This file also stands, as it is, at the top of each page of a
// frame (with one more line, see `assets.py`), so that the calculator loads while the page is still
// being read: it imports nothing.

/**
 * @typedef {(data: any) => void} Receive
 * @typedef {{
 *   shared: boolean,
 *   post: (message: object) => void,
 *   listen: (receive: Receive) => void,   what came before is received at once
 *   end: () => void,
 * }} Line
 */

/**
 * One worker answers every page of the site: shared and kept alive across page loads where the
 * browser can do that and `mayShare` allows it, otherwise one for this page alone. It is told to
 * start. A worker that cannot be started sends `{failure}`.
 * @param {string | URL} url
 * @param {boolean} mayShare
 * @returns {Line}
 */
export function openLine(url, mayShare) {
  /** @type {Receive} */
  let receive = data => held.push(data);
  /** @type {any[]} */
  const held = [];
  const shared = mayShare ? sharedWorker(url) : undefined;
  const own = shared ? undefined : new Worker(url, {type: 'module', name: 'slipfit'});
  const worker = /** @type {Worker | SharedWorker} */ (shared ?? own);
  const port = /** @type {Worker | MessagePort} */ (shared?.port ?? own);
  worker.onerror = event => {
    event.preventDefault();
    receive({failure: /** @type {any} */ (event).message || 'the calculator could not be started'});
  };
  port.onmessage = (/** @type {any} */ {data}) => receive(data);
  port.postMessage({start: true});
  return {
    shared: Boolean(shared),
    post: message => port.postMessage(message),
    listen(given) {
      receive = given;
      for (const data of held.splice(0)) receive(data);
    },
    end: () => shared ? shared.port.close() : own?.terminate(),
  };
}

/**
 * @param {string | URL} url
 * @returns {SharedWorker | undefined}  nothing where the browser cannot keep a shared worker alive
 */
function sharedWorker(url) {
  if (!('SharedWorker' in globalThis)) return undefined;
  let kept = false;
  const options = {
    type: 'module', name: 'slipfit',
    get extendedLifetime() { return kept = true; },  // read only by browsers that know it
  };
  try {
    const worker = new SharedWorker(url, /** @type {any} */ (options));
    if (kept) return worker;
    worker.port.close();
  } catch {
    // as if there were none
  }
  return undefined;
}
