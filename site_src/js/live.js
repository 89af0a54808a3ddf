// @ts-check
// Keeps the places of a page equal to the build: asks without ranges first, then with them, drops
// replies that are no longer wanted, and marks what has changed.
import {conditionsOnPage, showPassages} from './passages.js';
import {place} from './place.js';

/**
 * @typedef {{link: string, slots: Record<string, import('./place.js').Tree>, title?: string,
 *   shown?: Record<string, boolean>, parts?: string,
 *   changes?: Record<string, string>, figures?: Record<string, number | null>,
 *   messages?: string[]}} PageReply
 * @typedef {(name: string, payload: object) => Promise<any>} Call
 */

const MARKED_MS = 2000;
const LATE = new Set(['effects']);  // as in the core

/** Names of the places on this page, each once. */
export function slotsOnPage() {
  const names = [...document.querySelectorAll('[data-slot]')].map(el => el.getAttribute('data-slot'));
  return [...new Set(names)].filter(name => name !== null);
}

/**
 * @param {Call} call
 * @param {(reply: PageReply) => void} onReply  told of each first reply that is placed
 */
export function createLive(call, onReply) {
  let sequence = 0;
  /** @type {Record<string, number | null>} */
  let figures = {};

  return {
    /**
     * Show a build. Resolves when its ranges are there too, or when something newer was asked for.
     * @param {string} link
     * @param {string} system
     * @param {{mark?: boolean}} options  `mark`: show what has changed
     */
    async show(link, system, {mark = false} = {}) {
      const mine = ++sequence, slots = slotsOnPage();
      const conditions = conditionsOnPage();
      const asked = {link, slots, conditions, system, ranges: false, previous: mark ? figures : {}};
      /** @type {PageReply} */
      let first;
      try {
        first = await call('page', asked);
      } catch (error) {
        if (mine !== sequence) return;  // nobody waits for that any more
        throw error;
      }
      if (mine !== sequence) return;
      placeSlots(first.slots);
      showPassages(first.shown);
      figures = first.figures ?? {};
      onReply(first);
      if (mark) markChanges(first.changes ?? {});
      /** @type {PageReply} */
      const second = await call('page', {...asked, link: first.link, ranges: true, previous: {}});
      if (mine !== sequence) return;
      placeSlots(second.slots);
      const late = slots.filter(name => !(name in second.slots));
      if (!late.length) return;
      /** @type {PageReply} */
      const third = await call('page', {link: first.link, slots: late, system, late: true});
      if (mine !== sequence) return;
      placeSlots(third.slots);
    },

    /**
     * The page shows this build already; only learn its figures, so that changes can be told.
     * @param {string} link
     * @param {string} system
     */
    async learn(link, system) {
      const mine = ++sequence;
      /** @type {PageReply} */
      const reply = await call('page', {link, slots: slotsOnPage(), fill: false, system, ranges: false, previous: {}});
      if (mine !== sequence) return;
      figures = reply.figures ?? {};
      onReply(reply);
    },

    /** Forget what is on its way, as when the page has changed. */
    leave() {
      sequence++;
    },
  };
}

/** @param {Record<string, import('./place.js').Tree>} slots */
function placeSlots(slots) {
  for (const element of document.querySelectorAll('[data-slot]')) {
    const name = element.getAttribute('data-slot') ?? '', tree = slots[name];
    if (tree !== undefined) place(element, [tree]);
    // what takes longer than the rest still shows the build before, and looks like it
    element.toggleAttribute('data-late', LATE.has(name) && tree === undefined);
  }
  document.dispatchEvent(new CustomEvent('slipfit:placed'));
}

/** @type {ReturnType<typeof setTimeout> | undefined} */
let fading;

/** @param {Record<string, string>} changes  difference of each figure that changed, in words */
function markChanges(changes) {
  clearTimeout(fading);
  unmark();
  for (const [figure, difference] of Object.entries(changes)) {
    if (!difference) continue;
    for (const place of ['value', 'note']) {
      for (const element of document.querySelectorAll(`[data-slot="${place}:${CSS.escape(figure)}"]`)) {
        element.setAttribute('data-change', difference);
      }
    }
  }
  fading = setTimeout(unmark, MARKED_MS);
}

function unmark() {
  for (const element of document.querySelectorAll('[data-change]')) element.removeAttribute('data-change');
}
