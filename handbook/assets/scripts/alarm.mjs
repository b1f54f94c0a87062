/** One timer that rings when something has not come in time. */

/** What has come already, but waits behind the timer to be heard, still counts: a page that slept finds both at once. */
const GRACE = 50;

export class Alarm {
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #timer;
  #setAt = 0;
  #ring = () => {};

  /**
   * @param {number} milliseconds From now.
   * @param {() => void} ring
   */
  set(milliseconds, ring) {
    this.#setAt = performance.now();
    this.#ring = ring;
    this.#wait(milliseconds);
  }

  /**
   * Ring earlier.
   * @param {number} milliseconds From when it was set.
   */
  shorten(milliseconds) {
    this.#wait(milliseconds - (performance.now() - this.#setAt));
  }

  clear() {
    clearTimeout(this.#timer);
  }

  /** @param {number} milliseconds */
  #wait(milliseconds) {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      this.#timer = setTimeout(this.#ring, GRACE);
    }, Math.max(0, milliseconds - GRACE));
  }
}
