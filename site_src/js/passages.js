// @ts-check
// Passages of the notes that belong to some builds only: the core says which hold.

/** The conditions on this page, each once. */
export function conditionsOnPage() {
  const texts = [...document.querySelectorAll('[data-when]')].map(el => el.getAttribute('data-when') ?? '');
  return [...new Set(texts)];
}

/** @param {Record<string, boolean> | undefined} shown  by condition */
export function showPassages(shown) {
  if (!shown) return;
  for (const element of document.querySelectorAll('[data-when]')) {
    const holds = shown[element.getAttribute('data-when') ?? ''];
    if (holds !== undefined) element.toggleAttribute('hidden', !holds);
  }
  document.dispatchEvent(new CustomEvent('slipfit:passages'));
}
