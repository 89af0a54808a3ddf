// @ts-check
// The page's side of the calculator. One worker answers every page of the site: shared and kept
// alive across page loads where the browser can do that, otherwise one for this page alone.

/**
 * @typedef {{kind: string, message: string, field?: string, low?: number, high?: number,
 *   source?: string}} CallError
 * @typedef {{resolve: (result: any) => void, reject: (error: CallError) => void,
 *   message: {id: number, name: string, payload: unknown}}} Waiting
 * @typedef {{post: (message: object) => void, end: () => void, shared: boolean}} Line
 */

/** @type {ReturnType<typeof openCalculator> | undefined} */
let early;

/** Start loading before anybody has asked; the first `createCalculator` takes it over. */
export function startEarly() {
  early ??= openCalculator({});
}

/**
 * @typedef {{
 *   onProgress?: (text: string, fraction: number) => void,
 *   onReady?: () => void,
 *   onFailure?: (message: string) => void,
 * }} Listener
 * @typedef {{patienceMs?: number, shared?: boolean}} Options
 */

/**
 * @param {Listener & Options} options  `patienceMs`: how long a computation may take before the
 *   worker is restarted; `shared`: whether a worker of all pages may be used
 */
export function createCalculator({onProgress, onReady, onFailure, ...options} = {}) {
  const calculator = early && Object.keys(options).length === 0 ? early : openCalculator(options);
  early = undefined;
  calculator.tell({onProgress, onReady, onFailure});
  return calculator;
}

const SHARED_ANSWER_MS = 8000;  // a shared worker that has not said "here" by then is not used

/** @param {Options} options */
function openCalculator({patienceMs = 20_000, shared = true}) {
  /** @type {Map<number, Waiting>} */
  const waiting = new Map();
  let lastId = 0, ready = false, failed = '', sharedAllowed = shared;
  /** @type {Listener} */
  let listener = {};
  /** @type {[string, number] | undefined} */
  let progress;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let watchdog;
  /** @type {Line} */
  let line;

  function open() {
    ready = false;
    failed = '';
    const mine = (/** @type {any} */ data) => { if (line === opened) receive(data); };
    const broken = (/** @type {string} */ message) => { if (line === opened) breakDown(message); };
    const silent = () => {
      if (line !== opened) return;
      sharedAllowed = false;
      reopen();
    };
    const opened = (sharedAllowed && openShared(mine, broken, silent)) || openOwn(mine, broken);
    line = opened;
    line.post({start: true});
  }

  /** Start again with a fresh worker, and ask again for what was not answered. */
  function reopen() {
    line.end();
    open();
    for (const {message} of waiting.values()) line.post(message);
  }

  /** @param {any} data */
  function receive(data) {
    if (data.progress) {
      progress = [data.progress, data.fraction];
      return listener.onProgress?.(...progress);
    }
    if (data.failure) return breakDown(data.failure);
    if (data.ready) {
      ready = true;
      watch();
      return listener.onReady?.();
    }
    const call = waiting.get(data.id);
    if (!call) return;
    waiting.delete(data.id);
    watch();
    if (data.crash) return call.reject({kind: 'Crash', message: data.crash});
    const reply = JSON.parse(data.reply);
    if (reply.ok) call.resolve(reply.result);
    else call.reject(reply.error);
  }

  /** @param {string} message */
  function breakDown(message) {
    failed = message;
    ready = false;
    clearTimeout(watchdog);
    rejectAll({kind: 'NotLoaded', message});
    listener.onFailure?.(message);
  }

  /** @param {CallError} error */
  function rejectAll(error) {
    const calls = [...waiting.values()];
    waiting.clear();
    for (const {reject} of calls) reject(error);
  }

  function watch() {
    clearTimeout(watchdog);
    if (ready && waiting.size) watchdog = setTimeout(giveUp, patienceMs);
  }

  function giveUp() {
    const seconds = Math.round(patienceMs / 1000);
    rejectAll({kind: 'TookTooLong', message: `this took longer than ${seconds} s and was stopped`});
    sharedAllowed = false;  // a shared worker cannot be ended from a page: leave it, use our own
    reopen();
  }

  open();
  return {
    /**
     * Say how far loading is, now and from now on.
     * @param {Listener} given
     */
    tell(given) {
      listener = given;
      if (failed) listener.onFailure?.(failed);
      else if (ready) listener.onReady?.();
      else if (progress) listener.onProgress?.(...progress);
    },
    /**
     * @param {string} name
     * @param {unknown} [payload]
     * @returns {Promise<any>}  rejects with a CallError
     */
    call(name, payload = {}) {
      return new Promise((resolve, reject) => {
        if (failed) return reject({kind: 'NotLoaded', message: failed});
        const message = {id: ++lastId, name, payload};
        waiting.set(lastId, {resolve, reject, message});
        line.post(message);
        if (waiting.size === 1) watch();
      });
    },
    /** End the worker and start a new one; unanswered calls are rejected. */
    restart() {
      rejectAll({kind: 'Restarted', message: 'the calculator was restarted'});
      sharedAllowed = false;
      reopen();
    },
    get ready() { return ready; },
    get shared() { return line.shared; },
  };
}

const workerUrl = () => new URL('./worker.js', import.meta.url);

/**
 * @param {(data: any) => void} receive
 * @param {(message: string) => void} broken
 * @returns {Line}
 */
function openOwn(receive, broken) {
  const worker = new Worker(workerUrl(), {type: 'module', name: 'slipfit'});
  worker.onmessage = ({data}) => receive(data);
  worker.onerror = event => {
    event.preventDefault();
    broken(event.message || 'the calculator could not be started');
  };
  return {post: message => worker.postMessage(message), end: () => worker.terminate(), shared: false};
}

/**
 * @param {(data: any) => void} receive
 * @param {(message: string) => void} broken
 * @param {() => void} silent  called when the worker does not answer at all
 * @returns {Line | undefined}  nothing where the browser cannot keep a shared worker alive
 */
function openShared(receive, broken, silent) {
  if (!('SharedWorker' in globalThis)) return undefined;
  let kept = false;
  const options = {
    type: 'module', name: 'slipfit',
    get extendedLifetime() { return kept = true; },  // read only by browsers that know it
  };
  /** @type {SharedWorker} */
  let worker;
  try {
    worker = new SharedWorker(workerUrl(), /** @type {any} */ (options));
  } catch {
    return undefined;
  }
  if (!kept) {
    worker.port.close();
    return undefined;
  }
  const timer = setTimeout(silent, SHARED_ANSWER_MS);
  worker.onerror = event => {
    event.preventDefault();
    clearTimeout(timer);
    broken('the calculator could not be started');
  };
  worker.port.onmessage = ({data}) => {
    if (data.here) clearTimeout(timer);
    else receive(data);
  };
  return {post: message => worker.port.postMessage(message), end: () => worker.port.close(), shared: true};
}
