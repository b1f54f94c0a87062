/**
 * A calculator in the page: what is typed goes to Python as it is typed, and what comes back is shown.
 *
 * Two promises hold at every moment. Nothing typed is lost: it is kept on the device at each keystroke. Nothing stale
 * is shown: when entries change, the numbers of the old ones go before anything else is said.
 */

import { dayForLimits } from "./device-date.mjs";
import { element, part, showWords } from "./elements.mjs";
import { FormFields } from "./form-fields.mjs";
import { KeptEntries } from "./kept-entries.mjs";
import { drawOutcome } from "./outcome.mjs";
import { isRefusal } from "./protocol.mjs";
import { pythonWords } from "./python-words.mjs";

/** @import { Answer, Outcome, Problem, Typed } from "./protocol.mjs" */
/** @import { PythonClient } from "./python-client.mjs" */

/** An entry that is still being typed is not complained about until the fingers rest this long, in milliseconds. */
const TYPING_PAUSE = 700;
/** A result of older entries may stand this long while the new one is worked out, so that the page does not flicker. */
const LONGEST_OVERLAP = 150;

export class Calculator {
  /** @type {Answer | null} The answer to what the form holds now. */
  #answer = null;
  /** Why there is none and will be none, in words; empty when there is nothing to say. */
  #brokenDown = "";
  /** @type {Set<string>} Fields that somebody has typed into. */
  #touched = new Set();
  /** The field that is being typed into right now. */
  #typing = "";
  /** @type {Record<string, Typed> | null} What was in the form before it was cleared. */
  #cleared = null;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #pause;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #overlap;
  #ending = new AbortController();

  /**
   * @param {HTMLElement} section
   * @param {PythonClient} python
   * @param {boolean} fromDisk
   */
  constructor(section, python, fromDisk) {
    this.section = section;
    this.python = python;
    this.fromDisk = fromDisk;
    this.slug = section.dataset.calculator ?? "";
    this.kept = new KeptEntries(this.slug);
    this.fields = new FormFields(/** @type {HTMLFormElement} */ (section.querySelector("form")));
    this.outcome = part(section, "outcome");
    /** The whole of a decision map as a list, for when there is no Python to walk it. */
    this.map = section.querySelector("[data-part=map]");
    this.undo = /** @type {HTMLElement} */ (section.querySelector("[data-action=undo]"));
  }

