/**
 * Keeps what was typed on this device, each calculator under its own key, as text and unit just as they were typed.
 * Where the browser refuses storage everything works as before, and keeping() says that nothing is kept.
 */

/** @import { Typed } from "./protocol.mjs" */

/** @typedef {{saved: string, fields: Record<string, Typed>}} Kept saved: when, as an ISO date and time. */

export class KeptEntries {
  #refused = false;

  /** @param {string} slug The calculator. */
  constructor(slug) {
    this.key = `threepin.entries.${slug}`;
    this.beginKey = `threepin.beginning.${slug}`;
  }

  /** False once the browser has refused to store something. */
  get keeping() {
    return !this.#refused;
  }

  /** @param {Record<string, Typed>} fields */
  keep(fields) {
    /** @type {Kept} */
    const kept = { saved: new Date().toISOString(), fields };
    this.#attempt((storage) => storage.setItem(this.key, JSON.stringify(kept)));
  }

  /** @returns {Kept | null} null when nothing is kept, or what is kept cannot be read. */
  restore() {
    const text = this.#attempt((storage) => storage.getItem(this.key));
    try {
      const kept = JSON.parse(text || "null");
      return kept && typeof kept.saved === "string" && typeof kept.fields === "object" ? kept : null;
    } catch {
      return null;
    }
  }

  /**
   * Note what the calculator begins with when it is opened next: a link from another page has said so.
   * @param {Record<string, Typed>} fields
   */
  beginWith(fields) {
    this.#attempt((storage) => storage.setItem(this.beginKey, JSON.stringify(fields)));
  }

  /** @returns {Record<string, Typed> | null} What it begins with, once; null when no link has said so. */
  takeBeginning() {
    const text = this.#attempt((storage) => storage.getItem(this.beginKey));
    if (!text) return null;
    this.#attempt((storage) => storage.removeItem(this.beginKey));
    try {
      return JSON.parse(text);
    } catch {
      return null;
    }
  }

  forget() {
    this.#attempt((storage) => storage.removeItem(this.key));
  }

  /**
   * @template Wanted
   * @param {(storage: Storage) => Wanted} use
   * @returns {Wanted | undefined}
   */
  #attempt(use) {
    try {
      return use(window.localStorage);
    } catch {
      // Private windows, full disks and strict settings each throw another error here; all mean the same to a reader.
      this.#refused = true;
      return undefined;
    }
  }
}
