/** What a reader is told about Python, in one sentence for each state, and for each start that was tried. */

/** @import { PythonState, Start } from "./python-state.mjs" */

/**
 * @param {PythonState} state
 * @param {boolean} fromDisk Whether the page was opened from disk.
 */
export function pythonWords(state, fromDisk) {
  if (state.name === "off") return "Python, which does the arithmetic, is not loaded yet.";
  if (state.name === "ready") return "Ready.";
  if (state.name === "failed") {
    return `Python could not be started: ${state.why}. Your entries stay as they are.`;
  }
  const megabytes = PYTHON_MEGABYTES[fromDisk ? "disk" : "served"][state.way];
  const size = fromDisk ? `${megabytes} MB from this folder` : `${megabytes} MB, less when this device has it already`;
  if (state.way === "ordinary") {
    return `The quick start of Python did not work here, so it is starting the slower way (${size}). `
      + "Your entries stay as they are.";
  }
  const why = state.why && `: ${state.why}`;
  return state.again
    ? `Python stopped${why}. It is being started again (${size}). Your entries stay as they are.`
    : `Python is starting (${size}). You can type already.`;
}

/**
 * @param {Start} start
 */
export function startWords({ way, shared, found, ended, why, milliseconds, phases }) {
  const how = way === "snapshot" ? "from the snapshot of its memory" : "the ordinary way, from its library";
  const where = shared ? " in the worker that pages share" : "";
  if (ended === "starting") return `Python is starting ${how}${where}.`;
  if (ended === "failed") return `Python did not start ${how}${where}; it was given up after ${milliseconds} ms: ${why}.`;
  return found
    ? `Python started ${how}${where} for an earlier page, in ${phases.ready} ms, and was found there after ${milliseconds} ms.`
    : `Python started ${how}${where} in ${milliseconds} ms.`;
}
