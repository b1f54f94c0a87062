/**
 * One Python for the page, in a worker: starts it, asks it, notices when it hangs or dies, and starts it again.
 *
 * One request is with the worker at a time. A newer request of the same asker takes the place of one that still
 * waits, and the answer to one that was overtaken is dropped: what is shown always belongs to what is typed.
 */

import { startWords } from "./python-words.mjs";

/** @import { Answer, FromWorker, Request, Way } from "./protocol.mjs" */

/**
 * @typedef {{name: "off"} | {name: "starting", again: boolean, way: Way} | {name: "ready"}
 *   | {name: "failed", why: string}} PythonState
 *
 * @typedef {object} Start One start of Python, for whoever wants to know how it went.
 * @property {Way} way
 * @property {"starting" | "ready" | "failed"} ended
 * @property {string} why Why it failed; empty otherwise.
 * @property {number} milliseconds From asking for the worker until it was ready or given up.
 * @property {Record<string, number>} phases After how many milliseconds of the worker's life each phase was over.
 *
 * @typedef {{onMessage: (message: FromWorker) => void, onError: (why: string) => void}} WorkerEvents
 * @typedef {(way: Way, events: WorkerEvents) => Promise<Worker>} OpenWorker
 *
 * @typedef {{asker: object, request: string, tries: number, overtaken: boolean,
 *   resolve: (answer: Answer | null) => void, reject: (why: Error) => void}} Job
 */

/**
 * Milliseconds. Reading over a slow network; starting on a slow phone, from the snapshot and the ordinary way; answering
 * (some hundredths of a second).
 */
export const PATIENCE = { loading: 180_000, snapshot: 10_000, ordinary: 60_000, answering: 5_000 };

const MOST_STARTS = 2;

export class PythonClient {
  /** @type {PythonState} */
  #state = { name: "off" };
  /** @type {Worker | null} */
  #worker = null;
  /** Counts the workers, so that late words from one that was given up are not heard. */
  #generation = 0;
  /** Starts that failed one after another. */
  #failedStarts = 0;
  /** @type {Way} The snapshot, until it has failed; then the ordinary way, until the reader asks to try again. */
  #way = "snapshot";
  /** @type {Start[]} Every start of this visit, the last one behind. */
  #starts = [];
  #startedAt = 0;
  /** @type {Job | null} */
  #withWorker = null;
  /** @type {Map<object, Job>} */
  #waiting = new Map();
  /** @type {Set<(state: PythonState) => void>} */
  #listeners = new Set();
  /** @type {import("./protocol.mjs").Procedures} */
  #procedures = {};
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #alarm;
  #lastId = 0;

  /**
   * @param {OpenWorker} openWorker
   * @param {typeof PATIENCE} patience
   */
  constructor(openWorker, patience = PATIENCE) {
    this.openWorker = openWorker;
    this.patience = patience;
  }

  /** @returns {PythonState} */
  get state() {
    return this.#state;
  }

