/** Entry of page.js, on every page: mounts what the page holds, again after each instant navigation of the theme. */

import { hearBeginLinks } from "./begin-links.mjs";
import { mountBooklet } from "./booklet.mjs";
import { Calculator } from "./calculator.mjs";
import { stampOf } from "./device-date.mjs";
import { mountDiagnostics } from "./diagnostics.mjs";
import { element } from "./elements.mjs";
import { canShare, workerOpener } from "./open-worker.mjs";
import { orOpenedAhead } from "./opened-ahead.mjs";
import { PythonClient } from "./python-client.mjs";
import { addHandColumn, nameSheets } from "./paper.mjs";
import { sayIfRenewed } from "./renewed-host.mjs";
import { mountDates } from "./review-date.mjs";
import { SavedOffline } from "./saved-offline.mjs";
import { PYTHON_SETTLED } from "./search-can-wait.mjs";
import { mountSteps } from "./steps.mjs";
import { whenIdle } from "./when-idle.mjs";
import { mountWideTables } from "./wide-tables.mjs";

/** @import { PythonState } from "./python-state.mjs" */

const script = /** @type {HTMLScriptElement} */ (document.currentScript);
const root = new URL("../../", script.src);
const fromDisk = root.protocol === "file:";

// One of each for the whole visit: instant navigation changes the page and keeps them.
const python = new PythonClient(orOpenedAhead(workerOpener(root, new URL("assets/scripts/worker.js", root))), canShare(root));
const stamp = stampOf(document);
const saved = new SavedOffline(root, stamp);

/** @type {(() => void)[]} */
let leave = [];

function mountPage() {
  // The handbook was renewed during the visit: one page is never run by the scripts and limits of another release.
  const now = stampOf(document);
  if (now && stamp && now !== stamp) return location.reload();
  for (const one of leave.splice(0)) one();
  for (const section of document.querySelectorAll("[data-module=calculator]")) {
    leave.push(new Calculator(/** @type {HTMLElement} */ (section), python, fromDisk).start());
  }
  for (const section of document.querySelectorAll("[data-module=diagnostics]")) {
    leave.push(mountDiagnostics(/** @type {HTMLElement} */ (section), python, fromDisk));
  }
  for (const section of document.querySelectorAll("[data-module=booklet]")) {
    leave.push(mountBooklet(/** @type {HTMLElement} */ (section), root, fromDisk));
  }
  const article = articleOf(document);
  leave.push(mountSteps(article), mountWideTables(article));
  mountDates(article);
  addHandColumn(article);
  saved.mount(document);
  nameTheApp();
}

/** @param {Document} page What a search has found stands in articles of its own, in the head of the page. */
function articleOf(page) {
  return /** @type {HTMLElement} */ (page.querySelector("main article") ?? page.body);
}

/** A page from disk cannot read a manifest, and complains when it is told of one. */
function nameTheApp() {
  if (fromDisk || document.querySelector("link[rel=manifest]")) return;
  document.head.append(element("link", { rel: "manifest", href: new URL("manifest.webmanifest", root).href }));
}

/**
 * Once the page stands and the device has nothing else to do, start Python for the pages to come. From disk it would
 * not outlive this page; who pays for data has not asked for it; in the background it waits until the page is looked at.
 */
function startAhead() {
  const { saveData } = /** @type {{saveData?: boolean}} */ ("connection" in navigator ? navigator.connection : {});
  // What has failed is tried again when the reader says so.
  if (fromDisk || saveData || python.state.name !== "off") return;
  if (document.visibilityState === "visible") python.start();
  else document.addEventListener("visibilitychange", () => whenIdle(startAhead), { once: true });
}

function startBehindThePage() {
  startAhead();
  startSaving();
}

/**
 * Do something once, as soon as it stands so with Python.
 * @param {(state: PythonState) => boolean} isSo
 * @param {() => void} then
 */
function once(isSo, then) {
  let isDone = false;
  const stop = python.subscribe((state) => {
    if (isDone || !isSo(state)) return;
    isDone = true;
    queueMicrotask(() => stop()); // The first call comes before there is a way to stop.
    then();
  });
}

/** Saving the handbook waits until Python has its files: what it has just loaded is then not loaded twice. */
function startSaving() {
  once(({ name }) => name !== "starting", () => void saved.start());
}

/** A start of Python that failed may come of a damaged file on this device. */
function doubtAfterAFailure() {
  const hasFailed = () => python.starts.some(({ ended }) => ended === "failed");
  once(({ name }) => name !== "starting" && hasFailed(), () => void saved.doubt());
}

/** The theme may make its search ready now; see search-can-wait.mjs. */
function tellWhenSettled() {
  once(({ name }) => name === "ready" || name === "failed", () => document.dispatchEvent(new Event(PYTHON_SETTLED)));
}

/** A start may fail too because the host has another release by now, without the files of this page. */
function lookWhetherRenewed() {
  python.subscribe(({ name }) => void sayIfRenewed(document, root, stamp, name === "failed"));
}

hearBeginLinks(document);
// Not before: a name kept by the root costs every page that is opened one more look at all of its styles.
addEventListener("beforeprint", () => nameSheets(document, articleOf(document)));
if (!fromDisk) lookWhetherRenewed();
doubtAfterAFailure();
tellWhenSettled();
if (window.document$) window.document$.subscribe(mountPage);
else if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", mountPage);
else mountPage();

if (document.readyState === "complete") whenIdle(startBehindThePage);
else window.addEventListener("load", () => whenIdle(startBehindThePage));

window.addEventListener("pagehide", () => python.rest());
window.addEventListener("pageshow", ({ persisted }) => persisted && python.wake());

window.addEventListener("beforeprint", () => {
  for (const folded of document.querySelectorAll("details:not([open])")) {
    folded.setAttribute("open", "");
    folded.setAttribute("data-opened-for-print", "");
  }
});
window.addEventListener("afterprint", () => {
  for (const opened of document.querySelectorAll("[data-opened-for-print]")) {
    opened.removeAttribute("open");
    opened.removeAttribute("data-opened-for-print");
  }
});
