/** What a Python worker does once it knows where its files come from: boot, say so, answer. Same over http and from disk. */

import { bootOrdinary } from "./boot-ordinary.mjs";

/** @import { FromWorker, Procedures, ToWorker } from "./protocol.mjs" */
/** @import { AnswerInPython, Ingredients, PyodideParts } from "./boot-ordinary.mjs" */

/**
 * @param {Ingredients} ingredients
 * @param {Promise<Procedures>} procedures
 * @param {() => PyodideParts} takePyodide Reads Pyodide's own script; everything else is on its way by then.
 */
export async function runPythonWorker(ingredients, procedures, takePyodide) {
  try {
    Promise.all([...Object.values(ingredients), procedures]).then(() => say({ kind: "loaded" }), () => {});
    const answer = await bootOrdinary(ingredients, takePyodide());
    self.addEventListener("message", (event) => reply(answer, event.data));
    say({ kind: "ready", boot: "ordinary", procedures: await procedures });
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
