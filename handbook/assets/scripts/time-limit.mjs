/**
 * Ends an answer that takes too long from inside, so that a runaway leaves a worker that others share as it was.
 *
 * Every some dozen steps Python looks whether somebody has written SIGINT into the first place of its interrupt
 * buffer, and if so raises KeyboardInterrupt. While Python runs nobody else can write there, unless pages may share
 * memory, which takes headers that a plain host does not send. So what stands in that place is a look at the clock.
 */

const SIGINT = 2;

/**
 * @param {import("pyodide").PyodideAPI} python
 * @param {number} milliseconds
 * @returns {<Given>(work: () => Given) => Given} Runs work within the limit.
 */
export function withTimeLimit(python, milliseconds) {
  let end = Infinity;
  const clock = {
    get 0() {
      if (performance.now() <= end) return 0;
      end = Infinity; // Said once: what Python then does to clean up is not cut short.
      return SIGINT;
    },
    set 0(_) {}, // Python writes nothing there after each look.
  };
  python.setInterruptBuffer(/** @type {any} */ (clock));
  return (work) => {
    end = performance.now() + milliseconds;
    try {
      return work();
    } finally {
      end = Infinity;
    }
  };
}
