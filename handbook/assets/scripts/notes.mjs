/** What the service worker must still know after it was stopped: small notes, kept as JSON in a cache of their own. */

export class Notes {
  /** @param {string} scope The address of the site. */
  constructor(scope) {
    this.scope = scope;
    this.cacheName = `threepin-notes-${scope}`;
  }

  /**
   * @param {string} name
   * @returns {Promise<any>} undefined when there is no such note, or it cannot be read.
   */
  async read(name) {
    try {
      const cache = await caches.open(this.cacheName);
      return await (await cache.match(this.#address(name)))?.json();
    } catch {
      return undefined;
    }
  }

  /**
   * @param {string} name
   * @param {unknown} value
   */
  async write(name, value) {
    const cache = await caches.open(this.cacheName);
    await cache.put(this.#address(name), Response.json(value));
  }

  /** @param {string} name */
  async drop(name) {
    const cache = await caches.open(this.cacheName);
    await cache.delete(this.#address(name));
  }

  /**
   * @param {string} beginning
   * @returns {Promise<string[]>} The rest of each name that begins so.
   */
  async namesAfter(beginning) {
    const start = this.#address(beginning);
    const cache = await caches.open(this.cacheName);
    const addresses = (await cache.keys()).map(({ url }) => url);
    return addresses.filter((url) => url.startsWith(start)).map((url) => decodeURIComponent(url.slice(start.length)));
  }

  /** @param {string} name */
  #address(name) {
    return new URL(`note-${encodeURIComponent(name)}`, this.scope).href;
  }
}
