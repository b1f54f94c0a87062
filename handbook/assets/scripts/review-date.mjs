/** A page past its review date says so, by the reader's own clock: a copy on a stick is never told otherwise. */

import { clockBehind } from "./device-date.mjs";
import { element } from "./elements.mjs";

const WARNING = "past-review";

/**
 * Say below the title what is wrong with the dates, if anything: the page's, or that of the device.
 * @param {HTMLElement} article
 */
export function mountDates(article) {
  const behind = clockBehind();
  if (!behind) return mountReviewDate(article);
  const lastDay = lastDayOf(article);
  warn(article, "The date on this device is wrong.",
    ` It says ${behind.today}, and this handbook was built on ${behind.built}. Set it: until then limits are those of the `
    + `day of building, and this page cannot tell whether it is past its review date${lastDay ? ` (${lastDay})` : ""}.`);
}

/** @param {HTMLElement} article */
export function mountReviewDate(article) {
  const lastDay = lastDayOf(article);
  if (!lastDay || new Date() <= new Date(`${lastDay}T23:59:59`)) return;
  warn(article, "This page is past its review date.",
    ` It was to be read again by ${lastDay}. Ask whoever gave you this handbook for a newer copy, `
    + "and check every limit and caution here before you rely on it.");
}

/** @param {HTMLElement} article */
function lastDayOf(article) {
  const marked = article.querySelector("[data-review-by]");
  const day = marked?.getAttribute("data-review-by") ?? "";
  return Number.isNaN(Date.parse(day)) ? "" : day;
}

/**
 * @param {HTMLElement} article
 * @param {string} loud
 * @param {string} words
 */
function warn(article, loud, words) {
  if (article.querySelector(`.${WARNING}`)) return;
  const warning = element("div", { class: WARNING, role: "note" }, element("strong", {}, loud), words);
  const heading = article.querySelector("h1");
  if (heading) heading.after(warning);
  else article.prepend(warning);
}
