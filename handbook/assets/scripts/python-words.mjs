/** What a reader is told about Python, in one sentence for each state, and for each start that was tried. */

/** @import { PythonState, Start } from "./python-client.mjs" */

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
  return state.again
    ? `Python stopped and is being started again (${size}). Your entries stay as they are.`
    : `Python is starting (${size}). You can type already.`;
}

/**
 * @param {Start} start
 */
export function startWords({ way, ended, why, milliseconds }) {
  const how = way === "snapshot" ? "from the snapshot of its memory" : "the ordinary way, from its library";
  if (ended === "ready") return `Python started ${how} in ${milliseconds} ms.`;
  return ended === "failed"
    ? `Python did not start ${how}; it was given up after ${milliseconds} ms: ${why}.`
    : `Python is starting ${how}.`;
}
