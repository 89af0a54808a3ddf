// @ts-check
// The page's own script: mounts on every page (the theme may change pages without loading them
// anew), listens once for everything a reader can press, and keeps page, build and address together.
import {readChart, readChartAt, readCharts, saveCsv} from './chart_cursor.js';
import {copyLink} from './copy_link.js';
import {changeChoice, choiceUnder, closeDialog, filterChoices, focusFirstError, openDialog, sayInDialog,
  typedIn} from './dialogs.js';
import {keepForTheField, sayKept} from './field.js';
import {createLive} from './live.js';
import {keepOwn, ownPresses, ownTexts} from './own_parts.js';
import {place} from './place.js';
import {moveStage, showStages} from './stages.js';
import {chooseUnits, currentLink, frameOfLink, isBuildLink, keepLink, unitSystem} from './state.js';
import {clearTicks, showKept} from './ticks.js';
import {createCalculator} from './worker_client.js';

const WIDE = matchMedia('(min-width: 76.25em)');  // as in the style sheet: the shelf is a column
const PATIENCE_MS = 250;  // then a dialog says that something is coming
const THERE = 'Open it on the page of that frame.';
const SETTLE_MS = 400;  // the browser and the theme scroll to a heading first

/** @type {ReturnType<typeof createCalculator> | undefined} */
let calculator;
/**
 * The frame of this page: the link of the build it ships with, of the build shown ('' until it has
 * been computed here), and of the build last asked for; and the page's own path.
 * @type {{frame: string, standard: string, link: string, wanted: string, path: string} | null}
 */
let here = null;
let loading = '', failure = '', notice = '';
let stray = '';  // a link for another frame that was opened here

const live = createLive(call, reply => {
  if (!here) return;
  here.link = here.wanted = reply.link;
  showKept(here.frame, reply.parts ?? reply.link);
  keepLink(here.frame, reply.link, here.standard, nextEntry);
  nextEntry = 'replace';
  notice = (reply.messages ?? []).join(' ');
  document.documentElement.dataset.live = 'yes';
  performance.mark('slipfit-live');
  sayWords();
  keepForTheField();
});
/** @type {'push' | 'replace'} */
let nextEntry = 'replace';

/**
 * @param {string} name
 * @param {object} payload
 */
function call(name, payload) {
  calculator ??= createCalculator({
    onProgress: text => { loading = text; sayWords(); },
    onReady: () => { loading = failure = ''; sayWords(); },
    onFailure: message => { failure = message; sayWords(); },
  });
  return calculator.call(name, {frame: here?.frame, ...payload});
}

/**
 * What a call is told of the page as it is now.
 * @param {object} payload
 */
const asNow = payload => ({link: here?.wanted, system: unitSystem(), ...payload});

// --- the line under the masthead -------------------------------------------------------------

function sayWords() {
  const strip = document.getElementById('sf-strip'), line = document.getElementById('sf-words');
  if (!strip || !line) return;
  strip.hidden = !here;
  let words = '';
  if (!here) words = '';
  else if (failure) words = `The calculator could not be loaded (${failure}). The figures shown are for the default build.`;
  else if (notice || stray) words = notice || notForThisFrame(stray);
  else if (loading) words = `${loading.charAt(0).toUpperCase()}${loading.slice(1)}`;
  else if ((here.link || here.standard) === here.standard) words = 'Shown with the parts that the frame ships with.';
  else words = 'Shown with your parts. The address of this page carries them.';
  const way = here && !failure && stray ? wayTo(stray) : undefined;
  const whole = way ? `${words} ${THERE}` : words;
  if (line.textContent !== whole || line.querySelector('a')?.href !== way) {
    line.replaceChildren(words, ...(way ? [' ', wayThere(way)] : []));
  }
  line.classList.toggle('sf-words-wrong', Boolean(failure || notice || stray));
  for (const button of document.querySelectorAll('[data-default-build]')) {
    button.toggleAttribute('hidden', !here || (here.link || here.standard) === here.standard);
  }
  for (const button of document.querySelectorAll('[data-units]')) {
    button.textContent = unitSystem() === 'metric' ? 'Imperial units' : 'Metric units';
  }
}

/** @param {string} link  for another frame than this page's */
const notForThisFrame = link =>
  `That link is for the frame '${frameOfLink(link).slice(0, 40)}', not for this one.`;

/**
 * The address of a link on the page of its own frame, where the site's contents list that frame.
 * @param {string} link
 */
