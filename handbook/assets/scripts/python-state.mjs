/** How it stands with Python, as a page sees it, and how long a page waits for what. */

/** @import { FromWorker, ToWorker, Way } from "./protocol.mjs" */

/**
 * @typedef {{name: "off"} | {name: "starting", again: boolean, way: Way, why: string} | {name: "ready"}
 *   | {name: "failed", why: string}} PythonState
 *
 * @typedef {object} Start One start of Python, for whoever wants to know how it went.
 * @property {Way} way
 * @property {boolean} shared Whether it is in the worker that pages share.
 * @property {boolean} found Whether another page had started that already.
 * @property {"starting" | "ready" | "failed"} ended
 * @property {string} why Why it failed; empty otherwise.
 * @property {number} milliseconds From asking for the worker until it was ready or given up.
 * @property {Record<string, number>} phases After how many milliseconds of the worker's life each phase was over.
 *
 * @typedef {object} Connection To a worker.
 * @property {(message: ToWorker) => void} send
 * @property {() => void} end Ends a worker of the page's own, leaves a shared one.
 * @property {number} [askedAt] When the worker was asked for, where that was before anybody listened to it.
 * @property {() => Promise<boolean>} [isAlive] Of a shared worker: whether it runs, heard from or not.
 *
 * @typedef {{onMessage: (message: FromWorker) => void, onError: (why: string) => void}} WorkerEvents
 * @typedef {(way: Way, shared: boolean, events: WorkerEvents) => Promise<Connection>} OpenWorker
 */

/**
 * Milliseconds. Reading over a slow network; starting on a slow phone, from the snapshot and the ordinary way; answering
 * (some hundredths of a second; the worker gives up by itself after three); answering what nobody waits for any more,
 * while somebody waits for the next; greeting a page, by a shared worker that runs.
 */
export const PATIENCE = {
  loading: 180_000, snapshot: 10_000, ordinary: 60_000, answering: 5_000, overtaken: 1_000, greeting: 5_000,
};
