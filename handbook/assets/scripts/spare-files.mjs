/**
 * The files that stand in when something fails: saved by the service worker once everything else is, counted apart,
 * and handed out from there. Each is named by its content, so that what is there is right.
 */

import { registerRoute } from "workbox-routing";

/** @import { SpareReport } from "./saved-words.mjs" */

export class SpareFiles {
  /**
   * @param {string} scope The address of the site.
   * @param {readonly {url: string, integrity: string}[]} files
   */
  constructor(scope, files) {
    this.cacheName = `threepin-spare-${scope}`;
    this.wanted = new Map(files.map(({ url, integrity }) => [new URL(url, scope).href, integrity]));
  }

  /** Answer from what is saved, or from the network while it is not. */
  route() {
    registerRoute(
      ({ url }) => this.wanted.has(url.href),
      async ({ request }) => (await caches.match(request.url, { cacheName: this.cacheName })) ?? fetch(request),
    );
  }

  /** Fetch what is missing, whole or not at all, and let go of what an older release left. */
  async save() {
    const cache = await caches.open(this.cacheName);
    for (const { url } of await cache.keys()) {
      if (!this.wanted.has(url)) await cache.delete(url);
    }
    for (const [url, integrity] of this.wanted) {
      if (!(await cache.match(url))) await cache.put(url, await fetch(url, { integrity }));
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
