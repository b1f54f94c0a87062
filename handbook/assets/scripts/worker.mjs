/**
 * Entry of worker.js, the Python worker of served pages: one that belongs to a page, or one that all pages share.
 * Everything is fetched at once, before Pyodide is read.
 */

import { meetPages } from "./audience.mjs";
import { gunzipStream, unpacked } from "./gunzip.mjs";
import { STARTS_FROM, wayNamed } from "./protocol.mjs";
import { runPythonWorker } from "./python-worker.mjs";

/** @param {string} name */
async function get(name) {
  const address = new URL(name, self.location.href);
  const response = await fetch(address).catch(() => {
    throw new Error(`${name.split("/").pop()} could not be fetched; the network may be gone`);
  });
  if (!response.ok) throw new Error(`${name.split("/").pop()} could not be fetched (status ${response.status})`);
  return response;
}

/**
 * Unpacked and compiled while it loads, whether or not the host packs files or knows the type of wasm.
 * @param {string} name
 */
async function getModule(name) {
  const { body } = await get(name);
  return WebAssembly.compileStreaming(new Response(unpacked(body), { headers: { "content-type": "application/wasm" } }));
}

const way = wayNamed(self.name);
const { begun, ...meeting } = meetPages();

runPythonWorker({
  way,
  ...meeting,
  ingredients: {
    module: getModule(RUNTIME_FILES.wasm),
    startsFrom: get(RUNTIME_FILES[STARTS_FROM[way]]).then((response) => gunzipStream(response.body)),
    standards: get(RUNTIME_FILES.standards).then((response) => response.text()),
  },
  procedures: get(RUNTIME_FILES.procedures).then((response) => response.json()),
  takePyodide: async () => {
    await begun;
    importScripts(new URL(RUNTIME_FILES.loader, self.location.href).href);
    if (!self.threepinPython) throw new Error("the script of Python is damaged");
    return self.threepinPython;
  },
});
