// @ts-check
// One dialog for everything that opens over the page. Its content is a tree from the core; opening
// it again while it is open changes the content. Focus goes back to where it was on closing.
import {place} from './place.js';

/** @type {HTMLDialogElement | undefined} */
let dialog;
/** @type {Element | null} */
let opener = null;

function theDialog() {
  if (dialog?.isConnected) return dialog;
  dialog = document.createElement('dialog');
  dialog.className = 'sf-dialog';
  dialog.setAttribute('aria-labelledby', 'sf-dialog-title');
  const top = document.createElement('div'), close = document.createElement('button');
  top.className = 'sf-dialog-top';
  close.type = 'button';
  close.className = 'sf-quiet';
  close.textContent = 'Close';
  close.addEventListener('click', closeDialog);
  top.append(close);
  const body = document.createElement('div');
  body.className = 'sf-dialog-body';
  dialog.append(top, body);
  dialog.addEventListener('click', event => {
    if (event.target === dialog) closeDialog();  // beside it, on the backdrop
  });
  dialog.addEventListener('close', () => {
    body.replaceChildren();
    if (opener?.isConnected && opener instanceof HTMLElement) opener.focus({preventScroll: true});
    opener = null;
  });
  document.body.append(dialog);
  return dialog;
}

/**
 * Open the dialog with some content, or change the content of the open one.
 * @param {import('./place.js').Tree} tree
 * @param {{fresh?: boolean}} options  `fresh`: begin at the top with the title in focus
 */
export function openDialog(tree, {fresh = true} = {}) {
  const box = theDialog(), body = /** @type {HTMLElement} */ (box.lastElementChild);
  if (fresh) body.replaceChildren();
  place(body, [tree]);
  const title = body.querySelector('[data-dialog-title]');
  if (title instanceof HTMLElement) {
    title.id = 'sf-dialog-title';
    title.tabIndex = -1;
  }
  if (!box.open) {
    opener = document.activeElement;
    box.showModal();
  }
  if (!fresh) return;
  box.scrollTop = 0;
  if (title instanceof HTMLElement) title.focus({preventScroll: true});
}

/**
 * A dialog of a title and one sentence.
 * @param {string} title
 * @param {string} sentence
 */
export function sayInDialog(title, sentence) {
  openDialog(['div', {}, ['h2', {'data-dialog-title': ''}, title], ['p', {}, sentence]]);
}

/** Put the focus on the first field that needs a look. */
export function focusFirstError() {
  const field = dialog?.querySelector('[aria-invalid="true"]');
  if (field instanceof HTMLElement) field.focus();
}

export function closeDialog() {
  if (dialog?.open) dialog.close();
}

/**
 * Show what has become known about one of the choices, in its place.
 * @param {string} key
 * @param {import('./place.js').Tree} tree
 */
export function changeChoice(key, tree) {
  const row = dialog?.querySelector(`.sf-choice[data-choice="${CSS.escape(key)}"]`);
  if (row) place(row, /** @type {import('./place.js').Tree[]} */ (tree.slice(2)));
}

/** @param {EventTarget | null} target  @returns {string} the choice of a list that it lies in */
export const choiceUnder = target => target instanceof Element
  ? target.closest('.sf-choice')?.getAttribute('data-choice') ?? '' : '';

/**
 * Hide the choices whose names do not contain what is typed.
 * @param {HTMLInputElement} input
 */
export function filterChoices(input) {
  const words = input.value.toLowerCase().split(/\s+/).filter(Boolean);
  const box = input.closest('.sf-dialog-body');
  if (!box) return;
  let shown = 0;
  for (const item of box.querySelectorAll('.sf-choice')) {
    const name = item.getAttribute('data-name') ?? '';
    const fits = words.every(word => name.includes(word));
    item.toggleAttribute('hidden', !fits);
    if (fits) shown++;
  }
  box.querySelector('.sf-choices-none')?.toggleAttribute('hidden', shown > 0);
}

/**
 * What stands in a form, by field.
 * @param {HTMLFormElement} form
 */
export function typedIn(form) {
  /** @type {Record<string, string>} */
  const fields = {};
  for (const [key, value] of new FormData(form)) {
    if (typeof value === 'string' && value.trim()) fields[key] = value.trim();
  }
  return fields;
}
