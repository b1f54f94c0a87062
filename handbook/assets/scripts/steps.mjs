/**
 * Hold points and gates: what comes after an unticked one is folded on screen.
 *
 * Only a class is set; the style sheet folds it on screen alone, so that paper, and a page without scripts, show all.
 * Ticks last for this visit and this page. They are never kept longer: the next machine is another machine.
 */

import { element } from "./elements.mjs";

const FOLDED = "folded";
const OPENED = "opened-by-link";
const GATE_ENDS_BEFORE = "common-mistakes";

/**
 * @typedef {object} Stop A hold point or a gate.
 * @property {string} id Its name in what is remembered.
 * @property {HTMLElement} place
 * @property {HTMLElement[]} after Everything it folds.
 * @property {HTMLInputElement} tick
 * @property {HTMLElement} told Says what is folded, below it.
 */

/**
 * @param {HTMLElement} article
 * @returns {() => void} Lets go of the page.
 */
export function mountSteps(article) {
  const ending = new AbortController();
  const ticks = new Ticks(location.pathname);
  // A folded step does not count, so each carries its number.
  for (const list of article.querySelectorAll("ol.steps")) {
    [...list.children].forEach((step, position) => step.setAttribute("value", String(position + 1)));
  }
  const stops = [...gates(article), ...holds(article)];
  if (stops.length === 0) return () => {};
  const again = element("button", { type: "button", class: "action untick" }, "Clear all ticks and begin again");
  const fold = () => {
    foldAfter(stops);
    again.hidden = !stops.some((stop) => stop.tick.checked);
  };
  for (const stop of stops) {
    stop.tick.checked = ticks.has(stop.id);
    stop.tick.addEventListener("change", () => {
      ticks.set(stop.id, stop.tick.checked);
      clearOpened(article);
      fold();
    });
  }
  again.addEventListener("click", () => {
    ticks.clear();
    for (const stop of stops) stop.tick.checked = false;
    clearOpened(article);
    fold();
    stops[0].place.scrollIntoView({ block: "center" });
    stops[0].tick.focus({ preventScroll: true });
  });
  const lastStep = [...article.querySelectorAll("li.step")].pop();
  (lastStep?.closest("ol") ?? stops[stops.length - 1].place).after(again);
  fold();
  const openLinked = () => openTarget(article, stops, location.hash);
  openLinked();
  window.addEventListener("hashchange", openLinked, { signal: ending.signal });
  // A second tap on the same link changes no address, and the theme may change it without an event.
  article.ownerDocument.addEventListener("click", (event) => {
    const link = event.target instanceof Element ? event.target.closest("a[href]") : null;
    if (link instanceof HTMLAnchorElement && link.hash && link.pathname === location.pathname) {
      openTarget(article, stops, link.hash);
    }
  }, { signal: ending.signal });
  return () => ending.abort();
}

/** What has been ticked on one page during this visit. */
class Ticks {
  /** @param {string} page */
  constructor(page) {
    this.key = `threepin.ticks.${page}`;
    /** @type {Set<string>} */
    this.ticked = new Set();
    try {
      this.ticked = new Set(JSON.parse(sessionStorage.getItem(this.key) ?? "[]"));
    } catch {
      // Refused or unreadable: nothing is ticked, which is the safe way to be wrong.
    }
  }

  /** @param {string} id */
  has(id) {
    return this.ticked.has(id);
  }

  /**
   * @param {string} id
   * @param {boolean} ticked
   */
  set(id, ticked) {
    if (ticked) this.ticked.add(id);
    else this.ticked.delete(id);
    this.#keep();
  }

  clear() {
    this.ticked.clear();
    this.#keep();
  }

  #keep() {
    try {
      sessionStorage.setItem(this.key, JSON.stringify([...this.ticked]));
    } catch {
      // The ticks hold until the page is left.
    }
  }
}

/**
 * @param {HTMLElement} article
 * @returns {Stop[]}
 */
function gates(article) {
  return [...article.querySelectorAll("[data-gate]")].filter(isHtml).map((place, position) => {
    /** @type {HTMLElement[]} */
    const after = [];
    for (let next = place.nextElementSibling; next && next.id !== GATE_ENDS_BEFORE; next = next.nextElementSibling) {
      if (isHtml(next)) after.push(next);
    }
    return stop(`gate-${place.dataset.gate || position + 1}`, place, after, "Yes");
  });
}

/**
 * @param {HTMLElement} article
 * @returns {Stop[]}
 */
