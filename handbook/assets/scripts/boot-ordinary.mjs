/** Starts Python the ordinary way, with Pyodide's public options only, from the library that the build has trimmed. */

import { OPTIONS, answerPyodidesFetches, answerWith, orFail } from "./pyodide-files.mjs";

/** @import { AnswerInPython, Ingredients, Mark, PyodideParts } from "./pyodide-files.mjs" */

/**
 * @param {Ingredients} ingredients
 * @param {PyodideParts} pyodideParts
 * @param {Mark} mark
 * @returns {Promise<AnswerInPython>}
 */
export async function bootOrdinary(ingredients, { loadPyodide, createPyodideModule }, mark) {
  const instantiated = async () => mark("instantiated");
  const giveBack = answerPyodidesFetches(ingredients.module, ingredients.startsFrom, instantiated);
  try {
    const python = await orFail(Object.values(ingredients), loadPyodide({
      ...OPTIONS,
      createPyodideModule,
      env: { PYTHONHASHSEED: "0", PYTHONOPTIMIZE: "2" },
    }));
    mark("started");
    return answerWith(python, await ingredients.standards);
  } finally {
    giveBack();
  }
}
