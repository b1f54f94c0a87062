/**
 * Has the browser save the handbook on this device, and says on every page how that stands.
 * A newer release waits until the reader takes it; nobody's page changes under their hands.
 */

import { element } from "./elements.mjs";
import { InstallHint } from "./install-hint.mjs";
import { drawStatus } from "./saved-status.mjs";
import { shortWords } from "./saved-words.mjs";
import { typedReadings } from "./typed-readings.mjs";

/** @import { Actions, Status } from "./saved-status.mjs" */
/** @import { FromServiceWorker, NotSaved, Report, Saved, ToServiceWorker } from "./saved-words.mjs" */

const HOUR = 60 * 60 * 1000;
const ASKED_TO_KEEP = "threepin.asked-to-keep";

export class SavedOffline {
  /** @type {Saved} */
  #saved = { kind: "asking" };
  /** @type {Status["newer"]} */
  #newer = null;
  /** @type {Status["standing"]} */
  #standing = "current";
  #isDoubted = false;
  #mended = { files: 0, computed: false };
  /** @type {boolean | null} */
  #isLasting = null;
  /** @type {{kept: "kept" | "not kept", then: () => void} | null} What waits for the reader's yes. */
  #question = null;
  /** The reader took the newer release, so the page loads itself anew when it is there. */
  #taking = false;
  /** @type {ServiceWorkerRegistration | null} */
  #registration = null;
  /** @type {HTMLElement | null} */
  #place = null;
  /** @type {Element | null} Where one short line stands, on the start page. */
  #shortPlace = null;
  #hint = new InstallHint(() => this.#show());
  #lastLook = Date.now();

  /**
   * @param {URL} root The folder of the site.
   * @param {string} stamp The release that this page is of: its revision and the day it was built.
   */
  constructor(root, stamp) {
    this.root = root;
    this.stamp = stamp;
  }

