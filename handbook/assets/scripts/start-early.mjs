/**
 * Entry of start-early.js, in the head of every page with a calculator: Python is on its way while the browser still
 * reads the page, and page.js finds it under way.
 */

import { canShare, workerOpener } from "./open-worker.mjs";
import { openAhead } from "./opened-ahead.mjs";

const script = /** @type {HTMLScriptElement} */ (document.currentScript);
// Told by the page, so that this text, which the policy names by its checksum, stays the same from revision to revision.
const root = new URL(script.dataset.root ?? "", location.href);
const worker = new URL(script.dataset.worker ?? "", location.href);

// A page that came by instant navigation has its Python already.
if (document.readyState === "loading") openAhead(workerOpener(root, worker), canShare(root));
