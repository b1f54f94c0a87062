/** Makes elements. Text goes in as text and never as markup. */

/**
 * @param {string} tag
 * @param {Record<string, string | boolean>} attributes false leaves one out, true sets it empty.
 * @param {...(Node | string | null)} children
 * @returns {HTMLElement}
 */
export function element(tag, attributes = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value !== false) made.setAttribute(name, value === true ? "" : value);
  }
  made.append(...children.filter((child) => child !== null));
  return made;
}

/**
 * Show words in an element, or hide it when there are none. Where they stand already nothing is touched.
 * @param {HTMLElement} place
 * @param {string} words
 */
export function showWords(place, words) {
  if (place.textContent !== words) place.textContent = words;
  if (place.hidden !== (words === "")) place.hidden = words === "";
}

/** @typedef {{key: string, draw: () => HTMLElement}} Child A child that is wanted: another one when its key is another. */

/** @type {WeakMap<Element, string>} */
const keys = new WeakMap();

/**
 * Give an element the children that are wanted. One that is there under its key stays and is not moved, so that the
 * browser lays out only what has changed and what a reader has opened stays open.
 * @param {HTMLElement} parent Has no other children than those of this function.
 * @param {Child[]} wanted
 */
export function renewChildren(parent, wanted) {
  const wantedKeys = new Set(wanted.map(({ key }) => key));
  /** @type {Map<string, Element>} */
  const there = new Map();
  for (const child of [...parent.children]) {
    const key = keys.get(child);
    if (key === undefined || !wantedKeys.has(key) || there.has(key)) child.remove();
    else there.set(key, child);
  }
  let place = parent.firstElementChild;
  for (const { key, draw } of wanted) {
    const child = there.get(key) ?? draw();
    there.delete(key);
    keys.set(child, key);
    if (child === place) place = place.nextElementSibling;
    else parent.insertBefore(child, place);
  }
}

/**
 * The part of a module that scripts fill, found by its attribute.
 * @param {ParentNode} within
 * @param {string} name
 * @returns {HTMLElement}
 */
export function part(within, name) {
  const found = within.querySelector(`[data-part="${name}"]`);
  if (!(found instanceof HTMLElement)) throw new Error(`the page has no part called ${name}`);
  return found;
}
