/**
 * Hands Pyodide files that are already on their way.
 *
 * Pyodide would fetch its wasm and standard library by itself, one after the other. Here everything is asked for at
 * once before Pyodide is even read, and Pyodide's own fetches are answered with what has arrived. Any other fetch is
 * refused: a page of this handbook asks nobody for anything.
 */

import { withTimeLimit } from "./time-limit.mjs";

/**
 * @typedef {object} Ingredients What Python is made from, each a promise, so that all of it comes side by side.
 * @property {Promise<WebAssembly.Module>} module
 * @property {Promise<Uint8Array<ArrayBuffer>>} startsFrom The snapshot of its memory, or its library.
 * @property {Promise<unknown>} sound Fails when one of these two is damaged; they may be worked with until then.
 * @property {Promise<string>} standards The text of standards.json.
 *
 * @typedef {(request: string) => string} AnswerInPython JSON text to JSON text.
 * @typedef {NonNullable<typeof threepinPython>} PyodideParts
 * @typedef {(phase: string) => void} Mark Notes that a phase of the start is over.
 */

/** What both ways of starting tell Pyodide. */
export const OPTIONS = {
  indexURL: "https://python.invalid/",
  lockFileContents: { info: PYODIDE_INFO, packages: {} },
};

/**
 * Pyodide waits for ever when a file of its own cannot be had; the reader must not.
 * @template Wanted
 * @param {Promise<unknown>[]} files
 * @param {Promise<Wanted>} wanted
 * @returns {Promise<Wanted>}
 */
export function orFail(files, wanted) {
  return new Promise((resolve, reject) => {
    for (const one of files) one.catch(reject);
    wanted.then(resolve, reject);
  });
}

/**
 * @param {Promise<WebAssembly.Module>} module
 * @param {Promise<Uint8Array<ArrayBuffer>>} library
 * @param {(instance: WebAssembly.Instance) => Promise<void>} onInstance Before anything in it has run.
 * @returns {() => void} Puts the worker's own functions back.
 */
export function answerPyodidesFetches(module, library, onInstance) {
  const { fetch } = self;
  const { instantiateStreaming } = WebAssembly;
  self.fetch = async (asked) => {
    const name = String(asked instanceof Request ? asked.url : asked).split("/").pop();
    if (name === "pyodide.asm.wasm") return new Response();
    if (name === "python_stdlib.zip") return new Response(await library);
    throw new TypeError(`Python asked for ${name}, which is not part of this handbook`);
  };
  WebAssembly.instantiateStreaming = async (_, imports) => {
    const compiled = await module;
    const instance = await WebAssembly.instantiate(compiled, imports);
    await onInstance(instance);
    return { module: compiled, instance };
  };
  return () => {
    self.fetch = fetch;
    WebAssembly.instantiateStreaming = instantiateStreaming;
  };
}

/** The longest that one answer may take, in milliseconds. Some hundredths of a second is usual, on a slow phone tenths. */
const LONGEST_ANSWER = 3_000;

/**
 * The answering function of a Python that runs, with the limits of this site.
 * @param {import("pyodide").PyodideAPI} python
 * @param {string} standardsText
 * @returns {AnswerInPython}
 */
export function answerWith(python, standardsText) {
  const standards = python.pyimport("calculators.limits").Standards.from_json(standardsText);
  const { answer } = python.pyimport("calculators.answer");
  const limited = withTimeLimit(python, LONGEST_ANSWER);
  return (request) => limited(() => answer(request, standards));
}
