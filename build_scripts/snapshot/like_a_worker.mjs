/**
 * Import this first: makes Node look like a worker of a page, which is all that the page's own scripts know.
 * What they say to the page comes to whoever hears, and what the page says is handed to them.
 */

const told = new EventTarget();
const heard = new EventTarget();

class WorkerGlobalScope {
  static [Symbol.hasInstance](one) {
    return one === globalThis;
  }
}

Object.assign(globalThis, {
  self: globalThis,
  WorkerGlobalScope,
  location: new URL("https://python.invalid/worker.js"),
  addEventListener: (kind, listener) => told.addEventListener(kind, listener),
  postMessage: (data) => heard.dispatchEvent(new MessageEvent("message", { data })),
});
// Pyodide knows Node by this, and would read files.
delete globalThis.process;

/** What the page says to the worker. */
export function tell(data) {
  told.dispatchEvent(new MessageEvent("message", { data }));
}

/** The next thing the worker says that is wanted, as a promise. */
export function hear(isWanted) {
  return new Promise((resolve, reject) => {
    const listen = ({ data }) => {
      if (data.kind === "failed" || data.kind === "broke") reject(new Error(data.why));
      if (!isWanted(data)) return;
      heard.removeEventListener("message", listen);
      resolve(data);
    };
    heard.addEventListener("message", listen);
  });
}
