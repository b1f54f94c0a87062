/**
 * Entry of the Python worker of a page opened from disk: one classic script with Pyodide in it. The page hands it
 * its files as base64 of gzip.
 */

import "./python-loader.mjs";
import { meetPages } from "./audience.mjs";
import { gunzipBytes } from "./gunzip.mjs";
import { STARTS_FROM, wayNamed } from "./protocol.mjs";
import { runPythonWorker } from "./python-worker.mjs";

/** @import { FileName, ToWorker } from "./protocol.mjs" */

/** @type {Map<FileName, (text: string) => void>} */
const awaited = new Map();

self.addEventListener("message", (event) => {
  /** @type {ToWorker} */
  const message = event.data;
  if (message.verb === "file") awaited.get(message.name)?.(message.data);
});

/**
 * @param {FileName} name
 * @returns {Promise<Uint8Array<ArrayBuffer>>}
 */
async function take(name) {
  const text = await new Promise((resolve) => awaited.set(name, resolve));
  return gunzipBytes(
    Uint8Array.fromBase64 ? Uint8Array.fromBase64(text) : Uint8Array.from(atob(text), (c) => c.charCodeAt(0)),
  );
}

const way = wayNamed(self.name);
const data = take("data").then((bytes) => JSON.parse(new TextDecoder().decode(bytes)));

runPythonWorker({
  way,
  ...meetPages(),
  ingredients: {
    module: take("wasm").then((bytes) => WebAssembly.compile(bytes)),
    startsFrom: take(STARTS_FROM[way]),
    sound: Promise.resolve(), // They come packed, with a checksum in them.
    standards: data.then(({ standards }) => standards),
  },
  procedures: data.then(({ procedures }) => procedures),
  takePyodide: () => {
    if (!self.threepinPython) throw new Error("the script of Python is damaged");
    return self.threepinPython;
  },
});
