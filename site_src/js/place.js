// @ts-check
// Puts trees from the core onto the page. A tree is text or [tag, attributes, child, …]; what is
// there already is changed in place, so that focus, scroll and open details stay as they are.

/** @typedef {string | [string, Record<string, string>, ...any[]]} Tree */

const SVG = 'http://www.w3.org/2000/svg', HTML = 'http://www.w3.org/1999/xhtml';

// The same lists as in the core (markup.py); a unit test compares them.
export const TAGS = new Set(`a aside b button caption circle dd defs desc details dialog div dl dt em
  fieldset figcaption figure footer form g h2 h3 h4 header hr i input label legend li line ol option
  output p path pattern polygon polyline rect section select small span strong sub summary sup svg
  table tbody td text th thead time title tr tspan ul br`.split(/\s+/));
export const ATTRIBUTES = new Set(`autocomplete class cx cy d fill for height hidden href id max
  maxlength min name novalidate open patternTransform patternUnits placeholder points r role scope
  selected stroke-dasharray step tabindex text-anchor type value viewBox visibility width x x1 x2 y
  y1 y2 rel title datetime colspan rowspan transform disabled checked`.split(/\s+/));
const OPEN_ENDED = /^(aria|data)-[a-z0-9-]+$/;
const SAFE_ADDRESS = /^(https?:\/\/|[#./?]|[a-z0-9_-]+(\/|$))/i;

/** What belongs to the reader or to the script, not to the tree. */
const KEPT = new Set(['open', 'data-change']);

/**
 * Make the children of an element equal to some trees.
 * @param {Element} parent
 * @param {Tree[]} trees
 */
export function place(parent, trees) {
  patchChildren(parent, trees, parent.namespaceURI === SVG);
}

/**
 * @param {Element} parent
 * @param {Tree[]} trees
 * @param {boolean} inSvg
 */
function patchChildren(parent, trees, inSvg) {
  /** @type {ChildNode | null} */
  let node = parent.firstChild;
  for (const tree of trees) {
    if (typeof tree === 'string') {
      if (node instanceof Text) {
        if (node.data !== tree) node.data = tree;
        node = node.nextSibling;
      } else {
        parent.insertBefore(document.createTextNode(tree), node);
      }
      continue;
    }
    const [tag, attributes, ...children] = tree;
    const svg = inSvg || tag === 'svg';
    while (node instanceof Text) node = dropped(node);
    let element = node instanceof Element && same(node, tag, attributes, svg) ? node : null;
    if (element) {
      node = element.nextSibling;
      patchAttributes(element, attributes);
    } else {
      element = created(tag, attributes, svg);
      parent.insertBefore(element, node);
    }
    patchChildren(element, children, svg);
  }
  while (node) node = dropped(node);
}

/** @param {ChildNode} node */
function dropped(node) {
  const next = node.nextSibling;
  node.remove();
  return next;
}

/**
 * Whether an element may become the tree's: same tag, and not a different field, part or piece.
 * @param {Element} element
 * @param {string} tag
 * @param {Record<string, string>} attributes
 * @param {boolean} svg
 */
function same(element, tag, attributes, svg) {
  return element.localName === tag
    && element.namespaceURI === (svg ? SVG : HTML)
    && (element.getAttribute('id') ?? '') === (attributes.id ?? '')
    && firstClass(element.getAttribute('class')) === firstClass(attributes.class);
}

/** @param {string | null | undefined} classes  the theme marks what has the focus with its own */
const firstClass = classes => (classes ?? '').split(' ').find(name => name !== 'focus-visible') ?? '';

/**
 * @param {string} tag
 * @param {Record<string, string>} attributes
 * @param {boolean} svg
 * @returns {Element}
 */
function created(tag, attributes, svg) {
  if (!TAGS.has(tag)) throw Error(`the tag '${tag}' is not in the list of what may be placed`);
  const element = svg ? document.createElementNS(SVG, tag) : document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) set(element, name, value);
  return element;
}

/**
 * @param {Element} element
 * @param {Record<string, string>} attributes
 */
function patchAttributes(element, attributes) {
  for (const {name} of [...element.attributes]) {
    if (!(name in attributes) && !KEPT.has(name)) element.removeAttribute(name);
  }
  for (const [name, value] of Object.entries(attributes)) {
    if (!KEPT.has(name) && element.getAttribute(name) !== value) set(element, name, value);
  }
  if (element instanceof HTMLInputElement && element.type === 'checkbox') {
    if (!element.dataset.tick) element.checked = 'checked' in attributes;  // ticks are the reader's
  } else if (element instanceof HTMLInputElement && element.type !== 'range'
      && element !== document.activeElement) {
    element.value = attributes.value ?? '';
  }
}

/**
 * @param {Element} element
 * @param {string} name
 * @param {string} value
 */
function set(element, name, value) {
  if (!ATTRIBUTES.has(name) && !OPEN_ENDED.test(name)) {
    throw Error(`the attribute '${name}' is not in the list of what may be placed`);
  }
  if (name === 'href' && !SAFE_ADDRESS.test(value)) return;
  element.setAttribute(name, value);
}
