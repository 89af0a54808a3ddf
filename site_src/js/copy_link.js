// @ts-check
// Copies the address of this page with the build in it.
import {openDialog} from './dialogs.js';

const SAID_MS = 2000;

/**
 * @param {HTMLElement} button
 * @param {string} link
 */
export async function copyLink(button, link) {
  const address = location.href.split('#')[0] + link;
  try {
    await navigator.clipboard.writeText(address);
  } catch {
    showAddress(address);
    return;
  }
  const words = button.dataset.words ??= button.textContent ?? '';
  button.textContent = 'Copied';
  setTimeout(() => { button.textContent = words; }, SAID_MS);
}

/** @param {string} address  for a browser that does not let us copy */
function showAddress(address) {
  openDialog(['div', {},
    ['h2', {'data-dialog-title': ''}, 'The link of this build'],
    ['div', {class: 'sf-field'},
      ['label', {for: 'sf-address'}, 'Copy this address'],
      ['input', {id: 'sf-address', type: 'text', value: address}]]]);
  const input = document.getElementById('sf-address');
  if (input instanceof HTMLInputElement) input.select();
}
