/**
 * Opens the Python worker: over http from its own script, from disk out of text that script tags have loaded,
 * because a page opened from disk may neither fetch a file nor start a worker from one.
 */

import { STARTS_FROM } from "./protocol.mjs";

/** @import { FileName, ToWorker, Way } from "./protocol.mjs" */
/** @import { OpenWorker, WorkerEvents } from "./python-client.mjs" */

/**
 * @param {URL} root The folder of the site.
 * @returns {OpenWorker}
 */
export function workerOpener(root) {
  return root.protocol === "file:"
    ? (way, events) => openFromDisk(new URL("assets/runtime/disk/", root), way, events)
    : async (way, events) => listen(new Worker(new URL("assets/scripts/worker.js", root), { name: way }), events);
}

/**
 * @param {URL} folder
 * @param {Way} way
 * @param {WorkerEvents} events
 * @returns {Promise<Worker>}
 */
async function openFromDisk(folder, way, events) {
  /** @type {FileName[]} */
  const names = ["wasm", STARTS_FROM[way], "data"];
  const arriving = names.map((name) => takeFromDisk(folder, name));
  const script = await takeFromDisk(folder, "worker");
  const address = URL.createObjectURL(new Blob([script], { type: "text/javascript" }));
  const worker = listen(new Worker(address, { name: way }), events);
  try {
    await Promise.all(arriving.map(async (data, position) => {
      /** @type {ToWorker} */
      const message = { verb: "file", name: names[position], data: await data };
      worker.postMessage(message);
    }));
  } catch (why) {
    worker.terminate();
    throw why;
  } finally {
    URL.revokeObjectURL(address);
  }
  return worker;
}

/**
 * @param {Worker} worker
 * @param {WorkerEvents} events
 */
function listen(worker, events) {
  worker.addEventListener("message", (event) => events.onMessage(event.data));
  worker.addEventListener("error", (event) => {
    event.preventDefault();
    events.onError(event.message || "its script could not be read");
  });
  return worker;
}

/**
 * One file of assets/runtime/disk/: a script that leaves one text in window.threepinDisk. The text is taken out,
 * so that ten megabytes are not held twice.
 * @param {URL} folder
 * @param {string} name
 * @returns {Promise<string>}
 */
export function takeFromDisk(folder, name) {
  return new Promise((resolve, reject) => {
    const script = document.createElement("script");
    const missing = () => reject(new Error(`the file assets/runtime/disk/${name}.js is missing from this folder`));
    script.src = new URL(`${name}.js`, folder).href;
    script.onload = () => {
      const text = window.threepinDisk?.[name];
      if (window.threepinDisk) delete window.threepinDisk[name];
      script.remove();
      if (text === undefined) missing();
      else resolve(text);
    };
    script.onerror = missing;
    document.head.append(script);
  });
}