  /** Begin, once for the whole visit. */
  async start() {
    if (this.root.protocol === "file:") return this.#change({ kind: "from-disk" });
    try {
      const { serviceWorker } = navigator;
      if (!serviceWorker) return this.#change({ kind: "cannot" });
      serviceWorker.addEventListener("message", (event) => this.#hear(event.data));
      serviceWorker.addEventListener("controllerchange", () => this.#controlledAnew());
      await this.#follow(await serviceWorker.register(new URL("service-worker.js", this.root), { updateViaCache: "none" }));
    } catch (why) {
      this.#change({ kind: "refused", why: why instanceof Error ? why.message : String(why) });
    }
  }

  /**
   * Show how it stands on a page; again on each page of the visit.
   * @param {Document} page
   */
  mount(page) {
    const given = page.querySelector("[data-part=saved]");
    this.#place = given instanceof HTMLElement ? given : element("div", { "data-part": "saved" });
    if (!given) page.body.append(this.#place);
    this.#place.classList.add("saved-status");
    this.#place.setAttribute("role", "status");
    this.#shortPlace = page.querySelector("[data-part=saved-short]");
    this.#question = null;
    this.#show();
  }

  /** Something went wrong that a damaged file would explain: have every file looked at, and mended. */
  async doubt() {
    this.#isDoubted = true;
    const worker = this.#registration?.active;
    if (worker && this.#saved.kind === "saved") await this.#askFor(worker);
  }

  /** @param {ServiceWorkerRegistration} registration */
  async #follow(registration) {
    this.#registration = registration;
    registration.addEventListener("updatefound", () => this.#watch(registration.installing));
    document.addEventListener("visibilitychange", () => this.#lookForNewer());
    if (registration.installing) this.#watch(registration.installing);
    if (registration.waiting && registration.active) this.#offer();
    if (registration.active) await this.#askFor(registration.active);
  }

  /** @param {ServiceWorker | null} arriving */
  #watch(arriving) {
    const isFirst = !this.#registration?.active;
    arriving?.addEventListener("statechange", () => {
      if (arriving.state === "activated" && isFirst) void this.#askFor(arriving);
      else if (arriving.state === "installed" && !isFirst) this.#offer();
      else if (arriving.state === "redundant") this.#ended(isFirst);
    });
  }

  /**
   * A release could not be saved. It has mostly said why.
   * @param {boolean} isFirst
   */
  #ended(isFirst) {
    /** @type {NotSaved} */
    const unknown = { kind: "not-saved", revision: "", why: "network" };
    if (isFirst && this.#saved.kind !== "not-saved") this.#change(unknown);
    else if (this.#newer?.kind === "saving") this.#setNewer({ ...unknown, revision: this.#newer.revision });
  }

  /** A page that stays open for days hears of a newer release too. */
  #lookForNewer() {
    if (document.visibilityState !== "visible" || Math.abs(Date.now() - this.#lastLook) < HOUR) return;
    this.#lastLook = Date.now();
    if (navigator.onLine) this.#registration?.update().catch(() => {});
  }

  #offer() {
    this.#setNewer({ kind: "waiting" });
  }

  /** Another release answers from now on: this page took it, or another tab did. */
  #controlledAnew() {
    if (this.#taking) return location.reload();
    this.#newer = null;
    const worker = navigator.serviceWorker.controller;
    if (worker && this.#saved.kind !== "saving") void this.#askFor(worker);
  }

  /**
   * Ask how it stands, and have done what is to be done: fetch again what is gone or damaged; when all is there, ask
   * the browser to keep it, and save what stands in for it if something fails.
   * @param {ServiceWorker} worker
   */
  async #askFor(worker) {
    let told = await this.#mendIfNeeded(worker, await this.#ask(worker, "report"));
    if (told.kind === "saved" && (told.isDue || this.#isDoubted)) told = await this.#mendIfNeeded(worker, await this.#ask(worker, "read-back"));
    if (told.kind !== "saved") return;
    this.#isDoubted = false;
    this.#isLasting = await askToKeep();
    this.#show();
    if (told.spare.missing) this.#take(await this.#ask(worker, "save-spare"));
  }

  /**
   * @param {ServiceWorker} worker
   * @param {Report} told
   * @returns {Promise<Report>}
   */
  async #mendIfNeeded(worker, told) {
    if (told.kind === "saved") return this.#take(told);
    const files = told.missing + told.damaged;
    this.#change({ kind: "mending", revision: told.revision, files });
    const mended = await this.#ask(worker, "mend");
    if (mended.kind === "saved") {
      this.#mended = { files: this.#mended.files + files, computed: this.#mended.computed || told.computed };
    }
    return this.#take(mended);
  }

  /** @param {Report} told */
  #take(told) {
    this.#standing = told.standing;
    this.#change(told);
    return told;
  }

  /** @param {FromServiceWorker} told */
  #hear(told) {
    if (told.kind === "mended") {
      this.#mended = { ...this.#mended, files: this.#mended.files + 1 };
      this.#show();
    } else if (this.#registration?.active) {
      this.#setNewer(told);
    } else {
      this.#change(told);
    }
  }

  /** @param {Status["newer"]} newer */
  #setNewer(newer) {
    this.#newer = newer;
    this.#show();
  }

  /** @param {Saved} saved */
  #change(saved) {
    this.#saved = saved;
    this.#show();
  }

  /**
   * Do it now, or after a yes when it would take entries off the screen.
   * @param {() => void} then
   */
  #afterAsking(then) {
    const readings = typedReadings(document);
    if (readings === "none") return then();
    this.#question = { kept: readings, then };
    this.#show();
    const asked = this.#place?.querySelector("[data-part=question] button");
    if (asked instanceof HTMLElement) asked.focus();
  }

  /** @returns {Actions} */
  get #actions() {
    const answer = (/** @type {boolean} */ yes) => {
      const then = this.#question?.then;
      this.#question = null;
      this.#show();
      if (yes) then?.();
    };
    return {
      takeNewer: () => this.#afterAsking(() => {
        this.#taking = true;
        this.#registration?.waiting?.postMessage({ verb: "take-over" });
      }),
      loadAnew: () => this.#afterAsking(() => location.reload()),
      yes: () => answer(true),
      no: () => answer(false),
      install: () => void this.#hint.install(),
      dismiss: () => this.#hint.dismiss(),
    };
  }

  #show() {
    if (!this.#place) return;
    if (this.#shortPlace) this.#shortPlace.textContent = shortWords(this.#saved, this.#newer?.kind === "waiting");
    drawStatus(this.#place, {
      saved: this.#saved,
      newer: this.#newer,
      standing: this.#standing,
      pageRevision: this.stamp.split(" ")[0],
      mended: this.#mended,
      isLasting: this.#isLasting,
      canInstall: this.#hint.isOffered,
      question: this.#question?.kept ?? null,
    }, this.#actions);
  }

  /**
   * @param {ServiceWorker} worker
   * @param {Exclude<ToServiceWorker["verb"], "take-over">} verb
   * @returns {Promise<Report>}
   */
  #ask(worker, verb) {
    return new Promise((resolve) => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = (event) => resolve(event.data);
      /** @type {ToServiceWorker} */
      const message = { verb, stamp: this.stamp };
      worker.postMessage(message, [port2]);
    });
  }
}

/**
 * Ask the browser not to remove what is saved when room runs short. One that would put the question to the reader
 * hears it once.
 * @returns {Promise<boolean | null>} null when it cannot be known.
 */
async function askToKeep() {
  try {
    if (await navigator.storage.persisted()) return true;
    const decidesByItself = "onbeforeinstallprompt" in window;
    if (!decidesByItself && localStorage.getItem(ASKED_TO_KEEP)) return false;
    localStorage.setItem(ASKED_TO_KEEP, "yes");
    return await navigator.storage.persist();
  } catch {
    return null;
  }
}
