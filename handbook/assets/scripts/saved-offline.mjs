/**
 * Has the browser save the handbook on this device, and says on every page how that stands.
 * A newer release waits until the reader takes it; nobody's page changes under their hands.
 */

import { element } from "./elements.mjs";
import { savedWords } from "./saved-words.mjs";

/** @import { Saved, SavedReport } from "./saved-words.mjs" */

export class SavedOffline {
  /** @type {Saved} */
  #saved = { kind: "asking" };
  /** @type {ServiceWorker | null} A newer release that waits to be taken. */
  #newer = null;
  /** The reader took the newer release, so the page loads itself anew when it is there. */
  #taking = false;
  /** @type {HTMLElement | null} */
  #place = null;

  /** @param {URL} root The folder of the site. */
  constructor(root) {
    this.root = root;
  }

  /** Begin, once for the whole visit. */
  async start() {
    if (this.root.protocol === "file:") return this.#change({ kind: "from-disk" });
    const { serviceWorker } = navigator;
    if (!serviceWorker) return this.#change({ kind: "cannot" });
    serviceWorker.addEventListener("message", (event) => this.#hear(event.data));
    serviceWorker.addEventListener("controllerchange", () => {
      if (this.#taking) location.reload();
    });
    try {
      const registration = await serviceWorker.register(new URL("service-worker.js", this.root), { updateViaCache: "none" });
      registration.addEventListener("updatefound", () => this.#follow(registration, registration.installing));
      if (registration.waiting && registration.active) this.#offer(registration.waiting);
      if (registration.active) await this.#askFor(registration.active);
      else this.#follow(registration, registration.installing ?? registration.waiting);
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
    this.#show();
  }

  /**
   * @param {ServiceWorkerRegistration} registration
   * @param {ServiceWorker | null} arriving
   */
  #follow(registration, arriving) {
    const isFirst = !registration.active;
    arriving?.addEventListener("statechange", () => {
      if (arriving.state === "activated") void this.#askFor(arriving);
      else if (arriving.state === "installed" && !isFirst) this.#offer(arriving);
      else if (arriving.state === "redundant" && isFirst) {
        this.#change({ kind: "refused", why: "not every file arrived as it should" });
      }
    });
  }

  /** @param {ServiceWorker} newer */
  #offer(newer) {
    this.#newer = newer;
    this.#show();
  }

  /**
   * Ask how it stands; when all that is needed is there, have saved what stands in for it if something fails.
   * @param {ServiceWorker} worker
   */
  async #askFor(worker) {
    const told = await tellAndHear(worker, "report");
    this.#change(told);
    if (told.kind === "saved" && told.spare.missing) this.#change(await tellAndHear(worker, "save-spare"));
  }

  /** @param {SavedReport} told */
  #hear(told) {
    // While a newer release is being saved the old one is still there and whole.
    if (told.kind === "saving" && this.#saved.kind !== "saved") this.#change(told);
  }

  /** @param {Saved} saved */
  #change(saved) {
    this.#saved = saved;
    this.#show();
  }

  #show() {
    const place = this.#place;
    if (!place) return;
    place.dataset.saved = this.#saved.kind;
    place.replaceChildren(element("p", {}, savedWords(this.#saved)));
    const newer = this.#newer;
    if (!newer) return;
    const take = element("button", { type: "button", class: "action" }, "Use the newer one now");
    take.addEventListener("click", () => {
      this.#taking = true;
      newer.postMessage({ verb: "take-over" });
    });
    place.append(element("p", {}, "A newer revision of this handbook is saved and waits. Your entries stay. ", take));
  }
}

/**
 * @param {ServiceWorker} worker
 * @param {"report" | "save-spare"} verb
 * @returns {Promise<SavedReport>}
 */
function tellAndHear(worker, verb) {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = (event) => resolve(event.data);
    worker.postMessage({ verb }, [port2]);
  });
}
