/** What a reader is told about Python, in one sentence for each state. */

/** @import { PythonState } from "./python-client.mjs" */

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
  const size = fromDisk
    ? `${PYTHON_MEGABYTES.disk} MB from this folder`
    : `${PYTHON_MEGABYTES.served} MB, less when this device has it already`;
  return state.again
    ? `Python stopped and is being started again (${size}). Your entries stay as they are.`
    : `Python is starting (${size}). You can type already.`;
}
