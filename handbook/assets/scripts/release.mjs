/**
 * One release of the handbook on this device: every file of its list with the content that the list names.
 *
 * Workbox keeps the files, each under its address and revision, so that those of two releases lie in one cache side by
 * side, and what did not change is there once. This file adds that nothing is believed: a file counts as saved, and
 * most are handed out, only after their content was looked at.
 */

import { cacheNames } from "workbox-core";
import { copyResponse } from "workbox-core/copyResponse.js";
import { PrecacheController } from "workbox-precaching";
import { asKept, insistOn, isContentOf, matches, NotAsListed, toKeep } from "./file-content.mjs";
import { damagedPage } from "./saved-words.mjs";

/** @import { ListedFile } from "./file-content.mjs" */

/**
 * @typedef {{readonly revision: string, readonly digest: string, readonly files: readonly ListedFile[],
 *   readonly spare: readonly ListedFile[]}} Listed The list that build_scripts/precache.py writes.
 */

/** Downloads under way at once while saving. */
const AT_ONCE = 6;
const BUILD_FACTS = "assets/data/build.json";
/** Ten megabytes that Python starts from: looked at when the page has settled, not while it waits for them. */
const RUNTIME = "assets/runtime/";

export class Release {
  /** @type {Map<string, ListedFile>} By whole address. */
  #files = new Map();
  #controller = new PrecacheController({
    plugins: [{
      cachedResponseWillBeUsed: async ({ request, cachedResponse }) =>
        cachedResponse && (await this.#isSound(cachedResponse, this.#listed(request.url))) ? cachedResponse : null,
      fetchDidSucceed: async ({ request, response }) => {
        await insistOn(response, this.#listed(request.url));
        return response;
      },
      cacheWillUpdate: async ({ request, response }) => toKeep(response, this.#listed(request.url)),
    }],
  });

  /**
   * @param {Listed} listed
   * @param {string} scope The address of the site.
   */
  constructor(listed, scope) {
    this.listed = listed;
    this.scope = scope;
    for (const file of listed.files) this.#files.set(new URL(file.url, scope).href, file);
    this.#controller.addToCacheList(listed.files.map(({ url, revision }) => ({ url, revision })));
  }

  /** Where each file lies in the cache. */
  get keys() {
    return [...this.#files.keys()].map((url) => this.#keyOf(url));
  }

  /**
   * @param {string} asked The address of a request.
   * @returns {string | null} The address of the file that answers it.
   */
  find(asked) {
    const plain = new URL(asked);
    plain.search = plain.hash = "";
    const { href } = plain;
    const variations = [href, href.endsWith("/") ? `${href}index.html` : `${href}.html`];
    return variations.find((url) => this.#files.has(url)) ?? null;
  }

  /**
   * Whether the file at this address can have no other content in any release.
   * @param {string} url
   */
  isNamedByContent(url) {
    return this.#files.get(url)?.revision === null;
  }

  /**
   * Whether Python is started from this file.
   * @param {string} url
   */
  isOfRuntime(url) {
    return this.#listed(url).url.startsWith(RUNTIME);
  }

  /**
   * Save every file, or fail. What an earlier attempt has brought is not fetched again.
   * @param {ExtendableEvent} event Of the installation.
   * @param {(done: number) => void} tell
   */
  async install(event, tell) {
    let done = 0;
    await sideBySide(this.#files, async ([url, file]) => {
      if (file.revision) {
        await this.#save(url, "reload", event);
      } else {
        // What is named by its content may come from the browser's own cache; if that is damaged, then not.
        await this.#save(url, "default", event).catch((why) => {
          if (why instanceof NotAsListed) return this.#save(url, "reload", event);
          throw why;
        });
      }
      done += 1;
      tell(done);
    });
  }

  /**
   * The file as this release has it: from the device, or fetched again and put back when what is there is gone or
   * damaged, or else a sentence. Never the file of another release.
   * @param {string} url As find() gives it.
   * @param {(url: string) => void} onMended
   * @returns {Promise<Response>}
   */
  async answer(url, onMended) {
    const saved = await this.#saved(url).catch(() => undefined);
    if (saved) return saved;
    try {
      const response = await this.#fetchAgain(url);
      await this.#put(url, response.clone()).then(() => onMended(url), () => {});
      return response;
    } catch {
      const headers = { "content-type": "text/html; charset=utf-8" };
      return new Response(damagedPage(this.listed.revision), { status: 503, headers });
    }
  }

