// @ts-check
// Only under `dev.py serve`: loads the page again when the site has been built again, and says on
// the page what is to mend when it could not be.
const address = new URL('../../reload.txt', import.meta.url);
let seen = '';

/** @param {string[]} lines  what is to mend; none when all is well */
function show(lines) {
  let box = document.getElementById('sf-mistakes');
  if (!lines.length) return box?.remove();
  if (!box) {
    box = document.createElement('aside');
    box.id = 'sf-mistakes';
    box.className = 'sf-mistakes sf-mistakes-over';
    box.setAttribute('role', 'alert');
    document.body.append(box);
  }
  const title = document.createElement('p'), list = document.createElement('ul');
  title.textContent = 'The site does not build. Shown is how it was before.';
  list.append(...lines.map(line => {
    const item = document.createElement('li');
    item.textContent = line;
    return item;
  }));
  if (box.textContent !== `${title.textContent}${list.textContent}`) box.replaceChildren(title, list);
}

setInterval(async () => {
  const text = await fetch(address, {cache: 'no-store'}).then(answer => answer.text(), () => seen);
  const [stamp, ...lines] = text.split('\n');
  show(lines.filter(Boolean));
  if (seen && stamp !== seen) location.reload();
  seen = stamp;
}, 1000);
