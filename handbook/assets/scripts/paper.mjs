/** What stands at the head of every printed sheet, for browsers that print margin boxes; the rest is in the stylesheet. */

import { element } from "./elements.mjs";

/**
 * Say the page's name and the handbook's revision in the head of its sheets.
 * @param {Document} page
 * @param {HTMLElement} article
 */
export function nameSheets(page, article) {
  const heading = article.querySelector("h1");
  // A link to the heading stands in it, and marks around words that were searched for.
  const words = [...(heading?.childNodes ?? [])].filter((one) => !(one instanceof Element && one.matches(".headerlink")));
  const title = words.map((one) => one.textContent).join("").trim() || page.title;
  const handbook = article.querySelector(".print-handbook")?.textContent ?? "";
  page.documentElement.style.setProperty("--sheet-page", quoted(title));
  page.documentElement.style.setProperty("--sheet-revision", quoted(handbook));
}

/**
 * Give each section of a booklet its own name at the head of its sheets.
 * @param {Document} page
 * @param {string[]} titles
 * @returns {() => void} Takes the names away again.
 */
export function nameSections(page, titles) {
  if (!("adoptedStyleSheets" in page)) return () => {};
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(titles.map((title, number) =>
    `#${sectionId(number)} { page: ${sectionId(number)} }\n`
    + `@page ${sectionId(number)} { @top-left { content: ${quoted(title)} } }`).join("\n"));
  page.adoptedStyleSheets = [...page.adoptedStyleSheets, sheet];
  return () => { page.adoptedStyleSheets = page.adoptedStyleSheets.filter((one) => one !== sheet); };
}

/**
 * A column for the pen in the table of readings to take; it shows on paper only.
 * @param {ParentNode} article
 */
export function addHandColumn(article) {
  for (const heading of article.querySelectorAll("th:first-child")) {
    const table = heading.closest("table");
    if (heading.textContent?.trim() !== "Reading" || !table || table.querySelector(".by-hand")) continue;
    for (const row of table.rows) {
      const isHead = row.querySelector("th") !== null;
      row.append(isHead ? element("th", { class: "by-hand" }, "Read") : element("td", { class: "by-hand" }));
    }
  }
}

/** @param {number} number */
export function sectionId(number) {
  return `sheet-${number + 1}`;
}

/** @param {string} text As a string of a stylesheet. */
function quoted(text) {
  return `"${text.replace(/["\\]/g, "\\$&").replace(/\s+/g, " ")}"`;
}
