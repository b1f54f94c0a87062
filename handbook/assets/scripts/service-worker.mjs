/**
 * Saves the whole handbook on the device, and answers from there.
 *
 * Workbox keeps the precache: every file of RELEASE_TO_SAVE at its revision, or the install fails as a whole. What
 * this file adds is honesty. Progress is told while it saves; and “saved” is said only after every file has been read
 * back out of the cache, and again on each visit that every one of them is still there.
 */

import { cacheNames, clientsClaim } from "workbox-core";
import { addPlugins, cleanupOutdatedCaches, getCacheKeyForURL, precacheAndRoute } from "workbox-precaching";
import { SpareFiles } from "./spare-files.mjs";

/** @import { SavedReport } from "./saved-words.mjs" */

const worker = /** @type {ServiceWorkerScope} */ (/** @type {unknown} */ (self));
const READ_BACK_CACHE = `threepin-read-back-${worker.registration.scope}`;

const spare = new SpareFiles(worker.registration.scope, RELEASE_TO_SAVE.spare);

let stored = 0;

addPlugins([{
  cacheDidUpdate: () => {
    stored += 1;
    return tellEveryone({ kind: "saving", done: stored, total: RELEASE_TO_SAVE.files.length });
  },
}]);
precacheAndRoute([...RELEASE_TO_SAVE.files], { directoryIndex: "index.html", ignoreURLParametersMatching: [/./] });
spare.route();
cleanupOutdatedCaches();
clientsClaim();

worker.addEventListener("message", (event) => {
  if (event.data?.verb === "report") {
    event.waitUntil(report().then((told) => event.ports[0].postMessage(told)));
  } else if (event.data?.verb === "save-spare") {
    event.waitUntil(spare.save().catch(() => {}).then(report).then((told) => event.ports[0].postMessage(told)));
  } else if (event.data?.verb === "take-over") {
    void worker.skipWaiting();
  }
});

/**
 * What is saved, by looking.
 * @returns {Promise<SavedReport>}
 */
async function report() {
  const { revision, files } = RELEASE_TO_SAVE;
  const cache = await caches.open(cacheNames.precache);
  const present = new Set((await cache.keys()).map((request) => request.url));
  const missing = files.filter(({ url }) => !present.has(getCacheKeyForURL(url) ?? "")).length;
  if (missing) return { kind: "incomplete", revision, missing, total: files.length };
  const bytes = (await bytesReadBefore()) ?? (await readBack(cache));
  return { kind: "saved", revision, total: files.length, bytes, spare: await spare.report() };
}

/**
 * Read every file out of the cache once, and note that it was done for this release.
 * @param {Cache} cache
 * @returns {Promise<number>} How many bytes there are.
 */
async function readBack(cache) {
  let bytes = 0;
  for (const { url } of RELEASE_TO_SAVE.files) {
    const response = await cache.match(getCacheKeyForURL(url) ?? url);
    if (!response) throw new Error(`${url} is not in the cache`);
    bytes += (await response.arrayBuffer()).byteLength;
  }
  await caches.delete(READ_BACK_CACHE);
  const notes = await caches.open(READ_BACK_CACHE);
  await notes.put(noteAddress(), new Response(String(bytes)));
  return bytes;
}

/** @returns {Promise<number | null>} */
async function bytesReadBefore() {
  const notes = await caches.open(READ_BACK_CACHE);
  const note = await notes.match(noteAddress());
  return note ? Number(await note.text()) : null;
}

function noteAddress() {
  return new URL(`read-back-of-${RELEASE_TO_SAVE.digest}`, worker.registration.scope).href;
}

/** @param {SavedReport} told */
async function tellEveryone(told) {
  for (const client of await worker.clients.matchAll({ includeUncontrolled: true })) client.postMessage(told);
}
