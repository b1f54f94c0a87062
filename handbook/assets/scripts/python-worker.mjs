/** What a Python worker does once it knows where its files come from: boot, say so, answer. Same over http and from disk. */

import { bootOrdinary } from "./boot-ordinary.mjs";
import { bootSnapshot } from "./boot-snapshot.mjs";
import { holdLifeLine } from "./life-line.mjs";

/** @import { Audience, Hear } from "./audience.mjs" */
/** @import { Broke, Procedures, Way } from "./protocol.mjs" */
/** @import { AnswerInPython, Ingredients, PyodideParts } from "./pyodide-files.mjs" */

const BOOTS = { snapshot: bootSnapshot, ordinary: bootOrdinary };

/**
 * @typedef {object} Situation Where a worker finds itself.
 * @property {Way} way How Python is to be started.
 * @property {Audience} audience
 * @property {Ingredients} ingredients
 * @property {Promise<Procedures>} procedures
 * @property {() => PyodideParts | Promise<PyodideParts>} takePyodide Reads Pyodide's own script; everything else is on
 *   its way by then.
 * @property {() => void} giveUp Called after this worker has said that it can do nothing more.
 */

/** @param {Situation} situation */
export async function runPythonWorker({ way, audience, ingredients, procedures, takePyodide, giveUp }) {
  /** @type {Record<string, number>} */
  const phases = {};
  const mark = (/** @type {string} */ phase) => { phases[phase] = Math.round(performance.now()); };
  try {
    const alive = holdLifeLine(self.name).then((lock) => audience.tell({ kind: "alive", lock }));
    Promise.all([...Object.values(ingredients), procedures]).then(() => {
      mark("loaded");
      audience.tell({ kind: "loaded" });
    }, () => {});
    const pyodideParts = await takePyodide();
    mark("read");
    const answer = await BOOTS[way](ingredients, pyodideParts, mark);
    const [told] = await Promise.all([procedures, ingredients.sound]);
    await alive; // What is told after `ready` nobody hears who is here already.
    mark("ready");
    audience.tell({ kind: "ready", boot: way, found: false, procedures: told, phases });
    audience.answerWith(answering(answer, giveUp));
  } catch (why) {
    audience.tell({ kind: "failed", why: inOneLine(why) });
    giveUp();
  }
}

/**
 * @param {AnswerInPython} answer
 * @param {() => void} giveUp
 * @returns {Hear}
 */
function answering(answer, giveUp) {
  return (message, reply) => {
    if (message.verb !== "answer") return;
    try {
      reply({ kind: "answer", id: message.id, answer: answer(message.request) });
    } catch (why) {
      const broke = brokenBy(why);
      reply({ kind: "broke", id: message.id, ...broke });
      if (broke.fault !== "late") giveUp();
    }
  };
}

/**
 * @param {unknown} why
 * @returns {Broke}
 */
function brokenBy(why) {
  const type = why instanceof Error && "type" in why ? why.type : "";
  if (type === "KeyboardInterrupt") return { fault: "late", why: "it took too long" };
  if (type === "MemoryError") return { fault: "memory", why: "it ran out of memory" };
  return { fault: "other", why: inOneLine(why) };
}

/** @param {unknown} why */
function inOneLine(why) {
  const text = why instanceof Error ? why.message : String(why);
  return text.trim().split("\n").pop() ?? "";
}
