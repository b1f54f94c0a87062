/** Whether a page holds entries that somebody has made, and whether they would come back if it were loaded anew. */

import { FormFields } from "./form-fields.mjs";
import { KeptEntries } from "./kept-entries.mjs";

/**
 * @param {ParentNode} page
 * @returns {"none" | "kept" | "not kept"}
 */
export function typedReadings(page) {
  const forms = /** @type {NodeListOf<HTMLFormElement>} */ (page.querySelectorAll("[data-calculator] form"));
  const filled = [...forms].filter((form) => new FormFields(form).isFilled);
  if (!filled.length) return "none";
  return filled.every(isKept) ? "kept" : "not kept";
}

/** @param {HTMLFormElement} form */
function isKept(form) {
  const section = /** @type {HTMLElement} */ (form.closest("[data-calculator]"));
  const kept = new KeptEntries(section.dataset.calculator ?? "").restore()?.fields ?? {};
  return Object.entries(new FormFields(form).collect()).every(([name, { text, unit }]) =>
    kept[name]?.text === text && kept[name].unit === unit);
}
