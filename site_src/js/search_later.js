// @ts-check
// Stands in for the theme's search worker, which this address names after a "#": that one would build
// its index as soon as a page is open, while the calculator starts, and most readers never search.
// It is started at the first question; until then, it is said to be ready.

/** @typedef {{type: number, data?: unknown}} Message */

const SETUP = 0, READY = 1, QUESTION = 2, FOUND = 3;  // the theme's kinds of messages
const scope = /** @type {any} */ (globalThis);
/** @type {Message | undefined} */
let setup;
/** @type {Message[]} */
const questions = [];

/** @param {MessageEvent} event */
function hold({data: message}) {
  if (message.type === SETUP) {
    setup = message;
    postMessage({type: READY});
  } else if (message.type === QUESTION && !String(message.data).trim()) {
    postMessage({type: FOUND, data: {items: []}});
  } else {
    questions.push(message);
    begin();
  }
}

/** @param {Message | undefined} data */
const give = data => dispatchEvent(new MessageEvent('message', {data}));

function begin() {
  removeEventListener('message', hold);
  const post = scope.postMessage;
  scope.postMessage = (/** @type {Message} */ message) => {
    if (message.type !== READY) return post(message);
    questions.splice(0).forEach(give);
  };
  scope.importScripts(new URL(scope.location.hash.slice(1), scope.location.href));
  give(setup);
}

addEventListener('message', hold);
