/**
 * Entry of service-worker.js: saves the whole handbook on the device, and answers from there.
 *
 * A release is saved as a whole or not at all, beside the one in use, and waits until a reader takes it. “Saved” is
 * said only after every file has been read back out of the cache with the content that it should have, and on each
 * visit after a look that all of them are still there. release.mjs holds the files, releases.mjs who gets which.
 */

import { NotAsListed } from "./file-content.mjs";
import { Notes } from "./notes.mjs";
import { Release } from "./release.mjs";
import { Releases } from "./releases.mjs";
import { SpareFiles } from "./spare-files.mjs";

/** @import { FromServiceWorker, Report, ToServiceWorker, WhyNot } from "./saved-words.mjs" */

const worker = /** @type {ServiceWorkerScope} */ (/** @type {unknown} */ (self));
const { scope } = worker.registration;
const DAY = 24 * 60 * 60 * 1000;
const READ_BACK = "read back";

const notes = new Notes(scope);
const own = new Release(RELEASE_TO_SAVE, scope);
const releases = new Releases(own, notes);
const spare = new SpareFiles(scope, RELEASE_TO_SAVE.spare);

/** Files that Python starts from were read back in this life of the service worker: it is a short one. */
let hasReadRuntime = false;
/** What was found when everything was last read back, where the device has no room left to note it. */
let found = { bytes: 0, when: 0 };
/** @type {Set<string>} Files found damaged when they were last read back. */
let damaged = new Set();

worker.addEventListener("install", (event) => event.waitUntil(save(event)));
worker.addEventListener("activate", (event) => event.waitUntil(takeOver()));
worker.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method === "GET" && request.url.startsWith(scope)) event.respondWith(answer(event));
});
worker.addEventListener("message", (event) => {
  /** @type {ToServiceWorker} */
  const asked = event.data;
  if (asked?.verb === "take-over") void worker.skipWaiting();
  else if (asked?.verb) event.waitUntil(reply(asked, event.source?.id ?? "", event.ports[0]));
});

/** @param {ExtendableEvent} event */
async function save(event) {
  const { revision, files } = RELEASE_TO_SAVE;
  try {
    await releases.noteArriving();
    await own.install(event, (done) => tellEveryone({ kind: "saving", revision, done, total: files.length }));
    if ((await own.missing()).length) throw new Error("files that were saved are gone again");
    await releases.noteWhole();
  } catch (why) {
    await tellEveryone({ kind: "not-saved", revision, ...reason(why) });
    // What has arrived is kept for the next attempt, unless it fills the device.
    if (isFull(why)) await releases.giveUp(Boolean(worker.registration.active));
    throw why;
  }
}

async function takeOver() {
  // Before any page is claimed, these are the pages that the release before has answered.
  const pages = keptTo(await worker.clients.matchAll({ type: "all" }));
  const { installing, waiting } = worker.registration;
  try {
    await releases.takeOver(pages, Boolean(installing || waiting));
  } finally {
    await worker.clients.claim();
  }
}

/** @param {ServiceWorkerFetch} event */
async function answer({ request, clientId }) {
  const file = await releases.find(request.mode === "navigate" ? "" : clientId, request.url);
  if (file) return file.release.answer(file.url, mended);
  return (await spare.answer(request.url)) ?? fetch(request);
}

/** @param {string} url */
function mended(url) {
  damaged.delete(url);
  void tellEveryone({ kind: "mended", url });
}

/**
 * @param {ToServiceWorker} asked
 * @param {string} page The id of the page that asks.
 * @param {MessagePort} port
 */
async function reply(asked, page, port) {
  const { revision, files } = RELEASE_TO_SAVE;
  /** @type {Report} */
  let told;
  try {
    const why = await doAsked(asked).catch((/** @type {unknown} */ thrown) => thrown);
    told = await report(page, asked.stamp, why);
  } catch (why) {
    // The browser lets nobody look: then nothing can be said to be there.
    const total = files.length;
    told = { kind: "incomplete", revision, total, missing: total, damaged: 0, computed: false, standing: "current", ...reason(why) };
  }
  port.postMessage(told);
}

