// @ts-check
// Only under `dev.py serve`: loads the page again when the site has been built again.
const address = new URL('../../reload.txt', import.meta.url);
let seen = '';
setInterval(async () => {
  const text = await fetch(address, {cache: 'no-store'}).then(answer => answer.text(), () => seen);
  if (seen && text !== seen) location.reload();
  seen = text;
}, 1000);
