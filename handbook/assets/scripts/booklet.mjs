/** The page that prints booklets: pages are ticked, put together below in the order of the menu, and printed. */

import { bookletSection } from "./booklet-section.mjs";
import { stampOf } from "./device-date.mjs";
import { element, showWords } from "./elements.mjs";
import { gunzipBytes } from "./gunzip.mjs";
import { takeFromDisk } from "./open-worker.mjs";
import { nameSections, sectionId } from "./paper.mjs";
import { mountReviewDate } from "./review-date.mjs";

/**
 * @typedef {{path: string, title: string}} ListedPage
 * @typedef {{part: string, pages: ListedPage[]}} Part
 * @typedef {{revision: string, parts: Part[]}} List
 * @typedef {{list: List, article: (path: string) => Promise<string>}} Shelf
 */

const EVERYTHING = "everything";
const SOME = "pages=";
const NUMBERS = "numbers=";

/**
 * @param {HTMLElement} section
 * @param {URL} root
 * @param {boolean} fromDisk
 * @returns {() => void} Lets go of the page.
 */
export function mountBooklet(section, root, fromDisk) {
  const booklet = new Booklet(section, root);
  void booklet.start(fromDisk ? shelfOnDisk(root) : shelfOfHost(root));
  return () => booklet.leave();
}

class Booklet {
  /**
   * @param {HTMLElement} section
   * @param {URL} root
   */
  constructor(section, root) {
    this.root = root;
    this.section = section;
    this.state = element("p", { class: "booklet-state", role: "status" });
    this.pages = element("div", { class: "booklet" });
    this.print = /** @type {HTMLButtonElement} */ (element("button", { type: "button", class: "action", hidden: true }, "Print"));
    this.nameless = () => {};
    this.left = false;
  }

  /** @param {Promise<Shelf>} shelf */
  async start(shelf) {
    this.section.replaceChildren(this.state);
    showWords(this.state, "Reading the list of pages …");
    try {
      this.shelf = await shelf;
    } catch (why) {
      return showWords(this.state, `The list of pages cannot be read (${said(why)}). Load this page again.`);
    }
    if (this.left) return;
    this.form = this.#draw(this.shelf.list);
    this.section.replaceChildren(this.form, this.pages);
    this.print.addEventListener("click", () => window.print());
    if (this.#tickAsAsked()) await this.putTogether();
  }

  leave() {
    this.left = true;
    this.nameless();
  }

  /** Put the ticked pages together below the list. */
  async putTogether() {
    const { shelf } = this;
    if (!shelf) return;
    const ticked = this.#ticked();
    this.nameless();
    this.pages.replaceChildren();
    this.print.hidden = true;
    if (!ticked.length) return showWords(this.state, "No page is ticked. Tick what is wanted, or all of it.");
    const ids = new Map(ticked.map((page, number) => [page.path, sectionId(number)]));
    /** @type {HTMLElement[]} */
    const sections = [];
    for (const page of ticked) {
      const id = ids.get(page.path) ?? "";
      try {
        const place = { id, ids, root: this.root, address: new URL(page.path, this.root) };
        const made = bookletSection(await shelf.article(page.path), place);
        mountReviewDate(made);
        sections.push(made);
      } catch (why) {
        return showWords(this.state, `“${page.title}” cannot be read (${said(why)}). Untick it, or try again with network.`);
      }
      if (this.left) return;
      showWords(this.state, `${sections.length} of ${ticked.length} pages …`);
    }
    this.nameless = nameSections(document, ticked.map((page) => page.title));
    this.pages.replaceChildren(cover(shelf.list.revision), contents(ticked), ...sections);
    this.print.hidden = false;
    showWords(this.state, `${ticked.length === 1 ? "1 page stands" : `${ticked.length} pages stand`} below, ready to print.`);
    this.section.dataset.ready = String(ticked.length);
  }

  /** @param {List} list */
  #draw(list) {
    const all = element("button", { type: "button", class: "action" }, "Tick all");
    const none = element("button", { type: "button", class: "action" }, "Tick none");
    const form = element("form", { class: "booklet-choose", method: "dialog", autocomplete: "off" },
      element("div", { class: "form-actions" }, all, none),
      ...list.parts.filter((part) => part.pages.length).map(drawPart),
      element("div", { class: "form-actions" },
        element("button", { type: "submit", class: "action action-main" }, "Put the booklet together"), this.print),
      this.state);
    all.addEventListener("click", () => this.#tick(() => true));
    none.addEventListener("click", () => this.#tick(() => false));
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      void this.putTogether();
    });
    form.addEventListener("change", () => this.#remember());
    showWords(this.state, "");
    return form;
  }

  /** @returns {HTMLInputElement[]} */
  #boxes() {
    return [.../** @type {NodeListOf<HTMLInputElement>} */ (this.form?.querySelectorAll("input[name=page]") ?? [])];
  }

