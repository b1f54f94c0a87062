/** The diagnostics page: how Python started in this visit, how long each phase took, and which versions are at work. */

import { element } from "./elements.mjs";
import { startWords } from "./python-words.mjs";

/** @import { PythonClient, Start } from "./python-client.mjs" */

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
  const show = () => {
    section.dataset.boot = python.state.name === "ready" ? python.starts.at(-1)?.way : "";
    section.replaceChildren(
      element("ol", { class: "starts" }, ...python.starts.map(drawStart)),
      element("dl", {}, ...rows(fromDisk).flatMap(([name, value]) => [element("dt", {}, name), element("dd", {}, value)])),
    );
  };
  const leave = python.subscribe(show);
  python.start();
  return leave;
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