  /** @returns {Promise<string[]>} Files that are not there, by a look at the names alone. */
  async missing() {
    const present = new Set((await (await this.#cache()).keys()).map(({ url }) => url));
    return [...this.#files.keys()].filter((url) => !present.has(this.#keyOf(url)));
  }

  /**
   * Read files out of the cache and look at their content.
   * @param {"all" | "runtime"} which
   * @returns {Promise<{bytes: number, damaged: string[]}>}
   */
  async readBack(which) {
    const cache = await this.#cache();
    let bytes = 0;
    const damaged = [];
    for (const [url, file] of this.#files) {
      if (which === "runtime" && !this.isOfRuntime(url)) continue;
      const content = await (await cache.match(this.#keyOf(url)))?.arrayBuffer().catch(() => undefined);
      if (content && (await matches(content, asKept(file)))) bytes += content.byteLength;
      else damaged.push(url);
    }
    return { bytes, damaged };
  }

  /**
   * Fetch files again and put them where they belong, as far as that can be done.
   * @param {string[]} urls
   * @returns {Promise<unknown>} Why it ended early; undefined when all of them are there.
   */
  async mend(urls) {
    try {
      await sideBySide(urls, async (url) => this.#put(url, await this.#fetchAgain(url)));
      return undefined;
    } catch (why) {
      return why;
    }
  }

  /** @returns {Promise<string>} What the pages of this release say of themselves, once it is saved. */
  async stamp() {
    const url = new URL(BUILD_FACTS, this.scope).href;
    const { revision, date } = await (await this.answer(url, () => {})).json();
    return `${revision} ${date}`;
  }

  /**
   * @param {string} url
   * @param {RequestCache} cache
   * @param {ExtendableEvent} event
   */
  async #save(url, cache, event) {
    const request = new Request(url, { cache, credentials: "same-origin" });
    const params = { cacheKey: this.#keyOf(url) };
    await Promise.all(this.#controller.strategy.handleAll({ params, request, event }));
  }

  /**
   * @param {string} url
   * @returns {Promise<Response>}
   */
  async #fetchAgain(url) {
    const given = await fetch(url, { cache: "reload", credentials: "same-origin" });
    const response = given.redirected ? await copyResponse(given) : given;
    await insistOn(response, this.#listed(url));
    return response;
  }

  /**
   * @param {string} url
   * @returns {Promise<Response | undefined>} What is on the device, unless it is damaged.
   */
  async #saved(url) {
    const file = this.#listed(url);
    const saved = await (await this.#cache()).match(this.#keyOf(url));
    const isSound = saved && (this.isOfRuntime(url) || (await this.#isSound(saved, file)));
    return isSound ? saved : undefined;
  }

  /**
   * @param {Response} saved It can still be read afterwards.
   * @param {ListedFile} file
   */
  #isSound(saved, file) {
    return isContentOf(saved.clone(), asKept(file));
  }

  /**
   * @param {string} url
   * @param {Response} response
   */
  async #put(url, response) {
    await (await this.#cache()).put(this.#keyOf(url), toKeep(response, this.#listed(url)));
  }

  #cache() {
    return caches.open(cacheNames.precache);
  }

  /** @param {string} url */
  #keyOf(url) {
    return /** @type {string} */ (this.#controller.getCacheKeyForURL(url));
  }

  /**
   * @param {string} address A file's own, or the one that it has in the cache.
   * @returns {ListedFile}
   */
  #listed(address) {
    const plain = new URL(address);
    plain.search = "";
    return /** @type {ListedFile} */ (this.#files.get(plain.href));
  }
}

/**
 * Do some of it at once. When one fails nothing more is begun, and all that was begun has ended before that is said.
 * @template Item
 * @param {Iterable<Item>} items
 * @param {(item: Item) => Promise<unknown>} work
 */
async function sideBySide(items, work) {
  const waiting = [...items];
  const lines = Array.from({ length: AT_ONCE }, async () => {
    try {
      while (waiting.length) await work(/** @type {Item} */ (waiting.shift()));
    } finally {
      waiting.length = 0;
    }
  });
  const failed = (await Promise.allSettled(lines)).find((line) => line.status === "rejected");
  if (failed) throw failed.reason;
}
