/** Whom a Python worker talks to: the page that it belongs to, or every page that has connected to a shared one. */

/** @import { FromWorker, ToWorker } from "./protocol.mjs" */

/**
 * @typedef {object} Voice One page, as a worker hears and reaches it.
 * @property {(message: FromWorker) => void} postMessage
 * @property {(kind: "message", listener: (event: MessageEvent) => void) => void} addEventListener
 * @property {() => void} [start] Of a port: begin to deliver.
 *
 * @typedef {(message: ToWorker, reply: (message: FromWorker) => void) => void} Hear
 */

export class Audience {
  /** @type {FromWorker[]} What whoever comes later has to hear as well. */
  #told = [];
  /** @type {Voice[] | null} Those that wait for Python, the one that had the worker started first; null afterwards. */
  #waiting = [];
  /** @type {Parameters<Hear>[]} What pages ask before Python can answer. */
  #early = [];
  /** @type {Hear} */
  #hear = (message, reply) => void (message.verb === "answer" && this.#early.push([message, reply]));

  /** @param {Voice} voice */
  join(voice) {
    voice.addEventListener("message", (event) => this.#hear(event.data, (message) => voice.postMessage(message)));
    voice.start?.();
    voice.postMessage({ kind: "hello" }); // At once: what comes next may take this worker long.
    for (const message of this.#told) voice.postMessage({ ...message, ...(message.kind === "ready" && { found: true }) });
    this.#waiting?.push(voice);
  }

  /** @param {FromWorker} message */
  tell(message) {
    this.#told.push(message);
    for (const [place, voice] of (this.#waiting ?? []).entries()) {
      voice.postMessage({ ...message, ...(message.kind === "ready" && { found: place > 0 }) });
    }
  }

  /**
   * Python can answer: from here on each page gets its own answers, first to what was asked meanwhile.
   * @param {Hear} hear
   */
  answerWith(hear) {
    this.#hear = hear;
    this.#waiting = null;
    for (const [message, reply] of this.#early.splice(0)) hear(message, reply);
  }
}

/**
 * @typedef {object} Meeting
 * @property {Audience} audience
 * @property {Promise<void>} begun A shared worker greets the page that had it started before it does what takes long.
 * @property {() => void} giveUp Called when this worker can do nothing more: a page ends its own, but of a shared one
 *   the next page must find none.
 */

/**
 * Wait for the page that this worker belongs to, or for all pages that connect to it.
 * @returns {Meeting}
 */
export function meetPages() {
  const audience = new Audience();
  if (!("onconnect" in self)) {
    audience.join(self);
    return { audience, begun: Promise.resolve(), giveUp: () => {} };
  }
  /** @type {Promise<void>} */
  const begun = new Promise((begin) => {
    self.addEventListener("connect", (event) => {
      audience.join(/** @type {MessageEvent} */ (event).ports[0]);
      begin();
    });
  });
  return { audience, begun, giveUp: () => self.close() };
}
