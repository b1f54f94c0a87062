/**
 * The files that stand in when something fails: saved by the service worker once everything else is, counted apart,
 * and handed out from there. Each is named by its content, so that what is there is right.
 */

import { insistOn } from "./file-content.mjs";

/** @import { ListedFile } from "./file-content.mjs" */
/** @import { SpareReport } from "./saved-words.mjs" */

export class SpareFiles {
  /**
   * @param {string} scope The address of the site.
   * @param {readonly ListedFile[]} files
   */
  constructor(scope, files) {
    this.scope = scope;
    this.cacheName = `threepin-spare-${scope}`;
    this.wanted = new Map(files.map((file) => [new URL(file.url, scope).href, file]));
  }

  /**
   * What is saved under an address; older pages find theirs too, as long as it is there.
   * @param {string} url
   * @returns {Promise<Response | undefined>}
   */
  async answer(url) {
    return caches.match(url, { cacheName: this.cacheName });
  }

  /**
   * Fetch what is missing, whole or not at all, and let go of what nobody wants any more.
   * @param {readonly ListedFile[]} olderOnes What releases list whose pages are still open.
   */
  async save(olderOnes) {
    const cache = await caches.open(this.cacheName);
    const wanted = new Set([...this.wanted.keys(), ...olderOnes.map((file) => new URL(file.url, this.scope).href)]);
    for (const { url } of await cache.keys()) if (!wanted.has(url)) await cache.delete(url);
    for (const [url, file] of this.wanted) {
      if (await cache.match(url)) continue;
      const response = await fetch(url);
      await insistOn(response, file);
      await cache.put(url, response);
    }
  }

  /** @returns {Promise<SpareReport>} */
  async report() {
    const cache = await caches.open(this.cacheName);
    let bytes = 0;
    let missing = 0;
    for (const url of this.wanted.keys()) {
      const response = await cache.match(url);
      if (response) bytes += (await response.blob()).size;
      else missing += 1;
    }
    return { bytes, missing };
  }
}
