/**
 * Opens the Python worker. Over http from its own script: one that all pages of the handbook share, where the browser
 * keeps such a worker alive while a page is loaded anew, or else one of the page's own. From disk out of text that
 * script tags have loaded, because a page opened from disk may neither fetch a file nor start a worker from one.
 */

import { isAlive } from "./life-line.mjs";
import { STARTS_FROM } from "./protocol.mjs";

/** @import { FileName, ToWorker, Way } from "./protocol.mjs" */
/** @import { Connection, OpenWorker, WorkerEvents } from "./python-state.mjs" */

const UNREADABLE = "its script could not be read; if the handbook has been renewed meanwhile, load this page anew";

/**
 * @param {URL} root The folder of the site.
 * @param {URL} script Of the worker of served pages.
 * @returns {OpenWorker}
 */
export function workerOpener(root, script) {
  if (root.protocol === "file:") {
    return (way, _, events) => openFromDisk(new URL("assets/runtime/disk/", root), way, events);
  }
  return async (way, shared, events) => shared
    ? openShared(script, `${way} ${script.pathname}`, events)
    : ownConnection(new Worker(script, { name: way }), events);
}

/**
 * Whether pages are to share a worker here. It is worth it only where it outlives a page, and bearable only where a
 * page learns of its end by a lock. Asked by having the browser read an option of a worker that it then refuses.
 * @param {URL} root
 */
export function canShare(root) {
  if (root.protocol === "file:" || !window.SharedWorker || !navigator.locks) return false;
  let asked = false;
  try {
    new SharedWorker("http://", /** @type {WorkerOptions} */ ({
      get extendedLifetime() {
        asked = true;
        return true;
      },
    }));
  } catch {
    // Meant: that is no address.
  }
  return asked;
}

/**
 * @param {URL} script Named by its content and naming all its files so: pages of two revisions never meet in one worker.
 * @param {string} name The same for all pages that are to meet in it.
 * @param {WorkerEvents} events
 * @returns {Connection}
 */
function openShared(script, name, events) {
  const worker = new SharedWorker(script, /** @type {WorkerOptions} */ ({ name, extendedLifetime: true }));
  listen(worker.port, worker, events);
  worker.port.start();
  return {
    send: (message) => worker.port.postMessage(message),
    end: () => worker.port.close(),
    isAlive: () => isAlive(name),
  };
}

/**
 * @param {Worker} worker
 * @param {WorkerEvents} events
 * @returns {Connection}
 */
function ownConnection(worker, events) {
  listen(worker, worker, events);
  return { send: (message) => worker.postMessage(message), end: () => worker.terminate() };
}

/**
 * @param {Worker | MessagePort} speaker
 * @param {Worker | SharedWorker} worker
 * @param {WorkerEvents} events
 */
function listen(speaker, worker, events) {
  /** @type {EventTarget} */ (speaker).addEventListener("message", (event) =>
    events.onMessage(/** @type {MessageEvent} */ (event).data));
  /** @type {EventTarget} */ (worker).addEventListener("error", (event) => {
    event.preventDefault();
    events.onError(/** @type {ErrorEvent} */ (event).message || UNREADABLE);
  });
}

/**
 * @param {URL} folder
 * @param {Way} way
 * @param {WorkerEvents} events
 * @returns {Promise<Connection>}
 */
async function openFromDisk(folder, way, events) {
  /** @type {FileName[]} */
  const names = ["wasm", STARTS_FROM[way], "data"];
  const arriving = names.map((name) => takeFromDisk(folder, name));
  const script = await takeFromDisk(folder, "worker");
  const address = URL.createObjectURL(new Blob([script], { type: "text/javascript" }));
  const connection = ownConnection(new Worker(address, { name: way }), events);
  try {
    await Promise.all(arriving.map(async (data, position) => {
      /** @type {ToWorker} */
      const message = { verb: "file", name: names[position], data: await data };
      connection.send(message);
    }));
  } catch (why) {
    connection.end();
    throw why;
  } finally {
    URL.revokeObjectURL(address);
  }
  return connection;
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
