/**
 * Makes the memory snapshot that Python is restored from in a page.
 *
 *   node make_snapshot.mjs <work folder> <Pyodide's folder>
 *
 * Reads library.zip, standards.json and requests.json from the work folder, writes snapshot.bin into it.
 */

import "./still_clock.mjs";

import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

import { packMemory } from "../../handbook/assets/scripts/sparse-memory.mjs";

const [work, pyodide] = process.argv.slice(2);

refuseTheTrampoline();
const pristine = keepPristineMemory();
const { loadPyodide } = await import(pathToFileURL(join(pyodide, "pyodide.mjs")).href);
const lock = JSON.parse(readFileSync(join(pyodide, "pyodide-lock.json"), "utf8"));
const python = await loadPyodide({
  _makeSnapshot: true,
  indexURL: pyodide,
  stdLibURL: join(work, "library.zip"),
  lockFileContents: { info: lock.info, packages: {} },
  env: { PYTHONHASHSEED: "0", PYTHONOPTIMIZE: "2", LANG: "C.UTF-8" },
  _sysExecutable: "./this.program", // Or else it is where this file lies on this computer.
});

warmUp();
const wasm = python._module;
zeroFreeMemory();
const memory = new Uint32Array(wasm.HEAPU8.slice(0, (wasm._sbrk(0) + 3) & ~3).buffer);
const laid = await pristine;
const packed = packMemory(memory, laid, {
  ...takeState(),
  memoryBytes: memory.byteLength,
  pristineBytes: (laid.findLastIndex((word) => word !== 0) + 1) * 4,
});
writeFileSync(join(work, "snapshot.bin"), packed);

/**
 * CPython calls C functions through a small wasm module of its own where the engine has wasm GC, put into one more
 * slot of the function table. A snapshot that refers to that slot is made without an error and cannot be restored
 * in an engine without it. Without the module CPython calls through JavaScript, everywhere.
 */
function refuseTheTrampoline() {
  WebAssembly.Module = new Proxy(WebAssembly.Module, {
    construct(Module, [bytes]) {
      if (Buffer.from(bytes.buffer ?? bytes).includes("trampoline_call")) throw new Error("not in a snapshot");
      return new Module(bytes);
    },
  });
}

/** What the wasm file lays into memory, taken before anything has run. */
function keepPristineMemory() {
  const { instantiate } = WebAssembly;
  return new Promise((resolve) => {
    WebAssembly.instantiate = async (...given) => {
      const made = await instantiate(...given);
      const memory = (made.instance ?? made).exports.memory;
      if (memory) {
        WebAssembly.instantiate = instantiate;
        resolve(new Uint32Array(memory.buffer.slice(0)));
      }
      return made;
    };
  });
}

/** Imports the calculators and has them answer, fails once from JavaScript's side too, and cleans up. */
function warmUp() {
  python.FS.writeFile("/warm_up.py", readFileSync(new URL("warm_up.py", import.meta.url)));
  python.FS.utime("/warm_up.py", 0, 0);
  python.runPython(`
import sys
sys.path.append("/")
import warm_up
warm_up.answer_all
`)(readFileSync(join(work, "standards.json"), "utf8"), readFileSync(join(work, "requests.json"), "utf8"));
  try {
    python.pyimport("calculators.answer").answer("{", null, 1);
  } catch {
    // Meant: the way from a Python exception to JavaScript is imported now.
  }
  python.runPython(`
warm_up.forget()
sys.path.remove("/")
del sys.modules["warm_up"], warm_up, sys
import gc; gc.collect(); del gc
`);
}

/** Fill every free block of the allocator with zeros, the large ones first, so that the snapshot does not hold them. */
function zeroFreeMemory() {
  const end = wasm._sbrk(0);
  const held = [];
  for (const size of blockSizes()) {
    for (;;) {
      const block = wasm._malloc(size);
      if (!block) break;
      if (block + size >= end) {
        wasm._free(block);
        break;
      }
      wasm.HEAPU8.fill(0, block, block + size);
      held.push(block);
    }
  }
  for (const block of held) wasm._free(block);
  wasm.HEAPU8.fill(0, wasm._emscripten_stack_get_end(), wasm.stackSave() - 256);
}

function* blockSizes() {
  for (let size = 1 << 22; size > 2048; size = Math.floor(size / 1.25)) yield size & ~7;
  for (let size = 2048; size > 512; size -= 64) yield size;
  for (let size = 512; size >= 8; size -= 4) yield size;
}

/** What Pyodide keeps beside the memory: the JavaScript objects that Python holds, by name, and which build it is. */
function takeState() {
  const whole = python.makeMemorySnapshot();
  const [, , textBytes] = new Uint32Array(whole.buffer, whole.byteOffset, 3);
  const HEAD_BYTES = 48; // Mark, offset of the memory, bytes of the text, nothing, eight words of build identity.
  const text = new TextDecoder().decode(whole.subarray(HEAD_BYTES, HEAD_BYTES + textBytes));
  return { state: JSON.parse(text), buildId: wasm.API.config.BUILD_ID };
}