  /**
   * @returns {() => void} Lets go of the page.
   */
  start() {
    this.map?.removeAttribute("open");
    this.#restore();
    this.#listen();
    const unsubscribe = this.python.subscribe(() => this.#show());
    this.python.start();
    void this.#ask();
    return () => {
      unsubscribe();
      this.python.forget(this);
      this.#ending.abort();
    };
  }

  #listen() {
    const { form } = this.fields;
    const { signal } = this.#ending;
    form.addEventListener("input", (event) => this.#edited(event), { signal });
    form.addEventListener("focusout", () => this.#restFingers(), { signal });
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      void this.#submit();
    }, { signal });
    form.addEventListener("keydown", (event) => this.#onEnter(event), { signal });
    this.section.addEventListener("click", (event) => this.#clicked(event), { signal });
    // Behind the back button a page stands still: its answer may be of another day, its Python gone.
    window.addEventListener("pageshow", ({ persisted }) => persisted && void this.#ask(), { signal });
  }

  /** @param {Event} event */
  #edited(event) {
    const name = this.fields.nameOf(event.target);
    this.#touched.add(name);
    this.#typing = event.target instanceof HTMLInputElement ? name : "";
    this.undo.hidden = true;
    clearTimeout(this.#pause);
    this.#pause = setTimeout(() => this.#restFingers(), TYPING_PAUSE);
    this.#changed();
  }

  /** The entries are other ones now: ask about them, and keep them while Python works. */
  #changed() {
    void this.#ask();
    this.kept.keep(this.fields.collect());
    this.fields.showMeters();
    showWords(part(this.section, "kept"), this.kept.keeping ? "" :
      "This browser lets no page keep anything, so these entries are gone when the page is closed. Print it, or write them down.");
  }

  #restFingers() {
    clearTimeout(this.#pause);
    if (this.#typing) {
      this.#typing = "";
      this.#show();
    }
  }

  async #ask() {
    this.#answer = null;
    this.#brokenDown = "";
    clearTimeout(this.#overlap);
    if (this.python.state.name !== "ready") this.#clearOutcome();
    this.#overlap = setTimeout(() => this.#clearOutcome(), LONGEST_OVERLAP);
    this.section.setAttribute("aria-busy", "true");
    try {
      const request = { calculator: this.slug, date: dayForLimits(), inputs: this.fields.collect() };
      const answer = await this.python.ask(this, request);
      if (!answer) return;
      this.#answer = answer;
    } catch (why) {
      this.#brokenDown = why instanceof Error ? why.message : String(why);
      this.#clearOutcome();
    }
    clearTimeout(this.#overlap);
    this.section.removeAttribute("aria-busy");
    this.#show();
  }

  async #submit() {
    for (const name of this.fields.places.keys()) this.#touched.add(name);
    this.#typing = "";
    await this.#ask();
    const problems = part(this.section, "problems");
    if (!problems.hidden) problems.focus();
    else if (this.outcome.firstChild) this.outcome.scrollIntoView({ block: "start" });
  }

  /**
   * Enter goes on to what is still missing; when nothing is, it shows the result.
   * @param {KeyboardEvent} event
   */
  #onEnter(event) {
    if (event.key !== "Enter" || !(event.target instanceof HTMLInputElement)) return;
    this.#restFingers();
    if (!this.fields.isEmpty(event.target.name) && this.fields.goToFirstMissing()) event.preventDefault();
  }

  /** @param {MouseEvent} event */
  #clicked(event) {
    const target = event.target instanceof Element ? event.target.closest("a[href^='#'], [data-action]") : null;
    if (target instanceof HTMLAnchorElement && this.fields.goTo(target.hash)) {
      event.preventDefault();
      event.stopPropagation(); // The theme would take it for a link to open.
    } else if (target instanceof HTMLElement && target.dataset.action === "clear") {
      this.#clear();
    } else if (target instanceof HTMLElement && target.dataset.action === "undo") {
      this.#bringBack();
    } else if (target instanceof HTMLElement && target.dataset.action === "start-python") {
      this.python.start();
    }
  }

