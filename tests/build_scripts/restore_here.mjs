// Restores Python from a snapshot as a page does, and shows how it behaves, as JSON:
//   node restore_here.mjs <Pyodide's folder> <snapshot.bin> [another build of Pyodide to write into it]
import "../../build_scripts/snapshot/like_a_worker.mjs";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { argv, exit, stdout } from "node:process";
import { pathToFileURL } from "node:url";

const [pyodide, file, otherBuild] = argv.slice(2);
const load = (name) => import(pathToFileURL(join(pyodide, name)).href);
globalThis.PYODIDE_INFO = JSON.parse(readFileSync(join(pyodide, "pyodide-lock.json"), "utf8")).info;
const { restorePython } = await import("../../handbook/assets/scripts/boot-snapshot.mjs");
const { withTimeLimit } = await import("../../handbook/assets/scripts/time-limit.mjs");
const { loadPyodide } = await load("pyodide.mjs");
const { default: createPyodideModule } = await load("pyodide.asm.mjs");

const unpacked = readFileSync(file);
if (otherBuild) unpacked.write(otherBuild, unpacked.indexOf('"buildId":"') + '"buildId":"'.length);
const ingredients = {
  module: WebAssembly.compile(readFileSync(join(pyodide, "pyodide.asm.wasm"))),
  startsFrom: Promise.resolve(new Uint8Array(unpacked).slice()),
  standards: Promise.resolve("{}"),
};

try {
  const python = await restorePython(ingredients, { loadPyodide, createPyodideModule }, () => {});
  const failure = (code) => {
    try {
      return python.runPython(code);
    } catch (why) {
      return why.message.match(/^\w+Error: .*$/m)?.[0];
    }
  };
  const shown = {
    drawn: python.runPython("import random; random.random()"),
    division: failure("1 / 0"),
    missing: failure("import nothing_of_this_name"),
    leftOut: failure("import csv"),
    traceback: failure("import traceback\ntry:\n  1 / 0\nexcept ZeroDivisionError: text = traceback.format_exc()\ntext.split()[0]"),
    grown: failure("len(bytes(60_000_000))"),
  };
  const limited = withTimeLimit(python, 100);
  try {
    limited(() => python.runPython("while True: pass"));
  } catch (why) {
    shown.endless = why.type;
  }
  shown.afterwards = limited(() => python.runPython("6 * 7"));
  stdout.write(JSON.stringify(shown), () => exit(0));
} catch (why) {
  stdout.write(JSON.stringify({ refused: String(why.message) }), () => exit(0));
}
