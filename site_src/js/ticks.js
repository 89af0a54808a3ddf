// @ts-check
// What a reader ticks off and writes down: kept on this device, for each build by itself. A build is
// known by the link of its parts, so another day or another camera angle keeps the ticks.

const MOST_BUILDS = 24;  // of one frame; the one touched longest ago is forgotten

/** @typedef {Record<string, string>} Kept  what was ticked ("yes") or written, by its name */

let frame = '', build = '';
/** @type {Map<string, Kept>}  by build, the latest last */
let builds = new Map();

/** @param {string} of */
const storeName = of => `slipfit kept ${of}`;

/** @param {string} of  @returns {Map<string, Kept>} */
function read(of) {
  try {
    const pairs = JSON.parse(localStorage.getItem(storeName(of)) ?? '[]');
    return new Map(pairs.filter((/** @type {any} */ pair) =>
      Array.isArray(pair) && typeof pair[0] === 'string' && pair[1] && typeof pair[1] === 'object'));
  } catch {
    return new Map();  // storage refused, or not ours: nothing is remembered, nothing breaks
  }
}

function write() {
  while (builds.size > MOST_BUILDS) builds.delete(builds.keys().next().value ?? '');
  try {
    localStorage.setItem(storeName(frame), JSON.stringify([...builds]));
  } catch {
    // storage refused or full
  }
}

/**
 * Show what was kept for a build.
 * @param {string} ofFrame
 * @param {string} ofBuild  link of its parts
 */
export function showKept(ofFrame, ofBuild) {
  if (ofFrame !== frame) builds = read(ofFrame);
  [frame, build] = [ofFrame, ofBuild];
  fillIn();
}

function fillIn() {
  const kept = builds.get(build) ?? {};
  for (const box of document.querySelectorAll('[data-tick]')) {
    if (box instanceof HTMLInputElement) box.checked = kept[box.dataset.tick ?? ''] === 'yes';
  }
  for (const field of document.querySelectorAll('[data-keep]')) {
    if (field instanceof HTMLInputElement && field !== document.activeElement) {
      field.value = String(kept[field.dataset.keep ?? ''] ?? '').slice(0, 80);
    }
  }
  count();
}

/** How many of the steps that are shown are done. */
function count() {
  for (const box of document.querySelectorAll('[data-steps]')) {
    const steps = [...box.querySelectorAll('[data-tick]')].filter(step => !step.closest('[hidden]'));
    const done = steps.filter(step => step instanceof HTMLInputElement && step.checked).length;
    const output = box.querySelector('[data-done]');
    const words = done === 0 ? `${steps.length} steps` : `${done} of ${steps.length} done`;
    if (output && output.textContent !== words) output.textContent = words;
    box.querySelector('[data-clear-ticks]')?.toggleAttribute('hidden', done === 0);
  }
}

/**
 * @param {string} name
 * @param {string} value  empty to forget it
 */
function keep(name, value) {
  if (!frame || !build) return;
  const kept = {...builds.get(build)};
  if (value) kept[name] = value;
  else delete kept[name];
  builds.delete(build);
  if (Object.keys(kept).length) builds.set(build, kept);
  write();
}

/** @param {Element} button */
export function clearTicks(button) {
  for (const box of button.closest('[data-steps]')?.querySelectorAll('[data-tick]') ?? []) {
    if (box instanceof HTMLInputElement && box.checked) {
      box.checked = false;
      keep(box.dataset.tick ?? '', '');
    }
  }
  count();
}

document.addEventListener('change', event => {
  const field = event.target;
  if (!(field instanceof HTMLInputElement)) return;
  if (field.dataset.tick !== undefined) {
    keep(field.dataset.tick, field.checked ? 'yes' : '');
    count();
  } else if (field.dataset.keep !== undefined) {
    keep(field.dataset.keep, field.value.trim());
  }
});
document.addEventListener('slipfit:placed', fillIn);
document.addEventListener('slipfit:passages', count);
