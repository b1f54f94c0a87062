/**
 * What the page and the Python worker say to each other: the one file that both sides read.
 *
 * The page has one verb, `answer`. The request and the answer are JSON text, as calculators/answer.py reads and
 * writes them; the worker does not look inside the request.
 */

/**
 * @typedef {{text: string, unit: string}} Typed What one field holds: the text as typed, the unit picked beside it.
 * @typedef {{calculator: string, date: string, inputs: Record<string, Typed>}} Request
 *
 * @typedef {{input: string, message: string}} Problem
 * @typedef {{key: string, text: string, meaning: string, basis: string, source: string, in_force_from: string,
 *   checked_on: string, decided_by: string}} Limit
 * @typedef {{reading: string, resolution: string, condition: string, enter_in: string, entry: string}} Decider
 * @typedef {{name: string, verdict: "within" | "watch" | "outside" | "undecided", stop: boolean, sentence: string,
 *   plain: string, next: {text: string, procedure: string}, limit: Limit | null, decider: Decider | null}} Finding
 * @typedef {{name: string, label: string, plain: string, value: string, unit: string, text: string, band: string,
 *   also: string[]}} Result
 * @typedef {{label: string, formula: string, put_in: string, result: string, source: string}} Step
 * @typedef {{name: string, svg: string, alt: string, words: string}} Figure
 * @typedef {{calculator: string, date: string, revision: string, results: Result[], findings: Finding[],
 *   working: Step[], figures: Figure[], notes: string[], asks: string[], limits: Limit[]}} Outcome
 * @typedef {{calculator: string, problems: Problem[]}} Refusal
 * @typedef {Outcome | Refusal} Answer
 *
 * @typedef {Record<string, {title: string, level: string}>} Procedures
 */

/**
 * Page to worker. `file` carries one file of the site from disk, where a worker cannot read for itself:
 * its bytes, gzip-compressed, in base64.
 * @typedef {{verb: "answer", id: number, request: string} | {verb: "file", name: FileName, data: string}} ToWorker
 */

/**
 * @typedef {"snapshot" | "ordinary"} Way How Python is started; the page says it by the first word of the worker's name.
 * @typedef {"wasm" | "snapshot" | "library" | "data"} FileName
 */

/**
 * The file that Python is started from, each way.
 * @type {Readonly<Record<Way, "snapshot" | "library">>}
 */
export const STARTS_FROM = { snapshot: "snapshot", ordinary: "library" };

/**
 * @param {string} name A worker's name.
 * @returns {Way}
 */
export function wayNamed(name) {
  return name.split(" ")[0] === "ordinary" ? "ordinary" : "snapshot";
}

/**
 * Why an answer never came: it took too long, there was not enough memory, or Python threw something else.
 * @typedef {{fault: "late" | "memory" | "other", why: string}} Broke
 */

/**
 * Worker to page. `hello`: it hears this page. `alive`: it holds a lock of this name for as long as it runs. `loaded`:
 * every byte has arrived, Python starts now. `ready`: it can answer; how it was booted, whether this page found a worker
 * that another one had started, and after how many milliseconds each phase was over. `failed`: it cannot start.
 * `answer`: the answer to one request. `broke`: the answer never came.
 * @typedef {{kind: "hello"} | {kind: "alive", lock: string} | {kind: "loaded"}
 *   | {kind: "ready", boot: Way, found: boolean, procedures: Procedures, phases: Record<string, number>}
 *   | {kind: "failed", why: string} | {kind: "answer", id: number, answer: string}
 *   | {kind: "broke", id: number} & Broke} FromWorker
 */

/**
 * An answer that asks for entries to be mended, not one with an outcome.
 * @param {Answer} answer
 * @returns {answer is Refusal}
 */
export function isRefusal(answer) {
  return "problems" in answer;
}
