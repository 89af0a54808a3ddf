// @ts-check
// The calculator's worker, started as a module: dedicated to one page, or shared by all pages of
// this site. It boots at the first "start" and then answers {id, name, payload} with {id, reply}.
import {assets} from './assets.js';
import {boot} from './boot.js';

/** @typedef {{postMessage: (message: object) => void}} Port */

/** @type {Set<Port>} */
const listeners = new Set();
/** @type {Promise<(name: string, json: string) => string> | undefined} */
let core;
/** @type {object | undefined} */
let latest;

/** @param {object} message */
function tellAll(message) {
  latest = message;
  for (const port of listeners) port.postMessage(message);
}

function start() {
  core ??= boot(assets, import.meta.url, (progress, fraction) => tellAll({progress, fraction}));
  core.then(() => tellAll({ready: true}), error => {
    core = undefined;  // the next page that connects tries again
    tellAll({failure: lastLine(String(error?.message ?? error))});
  });
}

/** @param {string} text  the last line of a traceback says what went wrong */
const lastLine = text => text.trimEnd().split('\n').pop() ?? text;

/**
 * @param {Port} port
 * @param {{start?: true, id?: number, name?: string, payload?: unknown}} message
 */
async function receive(port, message) {
  if (message.start) {
    listeners.add(port);
    port.postMessage({here: true});
    if (core) {
      if (latest) port.postMessage(latest);
    } else {
      start();
    }
    return;
  }
  const {id, name, payload} = message;
  try {
    if (!core) start();
    const call = await /** @type {NonNullable<typeof core>} */ (core);
    port.postMessage({id, reply: call(String(name), JSON.stringify(payload ?? {}))});
  } catch (error) {
    port.postMessage({id, crash: lastLine(String(/** @type {any} */ (error)?.message ?? error))});
  }
}

const scope = /** @type {any} */ (globalThis);
if ('onconnect' in scope) {
  scope.onconnect = (/** @type {any} */ event) => {
    const port = event.ports[0];
    port.onmessage = (/** @type {any} */ {data}) => receive(port, data);
  };
} else {
  scope.onmessage = (/** @type {any} */ {data}) => receive(scope, data);
}
