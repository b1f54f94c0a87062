/**
 * Entry of iframe-worker-shim.js, which the theme asks for by that name: its search runs in a worker, and a page opened
 * from disk may not start one from a file. There, and for that kind of address alone, a frame stands in for it. Python's
 * worker is started from text and stays a real one: in a frame it would hold up the page.
 */

import { IFrameWorker } from "iframe-worker";

if (location.protocol === "file:") {
  const RealWorker = window.Worker;
  /** @type {any} */ (window).Worker = class {
    /**
     * @param {string | URL} address
     * @param {WorkerOptions} options
     */
    constructor(address, options) {
      return String(address).startsWith("blob:") ? new RealWorker(address, options) : new IFrameWorker(String(address));
    }
  };
}
