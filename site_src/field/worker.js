// Keeps this version of the site for places without a network. The builder writes the first lines:
// `version`, a checksum of all files, and `files`, their names relative to this one.
//
// While there is a network the browser's own cache does better (it keeps compiled code too), so
// only pages pass through here: they come from the network, and from what is kept where that fails.
// From then on, until the network is back, everything comes from what is kept.
/* global version, files */

const NAME = `slipfit ${registration.scope} `, HERE = NAME + version;
const PATIENCE_MS = 4000;  // a page that has not come by then is taken from what is kept
let cutOff = false;

addEventListener('install', event => event.waitUntil(keepAll()));
addEventListener('activate', event => event.waitUntil(replaceOlder()));

/** All files or none: a version that is not complete is never used. */
async function keepAll() {
  const kept = await caches.open(HERE);
  try {
    for (let at = 0; at < files.length; at += 8) {  // a few at a time: others load things too
      await kept.addAll(files.slice(at, at + 8).map(name => new URL(name, registration.scope).href));
    }
  } catch (error) {
    await caches.delete(HERE);
    throw error;
  }
  await skipWaiting();
}

async function replaceOlder() {
  for (const name of await caches.keys()) {
    if (name.startsWith(NAME) && name !== HERE) await caches.delete(name);
  }
  await clients.claim();
}

addEventListener('fetch', event => {
  const {request} = event;
  if (request.method !== 'GET' || !request.url.startsWith(registration.scope)) return;
  if (request.mode === 'navigate') event.respondWith(page(request));
  else if (cutOff || !navigator.onLine) event.respondWith(keptOrFetched(request));
});

/** @param {Request} request */
async function page(request) {
  const waiting = new AbortController();
  const timer = setTimeout(() => waiting.abort(), PATIENCE_MS);
  try {
    const answer = await fetch(request, {signal: waiting.signal});
    cutOff = false;
    return answer;
  } catch (error) {
    cutOff = true;
    const kept = await keptFile(request) ?? await keptFile({url: new URL('404.html', registration.scope).href});
    if (kept) return kept;
    throw error;
  } finally {
    clearTimeout(timer);
  }
}

/** @param {Request} request */
async function keptOrFetched(request) {
  return await keptFile(request) ?? fetch(request);
}

/** @param {{url: string}} request */
async function keptFile({url}) {
  const {origin, pathname} = new URL(url);
  return (await caches.open(HERE)).match(origin + pathname);
}