function wayTo(link) {
  const frame = frameOfLink(link);
  if (!/^[a-z0-9-]+$/.test(frame)) return undefined;
  for (const anchor of document.querySelectorAll('.sf-contents a[href]')) {
    if (!(anchor instanceof HTMLAnchorElement)) continue;
    if (!anchor.pathname.endsWith(`/frames/${frame}/`)) continue;
    const address = new URL(anchor.href);
    address.hash = link;
    return address.href;
  }
  return undefined;
}

/** @param {string} address */
function wayThere(address) {
  const anchor = document.createElement('a');
  anchor.href = address;
  anchor.textContent = THERE;
  return anchor;
}

// --- showing builds ----------------------------------------------------------------------------

/**
 * @param {string} link
 * @param {{mark?: boolean, entry?: 'push' | 'replace'}} options
 */
async function show(link, {mark = false, entry = 'replace'} = {}) {
  if (!here) return;
  if (entry === 'push') {
    nextEntry = 'push';  // also if what follows overtakes it
    stray = '';
  }
  const page = here;
  page.wanted = link;
  try {
    await live.show(link, unitSystem(), {mark});
  } catch (error) {
    if (here !== page) return;
    fault(error);
    const {kind, message} = /** @type {import('./worker_client.js').CallError} */ (error);
    if (kind === 'NotLoaded' || kind === 'Restarted') return;
    if (page.link) {
      page.wanted = page.link;
      keepLink(page.frame, page.link, page.standard, 'replace');  // what is shown after all
    } else if (link !== page.standard) {
      await showDefaultBecause(message);
    }
  }
}

/** @param {unknown} error  of a call that nobody pressed a button for */
function fault(error) {
  const {kind, message} = /** @type {import('./worker_client.js').CallError} */ (error);
  if (kind === 'NotLoaded' || kind === 'Restarted') return;
  notice = lastLine(message);
  sayWords();
}

/** @param {string} text  the last line of a traceback says what went wrong */
const lastLine = text => String(text).trimEnd().split('\n').pop() ?? '';

/** @param {string} reason  why the link that was asked for is not shown */
async function showDefaultBecause(reason) {
  if (!here) return;
  here.wanted = here.standard;
  await live.show(here.standard, unitSystem()).catch(() => {});
  notice = `${reason} Shown instead: the parts that this frame ships with.`;
  sayWords();
}

function mount() {
  live.leave();
  closeDialog();
  for (const contents of document.querySelectorAll('.sf-contents[open]')) contents.removeAttribute('open');
  markCurrentPage();
  sayKept();
  setTimeout(reachWideTables, SETTLE_MS);
  document.documentElement.classList.add('sf-live');
  const page = document.querySelector('[data-frame]');
  if (!(page instanceof HTMLElement)) {
    here = null;
    sayWords();
    return;
  }
  const frame = page.dataset.frame ?? '', standard = page.dataset.link ?? '';
  if (here?.path !== location.pathname) stray = '';  // else the theme shows the same page again
  here = {frame, standard, link: '', wanted: standard, path: location.pathname};
  nextEntry = 'replace';
  notice = '';
  openShelfWhereItIsAColumn();
  makeValuesPressable();
  readCharts();
  const arrivedWithBuild = isBuildLink(location.hash);
  if (arrivedWithBuild && history.state === null && mounted) scrollTo(0, 0);
  mounted = true;
  const heading = location.hash && !arrivedWithBuild;
  const link = currentLink(frame, standard);
  if (link === standard) showKept(frame, standard);
  sayWords();
  const start = () => {
    if (here?.frame !== frame) return;
    if (frameOfLink(link) !== frame) {
      stray = link;
      showDefaultBecause(notForThisFrame(link));
      return;
    }
    here.wanted = link;
    if (link === standard && unitSystem() === 'metric') {
      live.learn(link, unitSystem()).catch(fault);
    } else {
      show(link);
    }
  };
  if (heading) setTimeout(start, SETTLE_MS);
  else start();
}
let mounted = false;

/** Tables that the theme lets scroll sideways can then be scrolled by keyboard too. */
function reachWideTables() {
  for (const box of document.querySelectorAll('.md-typeset__scrollwrap')) {
    if (box.scrollWidth <= box.clientWidth) continue;
    box.setAttribute('tabindex', '0');
    box.setAttribute('role', 'group');
    box.setAttribute('aria-label', 'Table');
  }
}

function markCurrentPage() {
  for (const anchor of document.querySelectorAll('.sf-contents a[href]')) {
    if (!(anchor instanceof HTMLAnchorElement)) continue;
    if (anchor.pathname === location.pathname) anchor.setAttribute('aria-current', 'page');
    else anchor.removeAttribute('aria-current');
  }
}