/**
 * @param {ToServiceWorker} asked
 * @returns {Promise<unknown>} Why it could not be done, if so.
 */
async function doAsked({ verb }) {
  if (verb === "report") await releases.tidy(await openPages());
  else if (verb === "read-back") await readBack();
  else if (verb === "save-spare") await spare.save(releases.olderSpare());
  else if (verb === "mend") {
    const why = await own.mend([...new Set([...(await own.missing()), ...damaged])]);
    await readBack();
    return why;
  }
  return undefined;
}

/**
 * What is saved, by looking.
 * @param {string} page
 * @param {string} stamp What the page says of itself.
 * @param {unknown} why Why something that was asked for could not be done.
 * @returns {Promise<Report>}
 */
async function report(page, stamp, why) {
  const { revision, files } = RELEASE_TO_SAVE;
  const common = { revision, total: files.length, standing: await releases.standingOf(page, stamp) };
  const missing = new Set(await own.missing());
  if (!missing.size && !(await lastReadBack())) await readBack();
  else if (!missing.size && !hasReadRuntime) await readRuntime();
  const broken = [...damaged].filter((url) => !missing.has(url));
  if (missing.size || broken.length) {
    const computed = broken.some((url) => own.isOfRuntime(url));
    return { kind: "incomplete", ...common, missing: missing.size, damaged: broken.length, computed, ...reason(why) };
  }
  await releases.noteInUse().catch(() => {}); // Without room for a note it is tried again at the next report.
  const { bytes, when } = (await lastReadBack()) ?? found;
  // A clock that was set back must not put the next look off for years.
  const isDue = Math.abs(Date.now() - when) > DAY;
  return { kind: "saved", ...common, bytes, spare: await spare.report(), isDue, ...reason(why) };
}

/** Look at the content of every file, and note how many bytes there are. */
async function readBack() {
  const read = await own.readBack("all");
  hasReadRuntime = true;
  damaged = new Set(read.damaged);
  if (damaged.size) return;
  found = { bytes: read.bytes, when: Date.now() };
  await notes.write(READ_BACK, { digest: RELEASE_TO_SAVE.digest, ...found }).catch(() => {});
}

/** @returns {Promise<{bytes: number, when: number} | null>} */
async function lastReadBack() {
  const noted = await notes.read(READ_BACK);
  return noted?.digest === RELEASE_TO_SAVE.digest ? noted : null;
}

/** Look at the content of what answers are computed with. */
async function readRuntime() {
  hasReadRuntime = true;
  for (const url of (await own.readBack("runtime")).damaged) damaged.add(url);
}

/**
 * @param {unknown} why undefined when nothing is the matter.
 * @returns {WhyNot}
 */
function reason(why) {
  if (why === undefined) return { why: "" };
  if (why instanceof NotAsListed) return { why: why.why, file: why.url };
  return { why: isFull(why) ? "full" : "network" };
}

/** @param {unknown} why */
function isFull(why) {
  return why instanceof DOMException && why.name === "QuotaExceededError";
}

async function openPages() {
  return keptTo(await worker.clients.matchAll({ includeUncontrolled: true, type: "all" }));
}

/**
 * Those that are kept to their release. A worker that pages share may outlive them and serve newer ones too; all that
 * it asks for is named by its content.
 * @param {readonly ServiceWorkerClient[]} clients
 */
function keptTo(clients) {
  return clients.filter(({ type }) => type !== "sharedworker").map(({ id }) => id);
}

/** @param {FromServiceWorker} told */
async function tellEveryone(told) {
  const pages = await worker.clients.matchAll({ includeUncontrolled: true });
  for (const page of pages) if (page.url.startsWith(scope)) page.postMessage(told);
}
