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
 * Show words in an element, or hide it when there are none.
 * @param {HTMLElement} place
 * @param {string} words
 */
export function showWords(place, words) {
  place.textContent = words;
  place.hidden = words === "";
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
