/** A page past its review date says so, by the reader's own clock: a copy on a stick is never told otherwise. */

import { element } from "./elements.mjs";

const WARNING = "past-review";

/** @param {HTMLElement} article */
export function mountReviewDate(article) {
  const marked = article.querySelector("[data-review-by]");
  if (!(marked instanceof HTMLElement) || article.querySelector(`.${WARNING}`)) return;
  const last = new Date(`${marked.dataset.reviewBy}T23:59:59`);
  if (Number.isNaN(last.getTime()) || new Date() <= last) return;
  const warning = element("div", { class: WARNING, role: "note" },
    element("strong", {}, "This page is past its review date."),
    ` It was to be read again by ${marked.dataset.reviewBy}. Ask whoever gave you this handbook for a newer copy, `
    + "and check every limit and caution here before you rely on it.");
  const heading = article.querySelector("h1");
  if (heading) heading.after(warning);
  else article.prepend(warning);
}
