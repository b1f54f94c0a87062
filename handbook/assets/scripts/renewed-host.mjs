/**
 * A page that is open while its host is renewed. Where nothing is saved on the device, the files that its Python starts
 * from may be gone, and only loading it anew helps: that is said where the answer would stand.
 */

import { element } from "./elements.mjs";

const WORDS = "This handbook was renewed at its address after this page was opened, so load this page anew to compute.";

/**
 * @param {Document} page
 * @param {URL} root The folder of the site.
 * @param {string} stamp What the page says of its release.
 * @param {boolean} isFailed Whether Python could not be started.
 */
export async function sayIfRenewed(page, root, stamp, isFailed) {
  for (const said of page.querySelectorAll("[data-part=renewed]")) said.remove();
  if (!isFailed || !(await isRenewed(root, stamp))) return;
  for (const state of page.querySelectorAll("[data-calculator] [data-part=state][data-state=failed]")) {
    if (!state.querySelector("[data-part=renewed]")) state.append(element("p", { "data-part": "renewed" }, WORDS));
  }
}

/**
 * @param {URL} root
 * @param {string} stamp
 * @returns {Promise<boolean>} false too when that cannot be found out.
 */
async function isRenewed(root, stamp) {
  try {
    const { revision, date } = await (await fetch(new URL("assets/data/build.json", root), { cache: "no-store" })).json();
    return Boolean(stamp) && `${revision} ${date}` !== stamp;
  } catch {
    return false;
  }
}
