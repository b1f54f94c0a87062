/**
 * Which release answers which page.
 *
 * A page stays with the release that it was opened from, for as long as it is open: its newer neighbour in another tab
 * is answered from the newer one. So an older release stays on the device until its last page is gone. What must be
 * known for that is noted: the lists of the releases, and which open pages are of another one.
 */

import { cacheNames } from "workbox-core";
import { Release } from "./release.mjs";

/** @import { Listed } from "./release.mjs" */
/** @import { Notes } from "./notes.mjs" */
/** @import { Standing } from "./saved-words.mjs" */

/**
 * @typedef {object} Noted
 * @property {Listed} listed
 * @property {string} stamp What its pages say of themselves; empty until it is whole.
 * @property {boolean} used Whether it was ever in use; one that was not is on its way, or waits to be taken.
 */

const LIST_OF = "release ";
const IN_USE = "in use";
const OTHER_PAGES = "pages of other releases";
/** Stands for a release that is not on this device: the network answers its pages. */
const ELSEWHERE = "";

export class Releases {
  /** @type {Map<string, Noted & {release: Release}>} Other releases, by digest. */
  #others = new Map();
  /** @type {Map<string, string>} Open pages that are not of this release, and of which they are, by digest. */
  #pages = new Map();
  /** @type {Promise<void> | undefined} */
  #known;
  #ownStamp = "";

  /**
   * @param {Release} own The release that this service worker was published with.
   * @param {Notes} notes
   */
  constructor(own, notes) {
    this.own = own;
    this.notes = notes;
  }

