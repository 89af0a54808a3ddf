// @ts-check
// When it starts, the theme sets the address of every stylesheet again, in full. A browser then drops
// the sheet until it has it once more, and a reader sees the page without its style for a moment.
// Here the sheet under its full address is loaded beside the first one, which goes when it is there.
// (In the head, after the stylesheets.)

for (const sheet of /** @type {NodeListOf<HTMLLinkElement>} */ (
  document.querySelectorAll('link[rel=stylesheet]')
)) {
  const address = sheet.href;
  Object.defineProperty(sheet, 'href', {
    get: () => address,
    set(/** @type {string} */ wanted) {
      const twin = /** @type {HTMLLinkElement} */ (sheet.cloneNode());
      twin.setAttribute('href', wanted);
      twin.addEventListener('load', () => sheet.remove());
      twin.addEventListener('error', () => twin.remove());
      sheet.after(twin);
    },
  });
}