  /** Every start of this visit. */
  get starts() {
    return /** @type {readonly Start[]} */ (this.#starts);
  }

  /** Titles and levels of the procedures that answers may name; empty until Python is ready. */
  get procedures() {
    return this.#procedures;
  }

  /**
   * Hear every change of state, the present one at once.
   * @param {(state: PythonState) => void} listener
   * @returns {() => void} Stops it.
   */
  subscribe(listener) {
    this.#listeners.add(listener);
    listener(this.#state);
    return () => this.#listeners.delete(listener);
  }

  /** Start Python, unless it runs or starts already. After a failure this tries afresh. */
  start() {
    if (this.#state.name === "off" || this.#state.name === "failed") {
      this.#failedStarts = 0;
      this.#way = "snapshot";
      this.#open(false);
    }
  }

  /**
   * @param {object} asker Whoever asks; a newer request of the same asker replaces an older one.
   * @param {Request} request
   * @returns {Promise<Answer | null>} null when a newer request overtook this one.
   */
  ask(asker, request) {
    this.forget(asker);
    return new Promise((resolve, reject) => {
      const job = { asker, request: JSON.stringify(request), tries: 0, overtaken: false, resolve, reject };
      this.#waiting.set(asker, job);
      this.#sendNext();
    });
  }

  /**
   * Drop what an asker still waits for.
   * @param {object} asker
   */
  forget(asker) {
    this.#waiting.get(asker)?.resolve(null);
    this.#waiting.delete(asker);
    if (this.#withWorker?.asker === asker) this.#withWorker.overtaken = true;
  }

  /** @param {boolean} again Whether Python ran before and is being brought back. */
  #open(again) {
    const generation = ++this.#generation;
    const current = () => generation === this.#generation;
    const way = this.#way;
    this.#starts.push({ way, ended: "starting", why: "", milliseconds: 0, phases: {} });
    this.#startedAt = performance.now();
    this.#change({ name: "starting", again, way });
    this.#setAlarm(this.patience.loading, () =>
      this.#startFailed("its files did not arrive; check the network"),
    );
    this.openWorker(way, {
      onMessage: (message) => current() && this.#hear(message),
      onError: (why) => current() && this.#stumbled(why),
    }).then(
      (worker) => {
        if (current()) this.#worker = worker;
        else worker.terminate();
      },
      (why) => current() && this.#startFailed(String(why.message ?? why)),
    );
  }

  /** @param {FromWorker} message */
  #hear(message) {
    if (message.kind === "loaded") {
      this.#setAlarm(this.patience[this.#way], () => this.#startFailed("it did not get ready in time"));
    } else if (message.kind === "ready") {
      clearTimeout(this.#alarm);
      this.#procedures = message.procedures;
      this.#noteStart("ready", "", message.phases);
      this.#change({ name: "ready" });
      this.#sendNext();
    } else if (message.kind === "failed") {
      this.#startFailed(message.why);
    } else if (message.id === this.#lastId && this.#withWorker) {
      if (message.kind === "answer") this.#answered(this.#withWorker, message.answer);
      else this.#stumbled(message.why);
    }
  }

  #sendNext() {
    if (this.#state.name !== "ready" || !this.#worker || this.#withWorker) return;
    const [job] = this.#waiting.values();
    if (!job) return;
    this.#waiting.delete(job.asker);
    this.#withWorker = job;
    job.tries += 1;
    this.#lastId += 1;
    this.#worker.postMessage({ verb: "answer", id: this.#lastId, request: job.request });
    this.#setAlarm(this.patience.answering, () => this.#stumbled("it did not answer"));
  }

  /**
   * @param {Job} job
   * @param {string} text
   */
  #answered(job, text) {
    clearTimeout(this.#alarm);
    this.#withWorker = null;
    this.#failedStarts = 0;
    job.resolve(job.overtaken ? null : JSON.parse(text));
    this.#sendNext();
  }

  /**
   * The worker hung, threw or died. While starting that is a failed start; afterwards it is started again and the
   * request asked once more, unless it was that request which brought Python down twice.
   * @param {string} why
   */
  #stumbled(why) {
    if (this.#state.name === "starting") return this.#startFailed(why);
    const job = this.#withWorker;
    this.#close();
    if (job?.overtaken) job.resolve(null);
    else if (job && job.tries >= 2) job.reject(new Error(why));
    else if (job) this.#waiting.set(job.asker, job);
    this.#open(true);
  }

  /**
   * A start from the snapshot that fails in any way is followed by an ordinary one, in a worker of its own.
   * @param {string} why
   */
  #startFailed(why) {
    this.#noteStart("failed", why, {});
    this.#close();
    this.#failedStarts += 1;
    this.#way = "ordinary";
    if (this.#failedStarts < MOST_STARTS) this.#open(true);
    else this.#change({ name: "failed", why });
  }

  /**
   * @param {Start["ended"]} ended
   * @param {string} why
   * @param {Start["phases"]} phases
   */
  #noteStart(ended, why, phases) {
    const start = /** @type {Start} */ (this.#starts.at(-1));
    Object.assign(start, { ended, why, phases, milliseconds: Math.round(performance.now() - this.#startedAt) });
    console.info(startWords(start));
  }

  #close() {
    clearTimeout(this.#alarm);
    this.#generation += 1;
    this.#worker?.terminate();
    this.#worker = null;
    this.#withWorker = null;
  }

  /**
   * @param {number} milliseconds
   * @param {() => void} ring
   */
  #setAlarm(milliseconds, ring) {
    clearTimeout(this.#alarm);
    this.#alarm = setTimeout(ring, milliseconds);
  }

  /** @param {PythonState} state */
  #change(state) {
    this.#state = state;
    for (const listener of [...this.#listeners]) listener(state);
  }
}