  /** @param {(path: string) => boolean} wanted */
  #tick(wanted) {
    for (const box of this.#boxes()) box.checked = wanted(box.value);
    this.#remember();
  }

  #ticked() {
    const paths = new Set(this.#boxes().filter((box) => box.checked).map((box) => box.value));
    return this.shelf?.list.parts.flatMap((part) => part.pages).filter((page) => paths.has(page.path)) ?? [];
  }

  /** The choice stands in the address, so that a set of pages can be kept as a link. */
  #remember() {
    const paths = this.#ticked().map((page) => page.path.replace(/\.html$/, ""));
    const every = paths.length === this.#boxes().length;
    const asked = every ? EVERYTHING : `${SOME}${paths.join(",")}`;
    history.replaceState(history.state, "", `${location.pathname}${location.search}#${paths.length ? asked : ""}`);
  }

  /** @returns {boolean} Whether the address asks for pages. */
  #tickAsAsked() {
    const asked = decodeURIComponent(location.hash.slice(1)).split("&");
    const some = asked.find((one) => one.startsWith(SOME))?.slice(SOME.length).split(",") ?? [];
    if (!some.length && !asked.includes(EVERYTHING)) return false;
    const paths = new Set(some.map((one) => `${one}.html`));
    for (const box of this.#boxes()) box.checked = !some.length || paths.has(box.value);
    return this.#ticked().length > 0;
  }
}

/** @param {Part} part */
function drawPart(part) {
  return element("fieldset", {},
    element("legend", {}, part.part),
    ...part.pages.map((page) => element("label", { class: "tick" },
      element("input", { type: "checkbox", name: "page", value: page.path }), page.title)));
}

/** @param {string} revision */
function cover(revision) {
  const lines = ["Printed on", "For", "Given out by", "Copy number"];
  return element("div", { class: "booklet-cover" },
    element("p", { class: "booklet-name" }, "Threepin"),
    element("p", {}, `Handbook revision ${revision}`),
    element("p", {}, "Local codes, the maker's instructions and the rules of licensed practice come before this handbook. "
      + "A printed copy does not renew itself: compare its revision with the handbook in use."),
    ...lines.map((line) => element("p", { class: "write-line" }, `${line}:`)));
}

/** @param {ListedPage[]} pages */
function contents(pages) {
  const numbers = decodeURIComponent(location.hash).split("&").find((one) => one.startsWith(NUMBERS));
  const listed = numbers?.slice(NUMBERS.length).split(",") ?? [];
  return element("nav", { class: "booklet-contents", "aria-label": "Contents of the booklet" },
    element("p", { class: "booklet-contents-title" }, "Contents"),
    element("ol", {}, ...pages.map((page, number) => element("li", {},
      element("a", { href: `#${sectionId(number)}` }, page.title),
      element("span", { class: "booklet-number" }, listed[number] ?? "")))));
}

/**
 * @param {URL} root
 * @returns {Promise<Shelf>}
 */
async function shelfOfHost(root) {
  const list = JSON.parse(await read(new URL("assets/data/booklet.json", root)));
  const stamp = stampOf(document);
  return {
    list,
    article: async (path) => {
      const text = await read(new URL(path, root));
      if (!text.includes(`data-release="${stamp}"`)) throw new Error("the handbook was renewed meanwhile: load this page anew");
      return text;
    },
  };
}

/** @param {URL} address */
async function read(address) {
  const reply = await fetch(address);
  if (!reply.ok) throw new Error(`the host answered ${reply.status}`);
  return reply.text();
}

/**
 * @param {URL} root
 * @returns {Promise<Shelf>}
 */
async function shelfOnDisk(root) {
  const packed = atob(await takeFromDisk(new URL("assets/runtime/disk/", root), "booklet"));
  const bytes = await gunzipBytes(Uint8Array.from(packed, (letter) => letter.charCodeAt(0)));
  const { list, articles } = JSON.parse(new TextDecoder().decode(bytes));
  return {
    list,
    article: async (path) => {
      if (!(path in articles)) throw new Error("it is missing from this folder");
      return articles[path];
    },
  };
}

/** @param {unknown} why */
function said(why) {
  return why instanceof Error ? why.message : String(why);
}
