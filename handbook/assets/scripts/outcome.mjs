/**
 * Draws an outcome in the page, element for element as build_scripts/templates/outcome.html does at build time.
 * A browser test compares the two.
 */

import { element, renewChildren, showWords } from "./elements.mjs";

/** @import { Child } from "./elements.mjs" */
/** @import { Decider, Figure, Finding, Limit, Outcome, Procedures, Result, Step } from "./protocol.mjs" */

/**
 * @typedef {object} Around What an outcome is drawn into.
 * @property {string} slug The calculator.
 * @property {(name: string) => string} labelOf The label of one of its fields.
 * @property {Procedures} procedures
 */

const VERDICT_WORDS = { within: "Within", watch: "Watch", outside: "Outside", undecided: "Undecided" };
const WORKING_HEADS = ["Step", "Formula", "Numbers put in", "Result", "Source"];

/**
 * Draw an outcome into its place. What is the same as in the outcome that stands there stays as it is.
 * @param {HTMLElement} place
 * @param {Outcome} outcome
 * @param {Around} around
 */
export function drawOutcome(place, outcome, around) {
  const { findings, results, figures, working, notes, limits } = outcome;
  renewChildren(place, [{ key: "outcome", draw: () => element("div", { class: "outcome" }) }]);
  const drawn = /** @type {HTMLElement} */ (place.firstElementChild);
  renewChildren(drawn, [
    ...filled(findings, "findings", () => element("ol", { class: "findings" })),
    ...filled(results, "results", () => element("dl", { class: "results" })),
    ...figures.map((one) => ({ key: JSON.stringify(one), draw: () => drawFigure(one) })),
    ...filled(working, "working", drawWorking),
    ...filled(notes, "notes", () => element("ul", { class: "notes" })),
    ...filled(limits, "limits-used", drawLimits),
  ]);
  renewIn(drawn, ".findings", findings, (one) => drawFinding(one, around));
  renewIn(drawn, ".results", results, drawResult);
  renewIn(drawn, ".working > tbody", working, drawStep);
  renewIn(drawn, ".notes", notes, (note) => element("li", {}, note));
  renewIn(drawn, ".limits-used > ul", limits, (limit) =>
    element("li", { "data-limit": limit.key }, ...limitLine(limit)));
  const summary = drawn.querySelector(":scope > .limits-used > summary");
  if (summary instanceof HTMLElement) showWords(summary, `Limits used (${limits.length})`);
}

/**
 * The list that holds items, when there are any.
 * @param {unknown[]} items
 * @param {string} key
 * @param {() => HTMLElement} draw Without the items.
 * @returns {Child[]}
 */
function filled(items, key, draw) {
  return items.length ? [{ key, draw }] : [];
}

/**
 * @template Item
 * @param {HTMLElement} drawn
 * @param {string} list
 * @param {Item[]} items
 * @param {(item: Item) => HTMLElement} draw
 */
function renewIn(drawn, list, items, draw) {
  const place = drawn.querySelector(`:scope > ${list}`);
  if (place instanceof HTMLElement) {
    renewChildren(place, items.map((one) => ({ key: JSON.stringify(one), draw: () => draw(one) })));
  }
}

/**
 * @param {Finding} finding
 * @param {Around} around
 */
function drawFinding(finding, around) {
  const verdict = element("p", { class: "verdict" },
    element("span", { class: "verdict-mark", "aria-hidden": "true" }), " ",
    element("strong", {}, VERDICT_WORDS[finding.verdict]));
  if (finding.stop) verdict.append(" ", element("strong", { class: "stop-mark" }, "Stop here"));
  return element("li", { class: "finding", "data-verdict": finding.verdict, "data-stop": finding.stop },
    verdict,
    element("p", { class: "sentence" }, finding.sentence),
    element("p", { class: "plain" }, finding.plain),
    finding.decider && drawDecider(finding.decider, around),
    finding.limit && element("p", { class: "limit-used" }, "Limit: ", ...limitLine(finding.limit)),
    drawNext(finding.next, around));
}

/**
 * @param {Decider} decider
 * @param {Around} around
 */
function drawDecider(decider, { slug, labelOf }) {
  /** @type {(head: string, body: Node | string) => HTMLElement} */
  const row = (head, body) => element("div", {}, element("dt", {}, head), element("dd", {}, body));
  return element("dl", { class: "decider" },
    row("To decide, read again", decider.reading),
    row("Resolution needed", decider.resolution),
    row("Condition", decider.condition),
    decider.enter_in
      ? row("Enter it in", element("a", { href: `#${slug}-${decider.enter_in}` }, labelOf(decider.enter_in)))
      : null);
}

/**
 * @param {Finding["next"]} next
 * @param {Around} around
 */
function drawNext(next, { procedures }) {
  const line = element("p", { class: "next" }, element("strong", {}, "Next:"), ` ${next.text}`);
  const procedure = procedures[next.procedure];
  if (procedure) {
    line.append(" ", element("a", { href: `../procedures/${next.procedure}.html` }, procedure.title), " ",
      element("span", { class: "level" }, `(${procedure.level})`));
  }
  return line;
}

/** @param {Result} result */
function drawResult(result) {
  return element("div", { class: "result", "data-result": result.name },
    element("dt", {}, result.label),
    element("dd", { class: "value" }, result.text),
    result.band ? element("dd", { class: "band" }, `between ${result.band}`) : null,
    ...result.also.map((also) => element("dd", { class: "also" }, `= ${also}`)),
    element("dd", { class: "plain" }, result.plain));
}

/** @param {Figure} figure */
function drawFigure(figure) {
  const parsed = new DOMParser().parseFromString(figure.svg, "image/svg+xml").documentElement;
  const drawn = parsed.localName === "svg" ? document.importNode(parsed, true) : element("p", {}, figure.alt);
  return element("figure", { class: "drawing-figure", "data-figure": figure.name }, drawn,
    element("figcaption", {}, figure.words));
}

function drawWorking() {
  const heads = WORKING_HEADS.map((head) => element("th", { scope: "col" }, head));
  return element("table", { class: "working" },
    element("caption", {}, "Working"),
    element("thead", {}, element("tr", {}, ...heads)),
    element("tbody", {}));
}

/** @param {Step} step */
function drawStep(step) {
  const cells = [step.formula, step.put_in, step.result, step.source];
  return element("tr", {}, element("th", { scope: "row" }, step.label),
    ...cells.map((cell, position) => element("td", { "data-head": WORKING_HEADS[position + 1] }, cell)));
}

function drawLimits() {
  return element("details", { class: "limits-used" }, element("summary", {}), element("ul", {}));
}

/**
 * @param {Limit} limit
 * @returns {(Node | string)[]}
 */
function limitLine(limit) {
  const basis = `Basis: ${limit.basis}. Source: ${limit.source}. In force from ${limit.in_force_from}, `
    + `checked on ${limit.checked_on}, decided by ${limit.decided_by}.`;
  return [element("strong", {}, limit.text), `: ${limit.meaning}. `, element("span", { class: "basis" }, basis)];
}
