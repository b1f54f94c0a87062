/** A table that is wider than its column scrolls within it; then, and only then, it can be reached and scrolled by keyboard. */

const WRAPS = ".md-typeset__scrollwrap";

/**
 * The theme puts a frame around each table once a page is there, before or after this is called.
 * @param {HTMLElement} article
 * @returns {() => void} Lets go of the page.
 */
export function mountWideTables(article) {
  if (!("ResizeObserver" in window)) return () => {};
  const sizes = new ResizeObserver((entries) => entries.forEach(({ target }) => mark(/** @type {HTMLElement} */ (target))));
  const frames = new MutationObserver(watch);
  function watch() {
    for (const wrap of article.querySelectorAll(WRAPS)) sizes.observe(wrap);
  }
  frames.observe(article, { childList: true, subtree: true });
  watch();
  return () => {
    sizes.disconnect();
    frames.disconnect();
  };
}

/** @param {HTMLElement} wrap */
function mark(wrap) {
  const scrolls = wrap.scrollWidth > wrap.clientWidth;
  if (scrolls === wrap.hasAttribute("tabindex")) return;
  if (scrolls) {
    wrap.tabIndex = 0;
    wrap.setAttribute("role", "group");
    wrap.setAttribute("aria-label", "Table that scrolls sideways");
  } else {
    for (const name of ["tabindex", "role", "aria-label"]) wrap.removeAttribute(name);
  }
}
