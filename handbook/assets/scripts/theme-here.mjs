/**
 * Entry of theme-here.js, which runs right before the theme's own script and fits it to where this copy is opened.
 * If either part ever stops working, pages load in full: slower, and nothing else changes.
 */

import { letSearchWait } from "./search-can-wait.mjs";
import { meetRequests } from "./theme-requests.mjs";

const BUILT_FOR = "https://handbook.invalid/";
const script = /** @type {HTMLScriptElement} */ (document.currentScript);
const root = new URL("../../", script.src).href;

/**
 * From disk a page cannot be fetched, so links must load in full. With its instant navigation switched on the theme
 * would end its stream of documents there before the first, and with it everything that waits for one.
 */
function withoutInstantNavigation() {
  const place = document.getElementById("__config");
  if (!place) return;
  const config = JSON.parse(place.textContent);
  config.features = config.features.filter((/** @type {string} */ name) => !name.startsWith("navigation.instant"));
  place.textContent = JSON.stringify(config);
}

/**
 * The theme opens a link without a full load only when sitemap.xml lists it, and a sitemap must hold whole addresses.
 * A handbook is served from any address, so the build writes one that does not exist; as the theme reads the file, it
 * is replaced by the address of this copy.
 */
function withSitemapOfThisAddress() {
  const response = Object.getOwnPropertyDescriptor(XMLHttpRequest.prototype, "response");
  meetRequests((request, address) => {
    if (address !== `${root}sitemap.xml`) return;
    Object.defineProperty(request, "response", {
      get: () => {
        const given = response?.get?.call(request);
        return given instanceof Blob ? withThisAddress(given) : given;
      },
    });
  });
}

/**
 * The theme asks for a Blob and calls its text().
 * @param {Blob} given
 */
function withThisAddress(given) {
  return { text: async () => (await given.text()).replaceAll(BUILT_FOR, root) };
}

if (location.protocol === "file:") withoutInstantNavigation();
else withSitemapOfThisAddress();
letSearchWait(root);
