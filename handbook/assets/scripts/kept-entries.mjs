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
    const kept = readJson(text);
    return isObject(kept) && typeof kept.saved === "string" && isFields(kept.fields)
      ? { saved: kept.saved, fields: kept.fields } : null;
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
    const fields = readJson(text);
    return isFields(fields) ? fields : null;
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

/**
 * @param {string | null | undefined} text
 * @returns {unknown} undefined when it is no JSON.
 */
function readJson(text) {
  try {
    return JSON.parse(text ?? "");
  } catch {
    return undefined;
  }
}

/**
 * What lies on a device may have been written by anything, or half.
 * @param {unknown} fields
 * @returns {fields is Record<string, Typed>}
 */
function isFields(fields) {
  return isObject(fields) && Object.values(fields).every((typed) =>
    isObject(typed) && typeof typed.text === "string" && typeof typed.unit === "string");
}

/**
 * @param {unknown} value
 * @returns {value is Record<string, unknown>}
 */
function isObject(value) {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
