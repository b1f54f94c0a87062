/** Work that can wait: done when the device has nothing else to do, or has been busy for too long. */

const LONGEST_WAIT = 3_000;
const WITHOUT_ASKING = 300;

/** @param {() => void} work */
export function whenIdle(work) {
  // Not in every engine; a moment after the page has loaded is nearly as good.
  if (window.requestIdleCallback) window.requestIdleCallback(work, { timeout: LONGEST_WAIT });
  else setTimeout(work, WITHOUT_ASKING);
}
