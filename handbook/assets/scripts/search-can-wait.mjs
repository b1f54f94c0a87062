/**
 * The theme reads its index and makes search ready as soon as a page opens, and that takes a processor as long as a
 * start of Python does. On a page with a calculator it waits until Python is up, or somebody turns to the search.
 */

import { meetRequests } from "./theme-requests.mjs";

/** Told by page.js on the document. */
export const PYTHON_SETTLED = "threepin-python-settled";

const INDEX = "search/search_index.js";
/** Milliseconds after which search is made ready whatever Python does. */
const LONGEST_WAIT = 8_000;

/**
 * Runs before the theme's own script.
 * @param {string} root The address of this copy.
 */
export function letSearchWait(root) {
  if (!document.querySelector("[data-module=calculator]")) return;
  const index = root + INDEX; // The beginning of both addresses that it may have: .js and .json.
  const wanted = whenWanted();
  meetRequests((request, address) => {
    if (!address.startsWith(index)) return;
    const { send } = request;
    request.send = (body) => void wanted.then(() => send.call(request, body));
  });
  // From disk the index comes as a script.
  const { head } = document;
  const { appendChild } = head;
  head.appendChild = (node) => {
    if (!(node instanceof HTMLScriptElement) || !node.src.startsWith(index)) return /** @type {typeof node} */ (appendChild.call(head, node));
    void wanted.then(() => appendChild.call(head, node));
    return node;
  };
}

/** @returns {Promise<void>} */
function whenWanted() {
  return new Promise((resolve) => {
    const want = () => {
      document.removeEventListener("focusin", look);
      resolve();
    };
    const look = (/** @type {Event} */ event) => {
      if (event.target instanceof Element && event.target.closest("[data-md-component=search]")) want();
    };
    document.addEventListener("focusin", look);
    document.addEventListener(PYTHON_SETTLED, want, { once: true });
    setTimeout(want, LONGEST_WAIT);
  });
}
