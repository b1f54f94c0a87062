/**
 * Starts Python by restoring its memory as it was when the site was built: calculators imported, everything run a few
 * times. Nothing is loaded or executed to get there, which makes it several times faster than the ordinary way.
 *
 * The options for this are not public ones, so the version of Pyodide is pinned, the build restores each snapshot
 * before it goes into the site, and the page starts the ordinary way when anything here throws or hangs.
 */

import { OPTIONS, answerPyodidesFetches, answerWith, orFail } from "./pyodide-files.mjs";
import { layMemory, readMemory } from "./sparse-memory.mjs";

/** @import { AnswerInPython, Ingredients, Mark, PyodideParts } from "./pyodide-files.mjs" */

/** Pyodide wants a library to be there. Everything that is used is in the memory already. */
const EMPTY_ZIP = new Uint8Array([0x50, 0x4b, 5, 6, ...new Array(18).fill(0)]);

/**
 * @param {Ingredients} ingredients
 * @param {PyodideParts} pyodideParts
 * @param {Mark} mark
 * @returns {Promise<AnswerInPython>}
 */
export async function bootSnapshot(ingredients, pyodideParts, mark) {
  const python = await restorePython(ingredients, pyodideParts, mark);
  return answerWith(python, await ingredients.standards);
}

/**
 * @param {Ingredients} ingredients
 * @param {PyodideParts} pyodideParts
 * @param {Mark} mark
 */
export async function restorePython(ingredients, { loadPyodide, createPyodideModule }, mark) {
  const sparse = ingredients.startsFrom.then(readMemory);
  /** What the wasm file lays into memory, before anything has run. */
  let pristine = new Uint8Array(0);
  const keepPristine = async (/** @type {WebAssembly.Instance} */ instance) => {
    const memory = /** @type {WebAssembly.Memory} */ (instance.exports.memory);
    const { text } = await sparse;
    pristine = new Uint8Array(memory.buffer, 0, text.pristineBytes).slice();
    mark("instantiated");
  };
  const giveBack = answerPyodidesFetches(ingredients.module, Promise.resolve(EMPTY_ZIP), keepPristine);
  try {
    const python = await orFail([...Object.values(ingredients), sparse], loadPyodide({
      ...OPTIONS,
      // Pyodide would wait for the whole memory before it does anything; this only says that one will come.
      _loadSnapshot: new Uint8Array(0),
      createPyodideModule: async (settings) => {
        const wasm = await createPyodideModule(settings);
        const read = await sparse;
        wasm.API.restoreSnapshot = () => {
          restore(wasm, read, pristine);
          mark("restored");
          return read.text.state;
        };
        return wasm;
      },
    }));
    reseed(python);
    return python;
  } finally {
    giveBack();
  }
}

/**
 * @param {any} wasm
 * @param {import("./sparse-memory.mjs").SparseMemory} read
 * @param {Uint8Array} pristine
 */
function restore(wasm, read, pristine) {
  const { buildId, memoryBytes } = read.text;
  if (buildId !== wasm.API.config.BUILD_ID) throw new Error("the snapshot belongs to another version of Python");
  if (memoryBytes > wasm.HEAPU8.length && !wasm._emscripten_resize_heap(memoryBytes)) {
    throw new Error("there is not enough memory for the snapshot");
  }
  wasm.HEAPU8.fill(0, pristine.length, wasm._sbrk(0));
  wasm.HEAPU8.set(pristine);
  layMemory(read, wasm.HEAPU32);
}

/**
 * Every restored Python would draw the same random numbers as every other. The order of sets stays the same
 * everywhere, here and in the ordinary way, and is meant to.
 * @param {import("pyodide").PyodideAPI} python
 */
function reseed(python) {
  python.pyimport("random").seed();
}
