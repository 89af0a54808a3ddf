// @ts-check
// Has the device keep the site for places without a network, once the calculator runs, and says so.
import {assets} from './assets.js';

const QUIET_MS = 4000;  // after the first figures, so that nobody waits for this

let asked = false;

/** Begin to keep the site; on a device that refuses or is to save data, nothing happens. */
export function keepForTheField() {
  const wanted = assets.field && 'serviceWorker' in navigator &&
    !(/** @type {any} */ (navigator).connection?.saveData);
  if (asked || !wanted) return sayKept();
  asked = true;
  setTimeout(() => navigator.serviceWorker.register(new URL('../../field-worker.js', import.meta.url))
    .then(() => navigator.serviceWorker.ready).then(sayKept).catch(() => {}), QUIET_MS);
}

/** Show the line where the site has been kept. */
export function sayKept() {
  const kept = Boolean(navigator.serviceWorker?.controller);
  document.getElementById('sf-field')?.toggleAttribute('hidden', !kept);
}

navigator.serviceWorker?.addEventListener('controllerchange', sayKept);
