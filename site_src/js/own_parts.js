// @ts-check
// A reader's own parts: kept on this device as the text of a file each, brought to others as one
// file. The core reads and writes the text; a file with anything wrong in it changes nothing.
import {openDialog, sayInDialog} from './dialogs.js';

/** @typedef {{kind: string, name: string, toml: string}} OwnPart */
/** @typedef {{
 *   call: (name: string, payload: object) => Promise<any>,
 *   changeBuild: (name: string, payload: object) => Promise<any>,
 *   swapAgain: (kind: string) => unknown,
 * }} Page  what this needs of the page: to ask, to show another build, to open the choices again */

const STORE = 'slipfit own parts';
const MOST = 100;  // as the core allows
const LARGEST_FILE = 1_000_000;  // bytes; the core refuses larger ones too

/** @type {OwnPart[]}  for a device that refuses to keep anything */
let session = [];

/** @returns {OwnPart[]} */
function read() {
  try {
    const found = JSON.parse(localStorage.getItem(STORE) ?? '[]');
    return found.filter((/** @type {any} */ part) =>
      ['kind', 'name', 'toml'].every(key => typeof part?.[key] === 'string')).slice(0, MOST);
  } catch {
    return session;
  }
}

/** @param {OwnPart[]} parts */
function write(parts) {
  session = parts.slice(-MOST);
  try {
    localStorage.setItem(STORE, JSON.stringify(session));
  } catch {
    // storage refused or full: kept for this page only
  }
}

/** The texts of all parts that are kept, for a call of the core. */
export const ownTexts = () => read().map(part => part.toml);

/** @param {OwnPart[]} parts  each takes the place of one of its kind and name */
export function keepOwn(parts) {
  const names = new Set(parts.map(part => `${part.kind} ${part.name}`));
  write([...read().filter(part => !names.has(`${part.kind} ${part.name}`)), ...parts]);
}

/**
 * What a press on one of the buttons does, by attribute.
 * @param {Page} page
 * @returns {Record<string, (element: HTMLElement) => unknown>}
 */
export function ownPresses({call, changeBuild, swapAgain}) {
  return {
    'data-own-use': element => {
      const part = read()[Number(element.dataset.ownUse)];
      return part && changeBuild('own_use', {toml: part.toml});
    },
    'data-own-forget': element => {
      const parts = read(), [part] = parts.splice(Number(element.dataset.ownForget), 1);
      if (!part) return;
      write(parts);
      swapAgain(part.kind);
    },
    'data-own-save': async () => {
      const parts = read();
      if (!parts.length) return sayInDialog('Your own parts', 'There are none on this device yet.');
      try {
        const {toml} = await call('own_file', {own: ownTexts()});
        download('own-parts.toml', toml);
      } catch (error) {
        failed(error);
      }
    },
    'data-own-read': element => pickFile(async file => {
      if (file.size > LARGEST_FILE) {
        return sayInDialog('Your own parts', `${file.name} is larger than a file of parts can be.`);
      }
      try {
        const answer = await call('own_read', {toml: await file.text(), name: file.name});
        if (answer.errors) return openDialog(answer.tree);
        keepOwn(answer.parts);
        swapAgain(element.dataset.ownRead ?? '');
      } catch (error) {
        failed(error);
      }
    }),
  };
}

/** @param {unknown} error */
const failed = error => sayInDialog('This did not work',
  String(/** @type {any} */ (error)?.message ?? error).trimEnd().split('\n').pop() ?? '');

/**
 * @param {string} name
 * @param {string} text
 */
function download(name, text) {
  const address = URL.createObjectURL(new Blob([text], {type: 'application/toml'}));
  const anchor = document.createElement('a');
  anchor.href = address;
  anchor.download = name;
  anchor.click();
  setTimeout(() => URL.revokeObjectURL(address), 1000);
}

/** @param {(file: File) => unknown} then */
function pickFile(then) {
  const input = document.createElement('input');
  input.type = 'file';
  input.accept = '.toml,text/plain';
  input.addEventListener('change', () => {
    const file = input.files?.[0];
    if (file) then(file);
  });
  input.click();
}
