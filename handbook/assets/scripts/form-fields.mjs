/** The fields of a calculator's form as the page knows them: what they hold, what they are called, what is wrong with them. */

import { element, part, showWords } from "./elements.mjs";

/** @import { Problem, Typed } from "./protocol.mjs" */

/** @typedef {HTMLInputElement | HTMLSelectElement} Control */

export class FormFields {
  /** @type {Map<string, Control>} */
  #controls = new Map();
  /** @type {Map<string, HTMLSelectElement>} */
  #units = new Map();
  /** @type {Set<string>} The fields that something is said to be wrong with. */
  #wrong = new Set();

  /** @param {HTMLFormElement} form */
  constructor(form) {
    this.form = form;
    /** @type {Map<string, HTMLElement>} */
    this.places = new Map();
    for (const place of form.querySelectorAll("[data-field]")) {
      if (place instanceof HTMLElement) this.#learn(place, place.dataset.field ?? "");
    }
  }

  /**
   * Look up once what each keystroke needs: a form of two hundred fields is read at each of them.
   * @param {HTMLElement} place
   * @param {string} name
   */
  #learn(place, name) {
    const control = place.querySelector(`[name="${CSS.escape(name)}"]`);
    const unit = place.querySelector(`select[name="${CSS.escape(name)}__unit"]`);
    this.places.set(name, place);
    if (control) this.#controls.set(name, /** @type {Control} */ (control));
    if (unit instanceof HTMLSelectElement) this.#units.set(name, unit);
  }

  /**
   * The name of the field that an element belongs to; empty for none.
   * @param {EventTarget | null} target
   */
  nameOf(target) {
    const place = target instanceof Element ? target.closest("[data-field]") : null;
    return place instanceof HTMLElement ? (place.dataset.field ?? "") : "";
  }

  /** @param {string} name */
  labelOf(name) {
    return this.places.get(name)?.dataset.label ?? name;
  }

  /** @param {string} name */
  isEmpty(name) {
    return this.#control(name)?.value.trim() === "";
  }

  /**
   * Everything the form holds, as it was typed. What is empty as it was when the page was made is left out: a field
   * that is not sent holds that already, and a walk has two hundred of them.
   * @returns {Record<string, Typed>}
   */
  collect() {
    /** @type {Record<string, Typed>} */
    const fields = {};
    for (const [name, control] of this.#controls) {
      const unit = this.#units.get(name);
      if (control.value === "" && !isChanged(control) && !(unit && isChanged(unit))) continue;
      fields[name] = { text: control.value, unit: unit?.value ?? "" };
    }
    return fields;
  }

  /**
   * Put entries back as they were typed.
   * @param {Record<string, Typed>} fields
   * @returns {string[]} The entries that have no place here, by name: their field is gone or no longer offers them.
   */
  put(fields) {
    const homeless = Object.entries(fields).filter(([name, typed]) => {
      const fits = setValue(this.#control(name), typed.text);
      return !(typed.unit ? setValue(this.#unit(name), typed.unit) && fits : fits);
    });
    this.showMeters();
    return homeless.map(([name]) => name);
  }

  /**
   * Show the fields that are asked now, in the order given; for a form that always asks all of them, nothing changes.
   * @param {string[]} names
   * @returns {string} The last of them, when it was not asked before; empty otherwise.
   */
  showAsked(names) {
    if (!names.length) return "";
    const last = names[names.length - 1];
    const isNew = this.places.get(last)?.hidden === true;
    const asked = new Set(names);
    for (const [name, place] of this.places) {
      if (place.hidden === asked.has(name)) place.hidden = !place.hidden;
    }
    names.reduce((before, name) => {
      const place = this.places.get(name);
      // A field that stands in its place is left alone: one that is moved loses the focus.
      if (before && place && before.nextElementSibling !== place) before.after(place);
      return place ?? before;
    }, /** @type {HTMLElement | null} */ (null));
    return isNew ? last : "";
  }

  /** @param {string} name */
  bringIntoView(name) {
    this.places.get(name)?.scrollIntoView({ block: "nearest" });
  }

  /** @returns {string[]} What the form asked when the page was made; none when it asks all of its fields. */
  get askedFirst() {
    return this.form.dataset.asks?.split(" ") ?? [];
  }

  /** Whether it holds anything else than when the page was made. */
  get isFilled() {
    const controls = /** @type {NodeListOf<Control>} */ (this.form.querySelectorAll("input[name], select[name]"));
    return [...controls].some(isChanged);
  }

  /** Put every field back to what it held when the page was made. */
  reset() {
    // A field may be called “reset”, and then it is what `form.reset` means.
    HTMLFormElement.prototype.reset.call(this.form);
    this.showMeters();
  }

  /** Open every folded group that holds something typed: what came back from an earlier visit is never out of sight. */
  openFilled() {
    for (const group of this.form.querySelectorAll("details.more-entries")) {
      const controls = /** @type {NodeListOf<Control>} */ (group.querySelectorAll("input, select[id]"));
      if ([...controls].some(isChanged)) group.setAttribute("open", "");
    }
  }

  /** Say every meter's accuracy in its one line, from its three fields. */
  showMeters() {
    for (const meter of this.form.querySelectorAll("details[data-meter]")) {
      const name = /** @type {HTMLElement} */ (meter).dataset.meter;
      const unit = this.#unit(`${name}_resolution`)?.selectedOptions[0]?.textContent
        ?? this.places.get(`${name}_resolution`)?.querySelector(".entry-unit")?.textContent ?? "";
      /** @type {(field: string) => string} */
      const value = (field) => this.#control(`${name}_${field}`)?.value.trim() || "?";
      const words = `±(${value("percent")} % + ${value("counts")} counts), resolution ${value("resolution")} ${unit}`;
      showWords(part(meter, "meter-words"), words.trimEnd());
    }
  }

  /**
   * Say at each field what is wrong with it, and nothing at the others.
   * @param {Problem[]} problems
   */
  showProblems(problems) {
    const wrong = new Set(problems.map(({ input }) => input).filter((name) => this.places.has(name)));
    for (const name of new Set([...this.#wrong, ...wrong])) {
      const place = /** @type {HTMLElement} */ (this.places.get(name));
      const sentences = problems.filter((problem) => problem.input === name).map((problem) => problem.message);
      const line = place.querySelector(".field-problem");
      if (line instanceof HTMLElement) showWords(line, sentences.join(" "));
      if (sentences.length) this.#control(name)?.setAttribute("aria-invalid", "true");
      else this.#control(name)?.removeAttribute("aria-invalid");
      if (sentences.length) openAround(place);
    }
    this.#wrong = wrong;
  }

  /**
   * A link that goes to a field.
   * @param {string} name
   * @param {string} words
   */
  linkTo(name, words) {
    const control = this.#control(name);
    return control ? element("a", { href: `#${control.id}` }, words) : words;
  }

  /**
   * Go to a field by the address of a link to it.
   * @param {string} hash
   * @returns {boolean} Whether there is such a field here.
   */
  goTo(hash) {
    const control = this.form.querySelector(`#${CSS.escape(hash.replace(/^#/, ""))}`);
    if (!(control instanceof HTMLElement)) return false;
    openAround(control);
    control.scrollIntoView({ block: "center" });
    control.focus({ preventScroll: true });
    return true;
  }

  /**
   * Go to the first field that must be filled and is not.
   * @returns {boolean} Whether there was one.
   */
  goToFirstMissing() {
    for (const name of this.places.keys()) {
      const control = this.#control(name);
      if (control?.getAttribute("aria-required") && this.isEmpty(name)) return this.goTo(control.id);
    }
    return false;
  }

  /** @param {string} name */
  #control(name) {
    return this.#controls.get(name) ?? null;
  }

  /** @param {string} name */
  #unit(name) {
    return this.#units.get(name) ?? null;
  }
}

/**
 * @param {Control | null} control
 * @param {string} text
 * @returns {boolean} Whether the control now holds the text.
 */
function setValue(control, text) {
  if (!control) return false;
  const before = control.value;
  control.value = text;
  if (control.value === text) return true;
  control.value = before;
  return false;
}

/**
 * @param {Control} control
 * @returns {boolean} Whether it holds something else than when the page was made.
 */
function isChanged(control) {
  if (control instanceof HTMLSelectElement) return !control.selectedOptions[0]?.defaultSelected;
  return control.value !== control.defaultValue;
}

/** @param {Element} place */
function openAround(place) {
  for (let folded = place.closest("details"); folded; folded = folded.parentElement?.closest("details") ?? null) {
    folded.open = true;
  }
}
