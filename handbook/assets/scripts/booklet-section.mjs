/** One page of the handbook made fit to stand among others on paper: ids of its own, no forms, everything unfolded. */

import { element } from "./elements.mjs";
import { addHandColumn } from "./paper.mjs";

// What works on a screen only, what belongs to another device, and what another page of the booklet has anyway.
const SCREEN_ONLY = [
  "script", "noscript", ".headerlink", ".md-content__button", ".form-actions", ".kept", ".problem-summary", ".field-problem",
  "[data-part=state]", "[data-part=outcome]", "[data-part=saved]",
].join(",");
const MOST_CHOICES = 7; // More of them would not fit beside a field: then one is written in.
const REFERS = ["for", "aria-labelledby", "aria-describedby", "aria-controls", "headers"];

/**
 * @typedef {object} Place
 * @property {string} id The id of the section in the booklet.
 * @property {URL} address Where the page stands in the site.
 * @property {URL} root Of the site.
 * @property {ReadonlyMap<string, string>} ids Path of every page in the booklet to the id of its section.
 */

/**
 * @param {string} html The article as it stands in its page.
 * @param {Place} place
 * @returns {HTMLElement}
 */
export function bookletSection(html, place) {
  const parsed = new DOMParser().parseFromString(html, "text/html").querySelector("article");
  if (!parsed) throw new Error(`${place.address.pathname} holds no page`);
  const section = element("section", { class: "booklet-page", id: place.id });
  section.append(...document.importNode(parsed, true).childNodes);
  for (const one of section.querySelectorAll(SCREEN_ONLY)) one.remove();
  leaveOutRepeats(section, place);
  for (const form of section.querySelectorAll("form")) form.replaceWith(worksheet(form));
  addHandColumn(section);
  for (const folded of section.querySelectorAll("details")) folded.setAttribute("open", "");
  // Links first: they are told from ids of this page by what they are before the ids change.
  for (const link of section.querySelectorAll("a[href]")) turnLink(/** @type {HTMLAnchorElement} */ (link), place);
  for (const image of section.querySelectorAll("img[src]")) {
    image.setAttribute("src", new URL(image.getAttribute("src") ?? "", place.address).href);
  }
  ownIds(section, place.id);
  return section;
}

/**
 * @param {HTMLAnchorElement} link
 * @param {Place} place
 */
function turnLink(link, { id, address, root, ids }) {
  const target = new URL(link.getAttribute("href") ?? "", address);
  const anchor = decodeURIComponent(target.hash.slice(1));
  const path = target.href.split("#")[0].slice(root.href.length);
  const inside = target.href.split("#")[0] === address.href ? id : ids.get(path);
  if (inside) link.setAttribute("href", `#${anchor ? `${inside}--${anchor}` : inside}`);
  // A page that is not in the booklet cannot be followed on paper, nor from a file on another device.
  else link.replaceWith(...link.childNodes);
}

/**
 * @param {HTMLElement} section
 * @param {string} prefix
 */
function ownIds(section, prefix) {
  const own = new Set([...section.querySelectorAll("[id]")].map((one) => one.id));
  for (const one of section.querySelectorAll("*")) {
    if (one.id) one.id = `${prefix}--${one.id}`;
    for (const name of REFERS) {
      const named = one.getAttribute(name);
      if (named) one.setAttribute(name, named.split(" ").map((id) => (own.has(id) ? `${prefix}--${id}` : id)).join(" "));
    }
    if (one.namespaceURI === "http://www.w3.org/2000/svg") ownReferences(one, own, prefix);
  }
}

/**
 * @param {Element} one
 * @param {ReadonlySet<string>} own
 * @param {string} prefix
 */
function ownReferences(one, own, prefix) {
  for (const { name, value } of [...one.attributes]) {
    const renamed = value.replace(/(url\(#|^#)([^)]+)/g, (all, before, id) => (own.has(id) ? `${before}${prefix}--${id}` : all));
    if (renamed !== value) one.setAttribute(name, renamed);
  }
}

/**
 * One worked example stands with its calculator and not again in each procedure that uses it, without the limits, which
 * have a page of their own. A walk cannot be walked on paper: its form gives way to the map, which has one as well.
 * @param {HTMLElement} section
 * @param {Place} place
 */
function leaveOutRepeats(section, { address, root }) {
  const withCalculator = address.href.slice(root.href.length).startsWith("calculators/");
  for (const calculator of section.querySelectorAll(".calculator")) {
    const map = calculator.querySelector("[data-part=map]");
    if (map) calculator.querySelector("form")?.replaceWith(element("p", {}, "On paper follow the page “The decision map”."));
    map?.remove();
    const examples = [...calculator.querySelectorAll(".worked-example")];
    for (const example of withCalculator ? examples.slice(1) : examples) example.remove();
    for (const limits of calculator.querySelectorAll(".limits-used")) limits.remove();
  }
}

/** @param {HTMLFormElement} form */
function worksheet(form) {
  const sheet = element("div", { class: "calculator-form worksheet" });
  sheet.append(...form.childNodes);
  for (const field of sheet.querySelectorAll("[hidden]")) field.removeAttribute("hidden");
  for (const label of sheet.querySelectorAll("label")) label.replaceWith(spanOf(label));
  for (const input of sheet.querySelectorAll("input")) {
    input.replaceWith(element("span", { class: "write-here" }, input.value));
  }
  for (const select of sheet.querySelectorAll("select")) select.replaceWith(choices(select));
  sheet.append(element("p", { class: "write-line" }, "What it came to:"));
  return sheet;
}

/** @param {HTMLLabelElement} label */
function spanOf(label) {
  const span = element("span", { class: "worksheet-label" });
  span.append(...label.childNodes);
  return span;
}

/** @param {HTMLSelectElement} select */
function choices(select) {
  const labels = [...select.options].map((option) => option.label.trim());
  if (select.name.endsWith("__unit")) return element("span", { class: "entry-unit" }, labels.join(" / "));
  if (labels.length > MOST_CHOICES) return element("span", { class: "write-here" });
  return element("span", { class: "tick-one" }, ...labels.map((label) => element("span", {}, `☐ ${label} `)));
}
