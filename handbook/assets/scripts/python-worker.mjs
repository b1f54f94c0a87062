/** What a Python worker does once it knows where its files come from: boot, say so, answer. Same over http and from disk. */

import { bootOrdinary } from "./boot-ordinary.mjs";
import { bootSnapshot } from "./boot-snapshot.mjs";

/** @import { FromWorker, Procedures, ToWorker, Way } from "./protocol.mjs" */
/** @import { AnswerInPython, Ingredients, PyodideParts } from "./pyodide-files.mjs" */

const BOOTS = { snapshot: bootSnapshot, ordinary: bootOrdinary };

/**
 * @param {Way} way
 * @param {Ingredients} ingredients
 * @param {Promise<Procedures>} procedures
 * @param {() => PyodideParts} takePyodide Reads Pyodide's own script; everything else is on its way by then.
 */
export async function runPythonWorker(way, ingredients, procedures, takePyodide) {
  /** @type {Record<string, number>} */
  const phases = {};
  const mark = (/** @type {string} */ phase) => { phases[phase] = Math.round(performance.now()); };
  try {
    Promise.all([...Object.values(ingredients), procedures]).then(() => {
      mark("loaded");
      say({ kind: "loaded" });
    }, () => {});
    const pyodideParts = takePyodide();
    mark("read");
    const answer = await BOOTS[way](ingredients, pyodideParts, mark);
    self.addEventListener("message", (event) => reply(answer, event.data));
    const told = await procedures;
    mark("ready");
    say({ kind: "ready", boot: way, procedures: told, phases });
  } catch (why) {
    say({ kind: "failed", why: inOneLine(why) });
  }
}

/**
 * @param {AnswerInPython} answer
 * @param {ToWorker} message
 */
function reply(answer, message) {
  if (message.verb !== "answer") return;
  try {
    say({ kind: "answer", id: message.id, answer: answer(message.request) });
  } catch (why) {
    say({ kind: "broke", id: message.id, why: inOneLine(why) });
  }
}

/** @param {FromWorker} message */
function say(message) {
  self.postMessage(message);
}

/** @param {unknown} why */
function inOneLine(why) {
  const text = why instanceof Error ? why.message : String(why);
  return text.trim().split("\n").pop() ?? "";
}
