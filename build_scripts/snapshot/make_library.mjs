/**
 * Makes the library that Python starts from in a page: the modules in use, compiled, as one zip.
 *
 *   node make_library.mjs <work folder> <Pyodide's folder>
 *
 * Reads calculators.zip, standards.json and requests.json from the work folder, writes library.zip into it.
 */

import "./still_clock.mjs";

import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const [work, pyodide] = process.argv.slice(2);
const { loadPyodide } = await import(pathToFileURL(join(pyodide, "pyodide.mjs")).href);
const python = await loadPyodide({ indexURL: pyodide, env: { PYTHONHASHSEED: "0" } });

const CALCULATORS = "/calculators.zip";
python.FS.writeFile(CALCULATORS, readFileSync(join(work, "calculators.zip")));
python.pyimport("sys").path.insert(0, CALCULATORS);
for (const name of ["warm_up.py", "compile_library.py"]) {
  python.FS.writeFile(`/${name}`, readFileSync(new URL(name, import.meta.url)));
}
python.pyimport("sys").path.push("/");
const warmUp = python.pyimport("warm_up");
warmUp.answer_all(readFileSync(join(work, "standards.json"), "utf8"), readFileSync(join(work, "requests.json"), "utf8"));
const inUse = warmUp.modules_in_use(); // Before the compiler below brings in more.
const library = python.pyimport("compile_library").compile_library(inUse, CALCULATORS);
writeFileSync(join(work, "library.zip"), library.toJs());
