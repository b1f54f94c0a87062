/**
 * Links that say what a calculator begins with: `data-begin="next-check complaint=hums"`.
 * Without scripts they are plain links to its page.
 */

import { KeptEntries } from "./kept-entries.mjs";

/** @import { Typed } from "./protocol.mjs" */

/**
 * Hear every such link of every page, also of those that instant navigation brings.
 * @param {Document} page
 */
export function hearBeginLinks(page) {
  page.addEventListener("click", ({ target }) => {
    const link = target instanceof Element ? target.closest("a[data-begin]") : null;
    if (link instanceof HTMLElement) beginWith(link.dataset.begin ?? "");
  }, { capture: true });
}

/** @param {string} words The calculator, then its entries. */
function beginWith(words) {
  const [slug, ...entries] = words.split(" ");
  /** @type {Record<string, Typed>} */
  const fields = {};
  for (const entry of entries) {
    const [name, text] = entry.split("=");
    fields[name] = { text, unit: "" };
  }
  new KeptEntries(slug).beginWith(fields);
}
