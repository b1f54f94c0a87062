/**
 * What is asked of Python and not answered yet. One request is with the worker at a time. A newer request of the same
 * asker takes the place of one that still waits, and the answer to one that was overtaken is dropped: what is shown
 * always belongs to what is typed.
 */

/** @import { Answer, Request } from "./protocol.mjs" */

/**
 * @typedef {object} Job
 * @property {number} id
 * @property {object} asker
 * @property {string} request
 * @property {number} tries How often it has been with a worker.
 * @property {boolean} overtaken Nobody waits for it any more.
 * @property {(answer: Answer | null) => void} resolve
 * @property {(why: Error) => void} reject
 */

const MOST_TRIES = 2;

export class Requests {
  /** @type {Map<object, Job>} */
  #waiting = new Map();
  /** @type {Job | null} */
  #withWorker = null;
  #lastId = 0;

  /** The one that the worker has. */
  get withWorker() {
    return this.#withWorker;
  }

  /**
   * @param {object} asker
   * @param {Request} request
   * @returns {Promise<Answer | null>} null when a newer request overtook this one.
   */
  add(asker, request) {
    return new Promise((resolve, reject) => {
      const job = { id: 0, asker, request: JSON.stringify(request), tries: 0, overtaken: false, resolve, reject };
      this.#waiting.set(asker, job);
    });
  }

  /**
   * Drop what an asker still waits for.
   * @param {object} asker
   * @returns {boolean} Whether the worker is left with what nobody waits for any more.
   */
  forget(asker) {
    this.#waiting.get(asker)?.resolve(null);
    this.#waiting.delete(asker);
    if (this.#withWorker?.asker !== asker || this.#withWorker.overtaken) return false;
    this.#withWorker.overtaken = true;
    return true;
  }

  /** @returns {Job | null} The next one for the worker, when it has none and one waits. */
  next() {
    const [job] = this.#waiting.values();
    if (this.#withWorker || !job) return null;
    this.#waiting.delete(job.asker);
    this.#withWorker = job;
    job.tries += 1;
    job.id = this.#lastId += 1;
    return job;
  }

  /** @param {string} text What the worker has answered. */
  answered(text) {
    const job = this.#withWorker;
    this.#withWorker = null;
    job?.resolve(job.overtaken ? null : JSON.parse(text));
  }

  /** The worker did not get as far as answering: what it was asked ahead waits again, unless something newer does. */
  takeBack() {
    const job = this.#withWorker;
    this.#withWorker = null;
    if (!job) return;
    job.tries -= 1;
    if (job.overtaken) job.resolve(null);
    else this.#waiting.set(job.asker, job);
  }

  /**
   * The worker is gone without an answer. The request is asked once more, unless it was that which brought Python down.
   * @param {string} why
   * @param {boolean} mayBeAskedAgain
   */
  unanswered(why, mayBeAskedAgain) {
    const job = this.#withWorker;
    this.#withWorker = null;
    if (job?.overtaken) job.resolve(null);
    else if (job && !mayBeAskedAgain) job.reject(new Error(why));
    else if (job && job.tries >= MOST_TRIES) job.reject(new Error(`${why}, twice`));
    else if (job) this.#waiting.set(job.asker, job);
  }
}
