/**
 * One Python for the visit, in a worker: starts it, asks it, notices when it hangs or dies, and starts it again.
 *
 * The worker is one that all pages share, where the browser has one that outlives a page; a page that has had trouble
 * with it goes on with one of its own, and leaves the others theirs.
 */

import { Alarm } from "./alarm.mjs";
import { followLifeLine } from "./life-line.mjs";
import { PATIENCE } from "./python-state.mjs";
import { startWords } from "./python-words.mjs";
import { Requests } from "./requests.mjs";

/** @import { Answer, FromWorker, Procedures, Request, Way } from "./protocol.mjs" */
/** @import { Connection, OpenWorker, PythonState, Start } from "./python-state.mjs" */

const MOST_STARTS = 2;
/** How often a Python may die one time after another without an answer in between. */
const MOST_DEATHS = 3;

export class PythonClient {
  /** @type {PythonState} */
  #state = { name: "off" };
  /** @type {Connection | null} */
  #connection = null;
  /** Counts the connections, so that late words from one that was given up are not heard. */
  #generation = 0;
  /** Starts that failed one after another. */
  #failedStarts = 0;
  #deaths = 0;
  /** @type {Way} The snapshot, until it has failed; then the ordinary way, until the reader asks to try again. */
  #way = "snapshot";
  /** @type {Start[]} Every start of this visit, the last one behind. */
  #starts = [];
  #startedAt = 0;
  #requests = new Requests();
  /** @type {Set<(state: PythonState) => void>} */
  #listeners = new Set();
  /** @type {Procedures} */
  #procedures = {};
  #alarm = new Alarm();
  #greeting = new Alarm();
  #isGreeted = false;
  #lock = "";
  #unfollow = () => {};

  /**
   * @param {OpenWorker} openWorker
   * @param {boolean} shares Whether pages share a worker here.
   * @param {typeof PATIENCE} patience
   */
  constructor(openWorker, shares, patience = PATIENCE) {
    this.openWorker = openWorker;
    this.shares = shares;
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
    if (this.#state.name === "failed") {
      this.#failedStarts = this.#deaths = 0;
      this.#way = "snapshot";
    } else if (this.#state.name !== "off") return;
    this.#open("");
  }

  /**
   * @param {object} asker Whoever asks; a newer request of the same asker replaces an older one.
   * @param {Request} request
   * @returns {Promise<Answer | null>} null when a newer request overtook this one.
   */
  ask(asker, request) {
    this.forget(asker);
    const answer = this.#requests.add(asker, request);
    if (this.#state.name === "off") this.#open("");
    else this.#sendNext();
    return answer;
  }

  /**
   * Drop what an asker still waits for. Whatever has been worked on for too long by then is given up.
   * @param {object} asker
   */
  forget(asker) {
    if (this.#requests.forget(asker) && this.#state.name === "ready") this.#alarm.shorten(this.patience.overtaken);
  }

  /** The page goes to sleep, as one behind the back button does: let go of what would keep it from that. */
  rest() {
    this.#unfollow();
  }

  /** The page is back, and whatever has happened to the worker meanwhile is heard now. */
  wake() {
    if (this.#connection) this.#follow(this.#lock);
  }

  /** @param {string} why Python is being brought back, in a clause; empty at its first start. */
  #open(why) {
    const generation = ++this.#generation;
    const current = () => generation === this.#generation;
    const way = this.#way;
    const shared = this.shares && way === "snapshot";
    const again = this.#starts.length > 0;
    this.#starts.push({ way, shared, found: false, ended: "starting", why: "", milliseconds: 0, phases: {} });
    this.#startedAt = performance.now();
    this.#change({ name: "starting", again, way, why });
    this.#alarm.set(this.patience.loading, () => this.#startFailed("its files did not arrive; check the network"));
    this.openWorker(way, shared, {
      onMessage: (message) => current() && this.#hear(message),
      onError: (error) => current() && this.#died(error),
    }).then(
      (connection) => {
        if (!current()) return connection.end();
        this.#connection = connection;
        this.#startedAt = connection.askedAt ?? this.#startedAt;
        this.#sendNext();
        if (shared && !this.#isGreeted) this.#awaitGreeting(connection);
      },
      (error) => current() && this.#startFailed(String(error.message ?? error)),
    );
  }

  /**
   * A shared worker that runs and does not greet hangs, and would for every page that came.
   * @param {Connection} connection
   */
  #awaitGreeting(connection) {
    this.#greeting.set(this.patience.greeting, async () => {
      const isHanging = await connection.isAlive?.();
      if (connection !== this.#connection || this.#isGreeted) return;
      if (isHanging) this.#died("the worker that pages share does not answer");
      else this.#awaitGreeting(connection);
    });
  }

  /** @param {FromWorker} message */
  #hear(message) {
    if (message.kind === "hello") {
      this.#greeting.clear();
      this.#isGreeted = true;
    } else if (message.kind === "alive") {
      this.#lock = message.lock;
      this.#follow(message.lock);
    } else if (message.kind === "loaded") {
      this.#alarm.set(this.patience[this.#way], () => this.#startFailed("it did not get ready in time"));
    } else if (message.kind === "ready") {
      this.#ready(message);
    } else if (message.kind === "failed") {
      this.#startFailed(message.why);
    } else if (message.id === this.#requests.withWorker?.id) {
      if (message.kind === "answer") this.#answered(message.answer);
      else this.#stumbled(message.why, message.fault !== "late");
    }
  }

  /** @param {Extract<FromWorker, {kind: "ready"}>} message */
  #ready({ found, procedures, phases }) {
    this.#alarm.clear();
    this.#procedures = procedures;
    this.#noteStart({ ended: "ready", found, phases });
    this.#change({ name: "ready" });
    this.#sendNext();
    this.#awaitAnswer();
  }