function openShelfWhereItIsAColumn() {
  for (const shelf of document.querySelectorAll('.sf-shelf')) shelf.toggleAttribute('open', WIDE.matches);
}
WIDE.addEventListener('change', openShelfWhereItIsAColumn);

/** Figures inside sentences open their explanation too. */
function makeValuesPressable() {
  for (const element of document.querySelectorAll('[data-slot^="value:"]')) {
    if (!element.querySelector('[data-figure]')) continue;  // a part's own number has no story
    element.setAttribute('role', 'button');
    element.setAttribute('tabindex', '0');
    element.setAttribute('aria-haspopup', 'dialog');
  }
}

// --- what a reader can press --------------------------------------------------------------------

let opening = 0;  // what was opened last is the only thing waited for, unless it was closed again
document.addEventListener('close', () => { opening++; }, {capture: true});

/**
 * Ask the core and open its answer, or say what went wrong.
 * @param {string} title
 * @param {string} name
 * @param {object} payload
 * @returns {Promise<any>}  the answer, if it was opened
 */
async function openAnswer(title, name, payload) {
  const asked = asNow(payload);
  const mine = ++opening;
  const patience = setTimeout(() => sayInDialog(title, loading
    ? 'One moment: the calculator is still being loaded.'
    : 'One moment: this is being computed for your build.'), PATIENCE_MS);
  try {
    const answer = await call(name, asked);
    clearTimeout(patience);
    if (mine !== opening) return undefined;
    openDialog(answer.tree);
    return answer;
  } catch (error) {
    clearTimeout(patience);
    if (mine === opening) sayInDialog(title, sentence(error));
    return undefined;
  }
}

/** @param {unknown} error */
const sentence = error => lastLine(/** @type {{message?: string}} */ (error)?.message ?? String(error));

/**
 * @param {string} name
 * @param {object} payload
 */
async function changeBuild(name, payload) {
  const asked = asNow(payload);
  try {
    const answer = await call(name, asked);
    if (answer.kept) keepOwn([answer.kept]);
    if (answer.link) {
      closeDialog();
      await show(answer.link, {mark: true, entry: 'push'});
    }
    return answer;
  } catch (error) {
    sayInDialog('This did not work', sentence(error));
    return {};
  }
}

/** @type {Record<string, (element: HTMLElement) => unknown>} */
const PRESSED = {
  'data-explain': element => explain(element.dataset.explain ?? ''),
  'data-open-choices': element => openChoices(element.dataset.openChoices ?? ''),
  'data-swap-part': element =>
    changeBuild('swap', {kind: element.dataset.swapKind, part: element.dataset.swapPart}),
  'data-own-kind': element => openAnswer('Your own part', 'own_form', {kind: element.dataset.ownKind}),
  'data-own-again': element => {
    const form = element.closest('form');
    if (form) openOwn({kind: element.dataset.ownAgain, fields: typedIn(form)});
  },
  'data-csv': saveCsv,
  'data-clear-ticks': clearTicks,
  'data-print': () => print(),
  ...ownPresses({call, changeBuild, swapAgain: openChoices}),
  'data-units': () => {
    chooseUnits(unitSystem() === 'metric' ? 'imperial' : 'metric');
    sayWords();
    if (here) show(here.wanted);
  },
  'data-default-build': () => { if (here) show(here.standard, {mark: true, entry: 'push'}); },
  'data-search': () => document.getElementById('__search')?.click(),  // the theme does the rest
  'data-copy-link': element => { if (here) copyLink(element, here.wanted); },
};

/**
 * The list opens at once; where judging takes long, each part is judged in its place, and next the
 * one that a reader points at, so that it is ready when it is chosen.
 * @param {string} kind  hoisted: the table above names it
 */
async function openChoices(kind) {
  const asked = asNow({kind, own: ownTexts()});
  const answer = await openAnswer('Swap', 'choices', {...asked, staged: true});
  if (!answer) return;
  const mine = opening, rest = [...answer.rest], end = new AbortController();
  for (const pointed of ['pointerover', 'focusin']) {
    document.addEventListener(pointed, event => {
      const at = rest.indexOf(choiceUnder(event.target));
      if (at > 0) rest.unshift(...rest.splice(at, 1));
    }, {signal: end.signal});
  }
  while (rest.length && mine === opening) {
    const key = rest.shift();
    const judged = await call('judged_choice', {...asked, key}).catch(() => undefined);
    if (judged && mine === opening) changeChoice(key, judged.tree);
  }
  end.abort();
  if (mine === opening) document.querySelector('[data-until-judged]')?.remove();
}

