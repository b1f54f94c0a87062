/**
 * Starts Python the ordinary way, with Pyodide's public options only, from files that are already on their way.
 *
 * Pyodide would fetch its wasm and standard library by itself, one after the other. Here everything is asked for at
 * once before Pyodide is even read, and Pyodide's own fetches are answered with what has arrived. Any other fetch is
 * refused: a page of this handbook asks nobody for anything.
 */

/**
 * @typedef {object} Ingredients What Python is made from, each a promise, so that all of it comes side by side.
 * @property {Promise<WebAssembly.Module>} module
 * @property {Promise<Uint8Array<ArrayBuffer>>} stdlib
 * @property {Promise<Uint8Array<ArrayBuffer>>} calculators
 * @property {Promise<string>} standards The text of standards.json.
 *
 * @typedef {(request: string) => string} AnswerInPython JSON text to JSON text.
 * @typedef {NonNullable<typeof threepinPython>} PyodideParts
 */

const NOWHERE = "https://python.invalid/";
const CALCULATORS_ZIP = "/calculators.zip";

/**
 * @param {Ingredients} ingredients
 * @param {PyodideParts} pyodideParts
 * @returns {Promise<AnswerInPython>}
 */
export async function bootOrdinary(ingredients, { loadPyodide, createPyodideModule }) {
  const giveBack = answerPyodidesFetches(ingredients);
  try {
    const python = await orFail(ingredients, loadPyodide({
      indexURL: NOWHERE,
      lockFileContents: { info: PYODIDE_INFO, packages: {} },
      createPyodideModule,
      env: { PYTHONHASHSEED: "0" },
    }));
    python.FS.writeFile(CALCULATORS_ZIP, await ingredients.calculators);
    python.pyimport("sys").path.insert(0, CALCULATORS_ZIP);
    const standards = python.pyimport("calculators.limits").Standards.from_json(await ingredients.standards);
    const { answer } = python.pyimport("calculators.answer");
    return (request) => answer(request, standards);
  } finally {
    giveBack();
  }
}

/**
 * Pyodide waits for ever when a file of its own cannot be had; the reader must not.
 * @template Wanted
 * @param {Ingredients} ingredients
 * @param {Promise<Wanted>} wanted
 * @returns {Promise<Wanted>}
 */
function orFail(ingredients, wanted) {
  return new Promise((resolve, reject) => {
    for (const one of Object.values(ingredients)) one.catch(reject);
    wanted.then(resolve, reject);
  });
}

/**
 * @param {Ingredients} ingredients
 * @returns {() => void} Puts the worker's own functions back.
 */
function answerPyodidesFetches({ module, stdlib }) {
  const { fetch } = self;
  const { instantiateStreaming } = WebAssembly;
  self.fetch = async (asked) => {
    const name = String(asked instanceof Request ? asked.url : asked).split("/").pop();
    if (name === "pyodide.asm.wasm") return new Response();
    if (name === "python_stdlib.zip") return new Response(await stdlib);
    throw new TypeError(`Python asked for ${name}, which is not part of this handbook`);
  };
  WebAssembly.instantiateStreaming = async (_, imports) => {
    const compiled = await module;
    return { module: compiled, instance: await WebAssembly.instantiate(compiled, imports) };
  };
  return () => {
    self.fetch = fetch;
    WebAssembly.instantiateStreaming = instantiateStreaming;
  };
}
