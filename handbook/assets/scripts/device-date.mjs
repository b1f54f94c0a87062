/**
 * The date set on the reader's device: limits are those in force where and when the reader stands.
 *
 * A device whose clock has stopped or was never set says a day long before the handbook was built. That day is
 * certainly wrong, so the day of building stands in for it, and every page says so.
 */

/** Around the world a day begins up to 26 hours apart. */
const APART = 2 * 24 * 60 * 60 * 1000;

/**
 * What a page says of the release that it is of: its revision and the day it was built.
 * @param {ParentNode} page
 */
export function stampOf(page) {
  return page.querySelector("[data-release]")?.getAttribute("data-release") ?? "";
}

/** The day whose limits are asked for. */
export function dayForLimits() {
  const built = builtOn();
  return today() < built ? built : today();
}

/** @returns {{today: string, built: string} | null} null when nothing is known to be wrong with the date. */
export function clockBehind() {
  const built = builtOn();
  return Date.parse(today()) + APART < Date.parse(built) ? { today: today(), built } : null;
}

function builtOn() {
  return stampOf(document).split(" ").pop() ?? "";
}

function today() {
  const now = new Date();
  const two = (/** @type {number} */ number) => String(number).padStart(2, "0");
  return `${String(now.getFullYear()).padStart(4, "0")}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