/** @param {string} figure */
const explain = figure => openAnswer('How this came about', 'explain', {figure});

/** @param {object} payload */
async function openOwn(payload) {
  try {
    const {tree} = await call('own_form', asNow(payload));
    openDialog(tree, {fresh: false});
  } catch (error) {
    sayInDialog('Your own part', sentence(error));
  }
}

document.addEventListener('click', event => {
  const target = event.target;
  if (!(target instanceof Element)) return;
  for (const [attribute, act] of Object.entries(PRESSED)) {
    const element = target.closest(`[${attribute}]`);
    if (element instanceof HTMLElement) return void act(element);
  }
  const figure = figureUnder(target);
  if (figure) return void explain(figure);
  const contents = document.querySelector('.sf-contents[open]');
  if (contents && !contents.contains(target)) contents.removeAttribute('open');
});

/** @param {Element} target  the figure that a press on a note or a value is about */
function figureUnder(target) {
  const slot = target.closest('[data-slot^="value:"], [data-slot^="note:"]');
  if (!slot || String(getSelection())) return '';
  return slot.querySelector('[data-figure]')?.getAttribute('data-figure') ?? '';
}

document.addEventListener('keydown', event => {
  const target = event.target;
  if (!(target instanceof HTMLElement)) return;
  if (event.key === 'Escape') {
    const contents = document.querySelector('.sf-contents[open]');
    contents?.removeAttribute('open');
    contents?.querySelector('summary')?.focus();
  }
  if (event.key !== 'Enter' && event.key !== ' ') return;
  if (target.matches('[data-slot][role="button"]')) {
    event.preventDefault();
    target.click();
  }
});

document.addEventListener('submit', async event => {
  const form = event.target;
  if (!(form instanceof HTMLFormElement) || !form.dataset.form) return;
  event.preventDefault();
  const fields = typedIn(form), own = form.dataset.form === 'own';
  const answer = await changeBuild(own ? 'own_part' : form.dataset.form, {kind: form.dataset.kind, fields});
  if (!answer.errors) return;
  if (own) {
    openDialog(answer.tree, {fresh: false});
    focusFirstError();
  } else {
    const slot = form.closest('[data-slot]');
    if (slot && answer.tree) place(slot, [answer.tree]);
    const wrong = slot?.querySelector('[aria-invalid="true"]');
    if (wrong instanceof HTMLElement) wrong.focus();
  }
});

/** Boxes that change the build as soon as they are ticked. */
document.addEventListener('change', event => {
  const box = event.target;
  if (box instanceof HTMLInputElement && box.type === 'checkbox') {
    box.closest('form[data-at-once]')?.requestSubmit();
  }
});

document.addEventListener('input', event => {
  const target = event.target;
  if (!(target instanceof HTMLInputElement)) return;
  if (target.dataset.cursor !== undefined) readChart(target);
  if (target.dataset.stage !== undefined) moveStage(target);
  if (target.dataset.filter !== undefined) filterChoices(target);
});

document.addEventListener('pointermove', event => {
  if (!(event.target instanceof Element) || event.pointerType === 'touch') return;
  const svg = event.target.closest('svg[data-left]');
  if (svg) readChartAt(svg, event.clientX);
});

for (const kind of ['pointerover', 'focusin']) {
  document.addEventListener(kind, event => {
    if (!(event.target instanceof Element)) return;
    const piece = event.target.closest('[data-drawing] [role="img"]');
    const output = piece?.closest('[data-drawing]')?.querySelector('output');
    if (output && piece) output.textContent = piece.getAttribute('aria-label');
  });
}

document.addEventListener('slipfit:placed', () => {
  readCharts();
  showStages();
  makeValuesPressable();
});

/** Back, forward, or a link pasted into the address bar. */
function addressChanged() {
  if (!here) return;
  if (isBuildLink(location.hash)) {
    const link = location.hash;
    if (link === here.link) return;
    if (frameOfLink(link) === here.frame) {
      show(link, {mark: true});
    } else if (here.link && location.pathname === here.path) {  // not on the way to that frame
      keepLink(here.frame, here.link, here.standard, 'replace');
      stray = link;
      sayWords();
    }
  } else if (here.link) {
    const page = here;
    setTimeout(() => {
      if (here === page) keepLink(page.frame, page.link, page.standard, 'replace');
    }, SETTLE_MS);
  }
}
addEventListener('popstate', addressChanged);
addEventListener('hashchange', addressChanged);

const pages = /** @type {any} */ (globalThis).document$;
if (pages?.subscribe) pages.subscribe(mount);
else mount();
