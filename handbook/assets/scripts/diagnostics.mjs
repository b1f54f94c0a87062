/** The diagnostics page: how Python started in this visit, how long each phase took, and which versions are at work. */

import { element } from "./elements.mjs";
import { startWords } from "./python-words.mjs";

/** @import { PythonClient } from "./python-client.mjs" */
/** @import { Start } from "./python-state.mjs" */

/** What each mark of the worker means, in the order in which they come, as far as the way of starting has them. */
const PHASES = /** @type {const} */ ({
  read: "the worker runs and has read Pyodide's script",
  loaded: "every file has arrived and the wasm is compiled",
  instantiated: "the wasm is instantiated",
  restored: "the memory is restored",
  started: "Python runs",
  ready: "the limits are read, and it can answer",
});

/**
 * @param {HTMLElement} section
 * @param {PythonClient} python
 * @param {boolean} fromDisk
 * @returns {() => void} Lets go of the page.
 */
export function mountDiagnostics(section, python, fromDisk) {
  const startBefore = python.state.name === "ready" ? python.starts.at(-1) : null;
  const show = () => {
    const start = python.starts.at(-1);
    const isReady = python.state.name === "ready" && start;
    section.dataset.boot = isReady ? start.way : "";
    section.dataset.python = !isReady ? "" : start === startBefore ? "kept" : start.found ? "found" : "fresh";
    section.dataset.worker = !isReady ? "" : start.shared ? "shared" : "own";
    section.replaceChildren(
      element("ol", { class: "starts" }, ...python.starts.map(drawStart)),
      element("p", {}, whereWords(section.dataset.python, start)),
      element("dl", {}, ...rows(fromDisk).flatMap(([name, value]) => [element("dt", {}, name), element("dd", {}, value)])),
    );
  };
  const leave = python.subscribe(show);
  python.start();
  return leave;
}

/**
 * Whether Python was there already, and what becomes of it.
 * @param {string} python
 * @param {Start | undefined} start
 */
function whereWords(python, start) {
  if (!start || !python) return "";
  const came = {
    kept: "Kept: Python has been running since an earlier page of this visit.",
    found: "Found: Python was running already when this page was opened.",
    fresh: "Fresh: Python was started for this page.",
  }[python];
  const goes = start.shared
    ? "It runs in a shared worker, which every tab of this handbook uses, and which outlives a page for a short while."
    : "It runs in a worker of this tab's own, and ends when the page is loaded anew.";
  return `${came} ${goes}`;
}

/** @param {Start} start */
function drawStart(start) {
  const phases = Object.entries(PHASES).filter(([name]) => name in start.phases);
  return element("li", { "data-start": start.way, "data-ended": start.ended },
    element("p", {}, startWords(start)),
    element("ul", {}, ...phases.map(([name, words]) =>
      element("li", { "data-phase": name }, `${start.phases[name]} ms: ${words}`))));
}

/**
 * @param {boolean} fromDisk
 * @returns {[string, string][]}
 */
function rows(fromDisk) {
  return [
    ["Opened", fromDisk ? "from disk" : `from ${location.host}`],
    ["Pyodide", PYODIDE_INFO.version ?? ""],
    ["Python", PYODIDE_INFO.python],
    ["Browser", navigator.userAgent],
  ];
}