  /** Note that this release is being saved, so that nobody takes its files for leftovers. */
  async noteArriving() {
    if (!(await this.notes.read(this.#ownNote))) await this.#noteOwn({ stamp: "", used: false });
  }

  /** Note that it is whole. */
  async noteWhole() {
    const used = Boolean((await this.notes.read(this.#ownNote))?.used);
    await this.#noteOwn({ stamp: await this.own.stamp(), used });
  }

  /**
   * Let go of what has arrived of this release.
   * @param {boolean} isAnotherInUse Whether another one answers the pages.
   */
  async giveUp(isAnotherInUse) {
    const inUse = await this.notes.read(IN_USE);
    if (inUse === this.own.listed.digest) return;
    await this.notes.drop(this.#ownNote);
    await this.#readNotes();
    // Unless it is known which files are those of the one in use, nothing is deleted.
    if (!isAnotherInUse || this.#others.has(inUse)) await this.#dropLeftovers(false);
  }

  /** Note that this release is in use, unless that is known: a browser may have removed the notes with everything else. */
  async noteInUse() {
    const noted = await this.notes.read(this.#ownNote);
    if (noted?.used && (await this.notes.read(IN_USE)) === this.own.listed.digest) return;
    await this.#noteOwn({ stamp: noted?.stamp || (await this.own.stamp()), used: true });
    await this.notes.write(IN_USE, this.own.listed.digest);
  }

  /**
   * Answer from now on, all but the pages that are open: they stay with the release that was in use.
   * @param {readonly string[]} pages Their ids.
   * @param {boolean} isAnotherArriving Whether yet another release is being saved.
   */
  async takeOver(pages, isAnotherArriving) {
    const { digest } = this.own.listed;
    await this.#know();
    const before = await this.notes.read(IN_USE);
    for (const page of pages) if (before && !this.#pages.has(page)) this.#pages.set(page, before);
    for (const [page, of] of this.#pages) if (of === digest) this.#pages.delete(page);
    await this.#notePages(); // Before anything that may fail.
    await this.#noteOwn({ stamp: (await this.notes.read(this.#ownNote))?.stamp || (await this.own.stamp()), used: true });
    await this.notes.write(IN_USE, digest);
    await this.#tidy(pages, isAnotherArriving);
  }

  /**
   * @param {string} page The id of the page that asks, or of its worker; empty for a page that is only being opened.
   * @param {string} asked The address asked for.
   * @returns {Promise<{release: Release, url: string} | null>} null when the network is to answer.
   */
  async find(page, asked) {
    await this.#know();
    const digest = this.#pages.get(page);
    const release = digest === undefined ? this.own : this.#others.get(digest)?.release;
    const url = release?.find(asked);
    if (release && url) return { release, url };
    // The worker of an older page is not known as such; but what it asks for says by its name what is in it.
    for (const any of [this.own, ...[...this.#others.values()].map((other) => other.release)]) {
      const named = any.find(asked);
      if (named && any.isNamedByContent(named)) return { release: any, url: named };
    }
    return null;
  }

  /**
   * How an open page stands to this release.
   * @param {string} page Its id.
   * @param {string} stamp What it says of itself.
   * @returns {Promise<Standing>}
   */
  async standingOf(page, stamp) {
    await this.#know();
    this.#ownStamp ||= await this.own.stamp().catch(() => "");
    if (!this.#pages.has(page)) {
      if (!stamp || !this.#ownStamp || stamp === this.#ownStamp) return "current";
      const known = [...this.#others].find(([, other]) => other.stamp === stamp);
      this.#pages.set(page, known ? known[0] : ELSEWHERE);
      await this.#notePages().catch(() => {}); // Without room for a note it holds for this life of the service worker.
    }
    return this.#others.has(this.#pages.get(page) ?? ELSEWHERE) ? "older" : "elsewhere";
  }

  /** What stands in, of releases whose pages are still open. */
  olderSpare() {
    return [...this.#others.values()].filter(({ used }) => used).flatMap(({ listed }) => listed.spare);
  }

  /**
   * Let go of older releases whose last page is gone.
   * @param {readonly string[]} pages The ids of all that are open.
   */
  async tidy(pages) {
    await this.#know();
    if (this.#pages.size) await this.#tidy(pages, true);
  }

  /**
   * @param {readonly string[]} open
   * @param {boolean} isAnotherArriving
   */
  async #tidy(open, isAnotherArriving) {
    const still = new Set(open);
    const held = new Set([...this.#pages].filter(([page]) => still.has(page)).map(([, digest]) => digest));
    // A release goes as a whole: not every browser lists the workers of a page among what is open.
    for (const [page, digest] of this.#pages) if (!held.has(digest)) this.#pages.delete(page);
    for (const [digest, { used }] of this.#others) {
      if (held.has(digest) || (!used && isAnotherArriving)) continue;
      await this.notes.drop(LIST_OF + digest);
    }
    await this.#notePages();
    await this.#dropLeftovers(true);
  }

  /**
   * Delete every file that no noted release lists.
   * @param {boolean} keepOwn
   */
  async #dropLeftovers(keepOwn) {
    const cache = await caches.open(cacheNames.precache);
    // In this order: a release is noted before its first file arrives, so no file can be here without its note.
    const there = await cache.keys();
    await this.#readNotes();
    const releases = [...this.#others.values()].map(({ release }) => release);
    const wanted = new Set([...releases, ...(keepOwn ? [this.own] : [])].flatMap(({ keys }) => keys));
    for (const { url } of there) if (!wanted.has(url)) await cache.delete(url);
  }

  #know() {
    this.#known ??= this.#readNotes();
    return this.#known;
  }

  async #readNotes() {
    this.#pages = new Map(Object.entries((await this.notes.read(OTHER_PAGES)) ?? {}));
    /** @type {Map<string, Noted & {release: Release}>} */
    const others = new Map();
    for (const digest of await this.notes.namesAfter(LIST_OF).catch(() => [])) {
      /** @type {Noted | undefined} */
      const noted = digest === this.own.listed.digest ? undefined : await this.notes.read(LIST_OF + digest);
      const known = this.#others.get(digest)?.release;
      if (Array.isArray(noted?.listed?.files)) others.set(digest, { ...noted, release: known ?? new Release(noted.listed, this.own.scope) });
    }
    this.#others = others;
  }

  get #ownNote() {
    return LIST_OF + this.own.listed.digest;
  }

  /** @param {Pick<Noted, "stamp" | "used">} how */
  async #noteOwn(how) {
    /** @type {Noted} */
    const noted = { listed: this.own.listed, ...how };
    await this.notes.write(this.#ownNote, noted);
  }

  async #notePages() {
    await this.notes.write(OTHER_PAGES, Object.fromEntries(this.#pages));
  }
}
