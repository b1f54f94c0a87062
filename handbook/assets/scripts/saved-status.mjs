/** Draws how the copy on this device stands, and what can be done about it; at the foot of every page, over nothing. */

import { element } from "./elements.mjs";
import { lastingWords, mendedWords, newerWords, readingsWords, savedWords, standingWords } from "./saved-words.mjs";

/** @import { NotSaved, Saved, Saving, Standing } from "./saved-words.mjs" */

/**
 * @typedef {object} Status
 * @property {Saved} saved
 * @property {Saving | NotSaved | {kind: "waiting"} | null} newer
 * @property {Standing} standing
 * @property {string} pageRevision
 * @property {{files: number, computed: boolean}} mended
 * @property {boolean | null} isLasting null while nobody knows.
 * @property {boolean} canInstall
 * @property {"kept" | "not kept" | null} question Asked before a page with entries is loaded anew.
 *
 * @typedef {Record<"takeNewer" | "loadAnew" | "yes" | "no" | "install" | "dismiss", () => void>} Actions
 */

/**
 * @param {HTMLElement} place
 * @param {Status} status
 * @param {Actions} actions
 */
export function drawStatus(place, status, actions) {
  const { saved, newer } = status;
  place.dataset.saved = saved.kind;
  if (newer) place.dataset.newer = newer.kind;
  else delete place.dataset.newer;
  place.dataset.standing = status.standing;
  // What is being saved changes many times a second: only its numbers then, so that nothing is read out anew.
  if (showProgress(place, newer ?? saved)) return;
  place.replaceChildren(...lines(status, actions));
  showProgress(place, newer ?? saved);
}

/**
 * @param {Status} status
 * @param {Actions} actions
 * @returns {HTMLElement[]}
 */
function lines(status, actions) {
  const { saved, newer, standing, mended, question } = status;
  const all = [withProgress(savedWords(saved), saved)];
  if (saved.kind === "saved" && status.isLasting !== null) all[0].append(` ${lastingWords(status.isLasting)}`);
  if (mended.files) all.push(element("p", { "data-part": "mended" }, mendedWords(mended.files, mended.computed)));
  if (standing !== "current" && "revision" in saved) {
    const words = standingWords(standing, status.pageRevision, saved.revision);
    all.push(element("p", { "data-part": "standing" }, words, button("Load this page anew", actions.loadAnew)));
  }
  if (newer) all.push(withProgress(newerWords(newer), newer));
  if (newer?.kind === "waiting" && !question) all[all.length - 1].append(button("Use the newer one now", actions.takeNewer));
  if (question) {
    all.push(element("p", { "data-part": "question" }, `${readingsWords(question === "kept")} `,
      button(question === "kept" ? "Load it anew now" : "Load it anew all the same", actions.yes),
      button("Not yet", actions.no)));
  }
  if (status.canInstall) {
    all.push(element("p", { "data-part": "install" },
      "The handbook can be installed on this device, to open like an app from its own icon. ",
      button("Install it", actions.install), button("No, thanks", actions.dismiss)));
  }
  return all;
}

/**
 * @param {string} words
 * @param {{kind: string}} what
 */
function withProgress(words, what) {
  const line = element("p", {}, words);
  if (what.kind === "saving") {
    line.append(" ", element("progress", { "aria-hidden": "true" }), " ", element("span", { "data-part": "progress", "aria-live": "off" }));
  }
  return line;
}

/**
 * @param {HTMLElement} place
 * @param {Saved | Saving | NotSaved | {kind: "waiting"}} what
 * @returns {boolean} Whether there is a place for it.
 */
function showProgress(place, what) {
  const bar = place.querySelector("progress");
  const numbers = place.querySelector("[data-part=progress]");
  if (what.kind !== "saving" || !bar || !numbers) return false;
  bar.max = what.total;
  bar.value = what.done;
  numbers.textContent = `${what.done} of ${what.total} files.`;
  return true;
}

/**
 * @param {string} words
 * @param {() => void} act
 */
function button(words, act) {
  const made = element("button", { type: "button", class: "action" }, words);
  made.addEventListener("click", act);
  return made;
}
