/**
 * Put in front of page.js in both sites that are compared, so that every engine measures in the page and by the same words.
 * What counts is the moment when the page shows what Python has answered, on the clock of the page: zero is when the
 * browser began to open it.
 */
{
  const ANSWERED = new Set(["answered", "waiting", "problems"]);
  const state = () => document.querySelector("[data-module=calculator] [data-part=state]");
  let tellUsable, tellFailed;
  const probe = {
    usable: 0,
    starts: [],
    whenUsable: new Promise((resolve, reject) => { tellUsable = resolve; tellFailed = reject; }),
    async clickTo(address) {
      const link = [...document.querySelectorAll("a[href]")].find((one) => one.href.endsWith(address));
      if (!link) throw new Error(`no link leads to ${address}`);
      const left = state();
      const shown = new Promise((resolve) => { probe.tellShown = () => {
        const now = state();
        if (now && now !== left && ANSWERED.has(now.dataset.state)) resolve(performance.now());
      }; });
      const clicked = performance.now();
      link.click();
      return await shown - clicked;
    },
    async edit(name, texts, pause) {
      const field = document.querySelector(`form [name="${name}"]`);
      const section = field.closest("[data-module=calculator]");
      const times = [];
      for (const text of texts) {
        const begun = performance.now();
        field.value = text;
        field.dispatchEvent(new InputEvent("input", { bubbles: true }));
        await fresh(section);
        times.push(performance.now() - begun);
        await new Promise((resolve) => { setTimeout(resolve, pause); });
      }
      return times;
    },
  };
  const fresh = (section) => new Promise((resolve) => {
    if (!section.hasAttribute("aria-busy")) throw new Error("an edit has set nothing going");
    const watch = new MutationObserver(() => {
      if (section.hasAttribute("aria-busy")) return;
      watch.disconnect();
      resolve();
    });
    watch.observe(section, { attributes: true, attributeFilter: ["aria-busy"] });
  });
  new MutationObserver(() => {
    probe.tellShown?.();
    if (!probe.usable && ANSWERED.has(state()?.dataset.state)) {
      probe.usable = performance.now();
      tellUsable(probe.usable);
    }
    if (state()?.dataset.state === "failed") tellFailed(new Error(state().textContent));
  }).observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: ["data-state"] });
  const info = console.info;
  console.info = (...said) => {
    probe.starts.push(String(said[0]));
    info.apply(console, said);
  };
  window.threepinBench = probe;
}
