// Runs answer_lines.py in Pyodide under Node:
//   node answer_in_pyodide.mjs <pyodide folder> <calculators.zip> <answer_lines.py> <standards.json> <requests.txt> [--text]
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const [folder, calculators, script, standards, requests, whole] = process.argv.slice(2);
const { loadPyodide } = await import(pathToFileURL(join(folder, "pyodide.mjs")).href);
const python = await loadPyodide({ indexURL: folder });
python.FS.writeFile("/calculators.zip", readFileSync(calculators));
python.FS.writeFile("/answer_lines.py", readFileSync(script));
const answered = python.runPython(
  "import sys; sys.path[:0] = ['/calculators.zip', '/']; import answer_lines; answer_lines.answered",
);
const lines = answered(
  readFileSync(standards, "utf8"),
  python.toPy(readFileSync(requests, "utf8").split("\n")),
  whole === "--text",
);
process.stdout.write(`${lines.toJs().join("\n")}\n`);
