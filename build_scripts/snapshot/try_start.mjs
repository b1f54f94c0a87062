/**
 * Starts the worker of a page opened from disk, out of the very files that go into the site, and has it answer.
 *
 *   node try_start.mjs <snapshot|ordinary> <folder of the files> <work folder>
 *
 * Reads standards.json and requests.json from the work folder, prints the answers as JSON. Ends with 1, and says why,
 * when Python does not start.
 */

import { hear, tell } from "./like_a_worker.mjs";

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { argv, exit, stdout } from "node:process";
import { gzipSync } from "node:zlib";

const [way, folder, work] = argv.slice(2);
const read = (name) => readFileSync(join(work, name), "utf8");

/** A file of the site that leaves one text in window.threepinDisk. */
function take(name) {
  const window = {};
  new Function("window", readFileSync(join(folder, `${name}.js`), "utf8"))(window);
  return window.threepinDisk[name];
}

try {
  globalThis.name = way;
  const ready = hear(({ kind }) => kind === "ready");
  new Function(take("worker"))();
  const startsFrom = { snapshot: "snapshot", ordinary: "library" }[way];
  for (const name of ["wasm", startsFrom]) tell({ verb: "file", name, data: take(name) });
  const data = JSON.stringify({ standards: read("standards.json"), procedures: {} });
  tell({ verb: "file", name: "data", data: gzipSync(data).toString("base64") });
  const { boot } = await ready;
  if (boot !== way) throw new Error(`it started by another way: ${boot}`);
  const answers = [];
  for (const [id, request] of JSON.parse(read("requests.json")).entries()) {
    const answered = hear((said) => said.kind === "answer" && said.id === id);
    tell({ verb: "answer", id, request });
    answers.push((await answered).answer);
  }
  stdout.write(JSON.stringify(answers), () => exit(0));
} catch (why) {
  console.error(String(why));
  exit(1);
}
