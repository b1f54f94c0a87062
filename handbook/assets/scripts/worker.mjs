/** Entry of worker.js, the Python worker of a served page. Everything is fetched at once, before Pyodide is read. */

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

runPythonWorker(
  way,
  {
    module: getModule(RUNTIME_FILES.wasm),
    startsFrom: get(RUNTIME_FILES[STARTS_FROM[way]]).then((response) => gunzipStream(response.body)),
    standards: get(RUNTIME_FILES.standards).then((response) => response.text()),
  },
  get(RUNTIME_FILES.procedures).then((response) => response.json()),
  () => {
    importScripts(new URL(RUNTIME_FILES.loader, self.location.href).href);
    if (!self.threepinPython) throw new Error("the script of Python is damaged");
    return self.threepinPython;
  },
);
