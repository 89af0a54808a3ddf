// @ts-check
// Keeps the places of a page equal to the build: those that the reader sees first, then the others,
// then the ranges of all. Drops replies that are no longer wanted, and marks what has changed.
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
const SUMMARY = ['short', 'shelf'];

/**
 * Names of the places on this page, each once: all, those that say it in short or lie within half a
 * screen of what is seen, and the others.
 */
function slotsInOrder() {
  const half = innerHeight / 2;
  /** @type {Map<string, boolean>} */
  const names = new Map();
  for (const element of document.querySelectorAll('[data-slot]')) {
    const name = element.getAttribute('data-slot') ?? '';
    const {top, bottom, width, height} = element.getBoundingClientRect();
    const near = width + height > 0 && bottom > -half && top < innerHeight + half;
    names.set(name, near || SUMMARY.includes(name) || Boolean(names.get(name)));
  }
  const slots = [...names.keys()];
  return {
    slots,
    inSight: slots.filter(name => names.get(name)),
    rest: slots.filter(name => !names.get(name)),
  };
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
      const mine = ++sequence;
      const {slots, inSight, rest} = slotsInOrder();
      const asked = {link, system, ranges: false, previous: mark ? figures : {}};
      let changes = {};
      /** @param {object} more  @returns {Promise<PageReply | undefined>}  nothing when overtaken */
      const ask = async more => {
        try {
          const reply = await call('page', {...asked, ...more});
          return mine === sequence ? reply : undefined;
        } catch (error) {
          if (mine !== sequence) return undefined;  // nobody waits for that any more
          throw error;
        }
      };
      /** @param {PageReply} reply */
      const take = reply => {
        placeSlots(reply.slots);
        figures = {...figures, ...reply.figures};
        changes = {...changes, ...reply.changes};
        if (mark) markChanges(changes);
      };

      const first = await ask({slots: inSight});
      if (!first) return;
      markLate();
      take(first);
      onReply(first);
      asked.link = first.link;
      const second = await ask({slots: rest, conditions: conditionsOnPage()});
      if (!second) return;
      take(second);
      showPassages(second.shown);  // not before: a passage must not appear with another build's numbers
      let late = slots;
      for (const some of [inSight, rest]) {
        const ranged = await ask({slots: some, ranges: true, previous: {}});
        if (!ranged) return;
        placeSlots(ranged.slots);
        late = late.filter(name => !(name in ranged.slots));
      }
      if (!late.length) return;
      const last = await ask({slots: late, late: true, previous: {}});
      if (last) placeSlots(last.slots);
    },

    /**
     * The page shows this build already; only learn its figures, so that changes can be told.
     * @param {string} link
     * @param {string} system
     */
    async learn(link, system) {
      const mine = ++sequence;
      const {inSight, rest} = slotsInOrder();
      figures = {};
      for (const some of [inSight, rest]) {
        /** @type {PageReply} */
        const reply = await call('page', {link, slots: some, fill: false, system, ranges: false, previous: {}});
        if (mine !== sequence) return;
        figures = {...figures, ...reply.figures};
        if (some === inSight) onReply(reply);
      }
    },

    /** Forget what is on its way, as when the page has changed. */
    leave() {
      sequence++;
    },
  };
}

/** Until their turn comes, places show the build before, and look like it. */
function markLate() {
  for (const element of document.querySelectorAll('[data-slot]')) element.setAttribute('data-late', '');
}

/** @param {Record<string, import('./place.js').Tree>} slots */
function placeSlots(slots) {
  for (const element of document.querySelectorAll('[data-slot]')) {
    const tree = slots[element.getAttribute('data-slot') ?? ''];
    if (tree === undefined) continue;
    place(element, [tree]);
    element.removeAttribute('data-late');
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
