/**
 * Leaves out of Pyodide what no page can reach. Pyodide names thousands of functions to packages that are loaded later;
 * here none ever is. What nothing in JavaScript names is no longer exported, and functions that were reached only by
 * such a name are gone. What is reached through the table of functions, and all data, stays as it is.
 *
 *   node trim_pyodide.mjs <Pyodide's folder> <folder to write into> <script>...
 *
 * The scripts are those that use Pyodide's module; what they name stays. Writes pyodide.asm.mjs and pyodide.asm.wasm.
 */

import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import binaryen from "binaryen";

const [pyodide, out, ...scripts] = process.argv.slice(2);

/** What the compiler of Pyodide uses; with more switched on, the file would be written in ways that engines refuse. */
const { BulkMemory, BulkMemoryOpt, CallIndirectOverlong, ExceptionHandling } = binaryen.Features;
const { Multivalue, MutableGlobals, NontrappingFPToInt, ReferenceTypes, SignExt } = binaryen.Features;
const FEATURES = BulkMemory | BulkMemoryOpt | CallIndirectOverlong | ExceptionHandling
  | Multivalue | MutableGlobals | NontrappingFPToInt | ReferenceTypes | SignExt;

/** Where Pyodide's script takes each export into a variable: their declaration, and the function that fills them. */
const TAKES_EXPORTS = /var (?<declared>[\w$,]+);function assignWasmExports\(wasmExports\)\{(?<body>[^{}]*)\}/;
const TAKES_ONE = /^([\w$]+)=Module\["\1"\]=wasmExports\["[\w$]+"\](?:\.value>>>0)?$/;

const script = readFileSync(join(pyodide, "pyodide.asm.mjs"), "utf8");
const takes = TAKES_EXPORTS.exec(script);
if (!takes?.groups) throw new Error("pyodide.asm.mjs does not take its exports as it did; trim_pyodide.mjs must be changed");
const { declared, body } = takes.groups;
const before = script.slice(0, takes.index);
const behind = script.slice(takes.index + takes[0].length);
const others = scripts.map((file) => readFileSync(file, "utf8"));
const named = new Set([before, behind, ...others].join("\n").match(/[\w$]+/g));

writeFileSync(join(out, "pyodide.asm.mjs"), before + trimmedTaking() + behind);
writeFileSync(join(out, "pyodide.asm.wasm"), trimmedWasm(readFileSync(join(pyodide, "pyodide.asm.wasm"))));

function trimmedTaking() {
  const dropped = new Set();
  const kept = body.split(";").filter((statement) => {
    const [, variable] = TAKES_ONE.exec(statement) ?? [];
    if (!variable || named.has(variable)) return true;
    dropped.add(variable);
    return false;
  });
  const variables = declared.split(",").filter((variable) => !dropped.has(variable));
  return `var ${variables.join(",")};function assignWasmExports(wasmExports){${kept.join(";")}}`;
}

function trimmedWasm(bytes) {
  const compiled = new WebAssembly.Module(bytes);
  // The file asks for the addresses of some of its own functions, which it gets by the names of its exports.
  const asked = WebAssembly.Module.imports(compiled).filter(({ module }) => module.startsWith("GOT."));
  const wanted = new Set([...named, ...asked.map(({ name }) => name)]);
  const trimmed = binaryen.readBinary(bytes, FEATURES);
  for (const { name } of WebAssembly.Module.exports(compiled)) {
    if (!wanted.has(name) && !wanted.has(`_${name}`)) trimmed.removeExport(name);
  }
  trimmed.runPasses(["remove-unused-module-elements"]);
  return trimmed.emitBinary();
}
