/**
 * Entry of worker.js, the Python worker of served pages: one that belongs to a page, or one that all pages share.
 * Everything is fetched at once, before Pyodide is read.
 */

import { meetPages } from "./audience.mjs";
import { openBytes, openModule } from "./packed-files.mjs";
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

const way = wayNamed(self.name);
const { begun, ...meeting } = meetPages();
const module = openModule(get(RUNTIME_FILES.wasm));
const startsFrom = openBytes(get(RUNTIME_FILES[STARTS_FROM[way]]));

runPythonWorker({
  way,
  ...meeting,
  ingredients: {
    module: module.content,
    startsFrom: startsFrom.content,
    sound: Promise.all([module.sound, startsFrom.sound]),
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
