/**
 * In the place of worker.mjs in the site that is compared with: nothing is fetched ahead for Python but what any author
 * would fetch, the limits and titles of this handbook.
 */

import "./hide-import-scripts.mjs";
import { meetPages } from "./audience.mjs";
import { runPythonWorker } from "./python-worker.mjs";

const get = (name) => fetch(new URL(name, self.location.href));

const { begun, ...meeting } = meetPages();

runPythonWorker({
  way: "snapshot",
  ...meeting,
  ingredients: {
    standards: get(RUNTIME_FILES.standards).then((response) => response.text()),
    // Never there, so that the page gives this start the time that it gives to loading, however long it takes.
    module: new Promise(() => {}),
  },
  procedures: get(RUNTIME_FILES.procedures).then((response) => response.json()),
  takePyodide: () => begun.then(() => ({})),
});
