// Runs answer_lines.py in Pyodide under Node, started once for any number of files of requests:
//   node answer_in_pyodide.mjs <pyodide folder> <calculators.zip> <answer_lines.py> <standards.json>
// For each line of JSON that comes in, {"requests": file, "whole": yes or no}, its lines go out, and an empty one behind them.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { pathToFileURL } from "node:url";

const [folder, calculators, script, standards] = process.argv.slice(2);
const { loadPyodide } = await import(pathToFileURL(join(folder, "pyodide.mjs")).href);
const python = await loadPyodide({ indexURL: folder });
python.FS.writeFile("/calculators.zip", readFileSync(calculators));
python.FS.writeFile("/answer_lines.py", readFileSync(script));
const answered = python.runPython(
  "import sys; sys.path[:0] = ['/calculators.zip', '/']; import answer_lines; answer_lines.answered",
);
const standardsText = readFileSync(standards, "utf8");
for await (const asked of createInterface({ input: process.stdin })) {
  const { requests, whole } = JSON.parse(asked);
  const lines = answered(standardsText, python.toPy(readFileSync(requests, "utf8").split("\n")), whole);
  process.stdout.write(`${lines.toJs().join("\n")}\n\n`);
  lines.destroy();
}