  /** A Python that is still starting has the first request with it already, and answers as soon as it can. */
  #sendNext() {
    const job = this.#connection && this.#requests.next();
    if (!job) return;
    this.#connection?.send({ verb: "answer", id: job.id, request: job.request });
    if (this.#state.name === "ready") this.#awaitAnswer();
  }

  #awaitAnswer() {
    const { withWorker } = this.#requests;
    if (!withWorker) return;
    const patience = withWorker.overtaken ? this.patience.overtaken : this.patience.answering;
    this.#alarm.set(patience, () => this.#stumbled("it did not answer", true));
  }

  /** @param {string} text */
  #answered(text) {
    this.#alarm.clear();
    this.#failedStarts = this.#deaths = 0;
    this.#requests.answered(text);
    this.#sendNext();
  }

  /** @param {string} lock */
  #follow(lock) {
    this.#unfollow();
    const generation = this.#generation;
    this.#unfollow = followLifeLine(lock, () => generation === this.#generation && this.#died("it was ended"));
  }

  /**
   * The worker is gone. When nobody waits for it, it is started again only when somebody does.
   * @param {string} why
   */
  #died(why) {
    if (this.#state.name !== "ready" || this.#requests.withWorker) return this.#stumbled(why, true);
    this.#close();
    this.#change({ name: "off" });
  }

  /**
   * The worker hung, threw or died. While starting that is a failed start; afterwards Python is started again, in a
   * worker of this page's own.
   * @param {string} why
   * @param {boolean} mayBeAskedAgain
   */
  #stumbled(why, mayBeAskedAgain) {
    if (this.#state.name === "starting") {
      return this.#starts.at(-1)?.shared ? this.#leaveShared(why) : this.#startFailed(why);
    }
    this.#close();
    this.shares = false;
    if (!this.#requests.withWorker?.overtaken) this.#deaths += 1; // Else the reader has moved on, and it was ended for that.
    this.#requests.unanswered(why, mayBeAskedAgain);
    if (this.#deaths > MOST_DEATHS) this.#change({ name: "failed", why });
    else this.#open(why);
  }

  /**
   * That says nothing against the snapshot, which is tried again in a worker of this page's own.
   * @param {string} why
   */
  #leaveShared(why) {
    this.#noteStart({ ended: "failed", why });
    this.#close();
    this.#requests.takeBack();
    this.shares = false;
    this.#open(why);
  }

  /**
   * A start from the snapshot that fails in any way is followed by an ordinary one, in a worker of its own.
   * @param {string} why
   */
  #startFailed(why) {
    this.#noteStart({ ended: "failed", why });
    this.#close();
    this.#requests.takeBack();
    this.#failedStarts += 1;
    this.#way = "ordinary";
    if (this.#failedStarts < MOST_STARTS) this.#open(why);
    else this.#change({ name: "failed", why });
  }

  /** @param {Partial<Start>} news */
  #noteStart(news) {
    const start = /** @type {Start} */ (this.#starts.at(-1));
    Object.assign(start, news, { milliseconds: Math.round(performance.now() - this.#startedAt) });
    console.info(startWords(start));
  }

  #close() {
    this.#alarm.clear();
    this.#greeting.clear();
    this.#unfollow();
    this.#generation += 1;
    this.#connection?.end();
    this.#connection = null;
    this.#lock = "";
    this.#isGreeted = false;
  }

  /** @param {PythonState} state */
  #change(state) {
    this.#state = state;
    for (const listener of [...this.#listeners]) listener(state);
  }
}