  #clear() {
    this.#cleared = this.fields.collect();
    this.#touched.clear();
    this.fields.reset();
    this.fields.showAsked(this.fields.askedFirst);
    this.kept.forget();
    showWords(part(this.section, "kept"), "");
    this.undo.hidden = false;
    this.#clearOutcome();
    void this.#ask();
  }

  #bringBack() {
    if (!this.#cleared) return;
    this.undo.hidden = true;
    this.#fill(this.#cleared);
    this.#changed();
  }

  #restore() {
    const kept = this.kept.restore();
    const beginning = this.kept.takeBeginning();
    if (beginning && !beginsWith(kept?.fields, beginning)) return this.#beginAnew(beginning, kept?.fields);
    if (!kept) return;
    const homeless = this.#fill(kept.fields);
    this.fields.openFilled();
    const lost = homeless.filter((name) => kept.fields[name].text !== "");
    const gone = lost.map((name) => ` “${kept.fields[name].text}” (${name}) has no field here any more.`).join("");
    showWords(part(this.section, "kept"),
      `Entries kept on this device from ${inLocalTime(kept.saved)} are back. Clear them before another machine.${gone}`);
  }

  /**
   * Begin with the entries that a link has named. Those of an earlier visit are put away, and can be brought back.
   * @param {Record<string, Typed>} beginning
   * @param {Record<string, Typed> | undefined} earlier
   */
  #beginAnew(beginning, earlier) {
    this.#fill(beginning);
    this.kept.keep(this.fields.collect());
    if (!earlier) return;
    this.#cleared = earlier;
    this.undo.hidden = false;
    showWords(part(this.section, "kept"), "This begins anew. The entries of your last visit can be brought back below.");
  }

  /** @param {Record<string, Typed>} entries */
  #fill(entries) {
    const homeless = this.fields.put(entries);
    for (const name of this.fields.places.keys()) {
      if (!this.fields.isEmpty(name)) this.#touched.add(name);
    }
    return homeless;
  }

  /** Bring everything outside the fields in line with the answer, the entries and Python's state. */
  #show() {
    const answer = this.#answer;
    const problems = answer && isRefusal(answer) ? answer.problems : [];
    const told = problems.filter((problem) => !this.#isQuiet(problem));
    if (answer) {
      this.fields.showProblems(told);
      this.#showSummary(told);
      if (isRefusal(answer)) this.#clearOutcome();
      else this.#showOutcome(answer);
    }
    this.#showState(answer, problems, told);
  }

  /**
   * A problem that the reader need not hear yet: the entry is still being typed, or nobody has come to the field.
   * @param {Problem} problem
   */
  #isQuiet({ input }) {
    if (!this.fields.places.has(input)) return false;
    return input === this.#typing || (!this.#touched.has(input) && this.fields.isEmpty(input));
  }

  /** @param {Outcome} outcome */
  #showOutcome(outcome) {
    const asked = this.fields.showAsked(outcome.asks);
    if (asked && this.#touched.size) this.fields.bringIntoView(asked);
    drawOutcome(this.outcome, outcome, {
      slug: this.slug,
      labelOf: (name) => this.fields.labelOf(name),
      procedures: this.python.procedures,
    });
  }

  #clearOutcome() {
    this.outcome.replaceChildren();
  }

  /** @param {Problem[]} told */
  #showSummary(told) {
    const place = part(this.section, "problems");
    place.hidden = told.length === 0;
    if (place.dataset.told === JSON.stringify(told)) return;
    place.dataset.told = JSON.stringify(told);
    place.replaceChildren(
      element("p", { class: "problem-summary-title" }, mendWords(told.length)),
      element("ul", {}, ...told.map(({ input, message }) => element("li", {}, this.fields.linkTo(input, message)))));
  }

  /**
   * @param {Answer | null} answer
   * @param {Problem[]} problems
   * @param {Problem[]} told
   */
  #showState(answer, problems, told) {
    const { state } = this.python;
    if (this.#brokenDown) {
      this.#say("broken", `The arithmetic stopped on these entries (${this.#brokenDown}), so nothing is shown. `
        + "Your entries stay. Change one, or work it out by hand as the worked example does.");
    } else if (!answer && state.name !== "ready") {
      this.#say(state.name, pythonWords(state, this.fromDisk));
    } else if (!answer) {
      this.#say("working", "Working it out …");
    } else if (told.length) {
      this.#say("problems", `${mendWords(told.length)}. Nothing is computed until then.`);
    } else if (problems.length) {
      const labels = problems.map(({ input }) => this.fields.labelOf(input));
      this.#say("waiting", `Still to enter: ${labels.join("; ")}.`);
    } else if (!isRefusal(answer)) {
      this.#say("answered", `Worked out on ${answer.date} with handbook revision ${answer.revision}.`);
    }
  }

  /**
   * @param {string} state For styles and tests.
   * @param {string} words
   */
  #say(state, words) {
    const place = part(this.section, "state");
    const line = /** @type {HTMLElement} */ (place.querySelector("p"));
    if (line.textContent !== words) line.textContent = words;
    if (place.dataset.state === state) return;
    place.dataset.state = state;
    place.querySelector("button")?.remove();
    if (state === "failed") {
      this.map?.setAttribute("open", "");
      place.append(element("button", { type: "button", class: "action", "data-action": "start-python" }, "Try again"));
    }
  }
}

/**
 * @param {Record<string, Typed> | undefined} entries
 * @param {Record<string, Typed>} beginning
 */
function beginsWith(entries, beginning) {
  return Object.entries(beginning).every(([name, { text }]) => entries?.[name]?.text === text);
}

/** @param {number} count */
function mendWords(count) {
  return count === 1 ? "One entry must be mended" : `${count} entries must be mended`;
}

/** @param {string} moment */
function inLocalTime(moment) {
  const when = new Date(moment);
  return Number.isNaN(when.getTime()) ? "an earlier visit" : when.toLocaleString([], { dateStyle: "medium", timeStyle: "short" });
}