function holds(article) {
  return [...article.querySelectorAll("li.step[data-hold]")].filter(isHtml).map((place) => {
    const steps = [...(place.parentElement?.children ?? [])].filter(isHtml);
    const after = steps.slice(steps.indexOf(place) + 1);
    return stop(`hold-${place.dataset.hold}`, place, after, "Done and true: go on");
  });
}

/**
 * @param {string} id
 * @param {HTMLElement} place
 * @param {HTMLElement[]} after
 * @param {string} words
 * @returns {Stop}
 */
function stop(id, place, after, words) {
  const tick = /** @type {HTMLInputElement} */ (element("input", { type: "checkbox", autocomplete: "off" }));
  const told = element("p", { class: "fold-words", role: "status" });
  place.append(element("label", { class: "tick" }, tick, element("span", {}, words)), told);
  return { id, place, after, tick, told };
}

/** @param {Stop[]} stops */
function foldAfter(stops) {
  for (const { after } of stops) for (const one of after) one.classList.remove(FOLDED);
  for (const { place, tick, after, told } of stops) {
    if (!tick.checked) for (const one of after) one.classList.add(FOLDED);
    place.classList.toggle("ticked", tick.checked);
    const steps = after.filter((one) => one.matches("li.step")).length;
    const folded = steps ? `${steps} later ${steps === 1 ? "step is" : "steps are"}` : "The steps are";
    told.textContent = tick.checked || after.length === 0 ? "" : `${folded} folded until this is ticked.`;
  }
}

/**
 * A link into something folded opens it, and says there which hold point is not ticked.
 * @param {HTMLElement} article
 * @param {Stop[]} stops
 * @param {string} hash
 */
function openTarget(article, stops, hash) {
  const target = hash.length > 1 ? article.ownerDocument.getElementById(decodeURIComponent(hash.slice(1))) : null;
  if (!target || !article.contains(target)) return;
  const blocking = stops.filter(({ tick, after }) => !tick.checked && after.some((one) => one.contains(target)));
  if (blocking.length === 0) return;
  clearOpened(article);
  const shown = withItsSection(target);
  for (const { after } of blocking) {
    for (const one of after) if (shown.some((wanted) => one.contains(wanted))) one.classList.add(OPENED);
  }
  const warning = element("div", { class: "hold-warning", role: "note" },
    element("strong", {}, "Not yet: this comes after what is not ticked."),
    element("ul", {}, ...blocking.map(({ place, tick }) => element("li", {}, linkToStop(place, tick)))));
  if (target.matches("li.step")) target.prepend(warning);
  else target.before(warning);
  warning.scrollIntoView({ block: "center" });
}

/**
 * A heading is of no use without what stands under it.
 * @param {HTMLElement} target
 * @returns {Element[]}
 */
function withItsSection(target) {
  /** @type {Element[]} */
  const section = [target];
  if (!/^H[1-6]$/.test(target.tagName)) return section;
  let next = target.nextElementSibling;
  while (next && !(/^H[1-6]$/.test(next.tagName) && next.tagName <= target.tagName)) {
    section.push(next);
    next = next.nextElementSibling;
  }
  return section;
}

/**
 * @param {HTMLElement} place
 * @param {HTMLInputElement} tick
 */
function linkToStop(place, tick) {
  if (!place.id) place.id = `stop-${place.dataset.hold ?? "gate"}`;
  const link = element("a", { href: `#${place.id}` }, wordsOf(place));
  link.addEventListener("click", (event) => {
    event.preventDefault();
    event.stopPropagation();
    place.scrollIntoView({ block: "center" });
    tick.focus({ preventScroll: true });
  });
  return link;
}

/** @param {HTMLElement} article */
function clearOpened(article) {
  for (const warning of article.querySelectorAll(".hold-warning")) warning.remove();
  for (const one of article.querySelectorAll(`.${OPENED}`)) one.classList.remove(OPENED);
}

/**
 * What a hold point says, without what was added to it here.
 * @param {HTMLElement} place
 */
function wordsOf(place) {
  const copy = /** @type {HTMLElement} */ (place.cloneNode(true));
  for (const added of copy.querySelectorAll(".tick, .fold-words, .hold-warning")) added.remove();
  return copy.textContent?.trim().replace(/\s+/g, " ") ?? "";
}

/**
 * @param {Element} one
 * @returns {one is HTMLElement}
 */
function isHtml(one) {
  return one instanceof HTMLElement;
}
