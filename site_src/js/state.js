// @ts-check
// The build: in the address bar at every moment, remembered for each frame on this device, carried
// along every link between the pages of a frame. Fragments that do not start like `#b1;` are
// headings and none of our business.

const OURS = /^#b\d+;/;
const LONGEST = 8000;  // characters of a link worth reading; the core refuses far shorter ones

/** @type {Map<string, string>} */
const session = new Map();

/** @param {string} fragment */
export const isBuildLink = fragment => OURS.test(fragment);

/** @param {string} link  the frame that a link is for */
export const frameOfLink = link => link.split(';')[1] ?? '';

/** @param {string} key */
function remembered(key) {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;  // storage refused: nothing is remembered, nothing breaks
  }
}

/**
 * @param {string} key
 * @param {string | null} value
 */
function remember(key, value) {
  try {
    if (value === null) localStorage.removeItem(key);
    else localStorage.setItem(key, value);
  } catch {
    // storage refused or full
  }
}

/**
 * The build to show on a page of a frame: that of the address bar, else the one last seen.
 * @param {string} frame
 * @param {string} standard  link of the build that the frame ships with
 * @returns {string}
 */
export function currentLink(frame, standard) {
  const fragment = location.hash.slice(0, LONGEST);
  if (isBuildLink(fragment)) return fragment;
  return session.get(frame) ?? remembered(`slipfit build ${frame}`) ?? standard;
}

/**
 * Keep a build as the one of its frame, and show it in the address bar.
 * @param {string} frame
 * @param {string} link
 * @param {string} standard
 * @param {'push' | 'replace'} how  a new entry of the history, or this one
 */
export function keepLink(frame, link, standard, how) {
  session.set(frame, link);
  remember(`slipfit build ${frame}`, link === standard ? null : link);
  const fragment = location.hash;
  if (fragment !== link) {
    if (how === 'push') {
      // The theme expects the scroll position in the history's state.
      history.pushState({x: scrollX, y: scrollY}, '', link);
    } else {
      history.replaceState(history.state, '', link);
    }
  }
  carryAlong(frame, link);
}

/**
 * Links to the frame's other pages carry the build, so that they can be opened in a new tab.
 * @param {string} frame
 * @param {string} link
 */
function carryAlong(frame, link) {
  const root = frameRoot(frame);
  if (!root) return;
  for (const anchor of document.querySelectorAll('a[href]')) {
    if (!(anchor instanceof HTMLAnchorElement) || anchor.origin !== location.origin) continue;
    if (!anchor.pathname.startsWith(root) || (anchor.hash && !isBuildLink(anchor.hash))) continue;
    if (anchor.hash !== link) anchor.hash = link;
  }
}

/** @param {string} frame  path of the folder that holds the frame's pages */
function frameRoot(frame) {
  const folder = `/frames/${frame}/`, at = location.pathname.indexOf(folder);
  return at < 0 ? '' : location.pathname.slice(0, at + folder.length);
}

/** @returns {'metric' | 'imperial'} */
export const unitSystem = () =>
  (chosen ?? remembered('slipfit units')) === 'imperial' ? 'imperial' : 'metric';

/** @type {'metric' | 'imperial' | null} */
let chosen = null;

/** @param {'metric' | 'imperial'} system */
export function chooseUnits(system) {
  chosen = system;
  remember('slipfit units', system);
}
