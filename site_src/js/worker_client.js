// @ts-check
// The page's side of the calculator.
import {openLine} from './line.js';

/**
 * @typedef {{kind: string, message: string, field?: string, low?: number, high?: number,
 *   source?: string}} CallError
 * @typedef {{resolve: (result: any) => void, reject: (error: CallError) => void,
 *   message: {id: number, name: string, payload: unknown}}} Waiting
 */

/**
 * @typedef {{
 *   onProgress?: (text: string, fraction: number) => void,
 *   onReady?: () => void,
 *   onFailure?: (message: string) => void,
 * }} Listener
 * @typedef {{patienceMs?: number, shared?: boolean}} Options
 */

const SHARED_ANSWER_MS = 8000;  // a shared worker that has not said "here" by then is not used
const workerUrl = new URL('./worker.js', import.meta.url);

/**
 * The line that the top of the page has opened, for whoever asks first.
 * @returns {import('./line.js').Line | undefined}
 */
function earlyLine() {
  const page = /** @type {any} */ (globalThis), line = page.slipfitLine;
  page.slipfitLine = false;  // another one is not to be opened
  return line || undefined;
}

/**
 * @param {Listener & Options} options  `patienceMs`: how long a computation may take before the
 *   worker is restarted; `shared`: whether a worker of all pages may be used
 */
export function createCalculator(options = {}) {
  const {onProgress, onReady, onFailure, patienceMs = 20_000, shared = true} = options;
  /** @type {Map<number, Waiting>} */
  const waiting = new Map();
  let lastId = 0, ready = false, failed = '', mayShare = shared;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let watchdog;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let silence;
  /** @type {import('./line.js').Line} */
  let line;

  /** @param {import('./line.js').Line} opened */
  function use(opened) {
    ready = false;
    failed = '';
    line = opened;
    clearTimeout(silence);
    if (line.shared) silence = setTimeout(leave, SHARED_ANSWER_MS);
    line.listen(data => { if (line === opened) receive(data); });
  }

  /** Do without the shared worker. */
  function leave() {
    mayShare = false;
    reopen();
  }

  /** Start again with a fresh worker, and ask again for what was not answered. */
  function reopen() {
    line.end();
    use(openLine(workerUrl, mayShare));
    for (const {message} of waiting.values()) line.post(message);
  }

  /** @param {any} data */
  function receive(data) {
    if (data.here || data.failure) clearTimeout(silence);
    if (data.here) return;
    if (data.progress) return onProgress?.(data.progress, data.fraction);
    if (data.failure) return breakDown(data.failure);
    if (data.ready) {
      ready = true;
      watch();
      return onReady?.();
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
    onFailure?.(message);
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
    leave();  // a shared worker cannot be ended from a page
  }

  use((shared ? earlyLine() : undefined) ?? openLine(workerUrl, mayShare));
  return {
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
      leave();
    },
    get ready() { return ready; },
    get shared() { return line.shared; },
  };
}
