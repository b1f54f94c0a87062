/** What is said about the copy on this device, in the words of a reader; and what page and service worker say to each other. */

/**
 * @typedef {object} ToServiceWorker Each but take-over is answered with a Report.
 * @property {"report" | "read-back" | "mend" | "save-spare" | "take-over"} verb
 * @property {string} stamp What the page says of itself: its revision and the day it was built.
 *
 * @typedef {{why: "" | "full" | "network"} | {why: "changed" | "missing", file: string}} WhyNot
 *
 * @typedef {"current" | "older" | "elsewhere"} Standing How the page that asks stands to what is saved: of the same
 *   release; of an older one, which stays on the device while the page is open; of one that is not on the device.
 *
 * @typedef {{bytes: number, missing: number}} SpareReport What stands in when something fails.
 *
 * @typedef {{revision: string, total: number, standing: Standing} & WhyNot} Common
 * @typedef {Common & {kind: "saved", bytes: number, spare: SpareReport, isDue: boolean}} SavedReport
 *   isDue: it is some time since every file was read back.
 * @typedef {Common & {kind: "incomplete", missing: number, damaged: number, computed: boolean}} IncompleteReport
 *   computed: answers may have been computed with a damaged file.
 * @typedef {SavedReport | IncompleteReport} Report
 *
 * @typedef {{kind: "saving", revision: string, done: number, total: number}} Saving
 * @typedef {{kind: "not-saved", revision: string} & WhyNot} NotSaved
 * @typedef {Saving | NotSaved | {kind: "mended", url: string}} FromServiceWorker Told to every open page.
 *
 * @typedef {Report | Saving | NotSaved | {kind: "from-disk"} | {kind: "cannot"} | {kind: "refused", why: string}
 *   | {kind: "asking"} | {kind: "mending", revision: string, files: number}} Saved
 */

/** @param {Saved} saved */
export function savedWords(saved) {
  switch (saved.kind) {
    case "from-disk":
      return "Opened from disk: this folder is the whole handbook, and no network is used.";
    case "cannot":
      return "This browser cannot save the handbook from this address, so it works while the network does. "
        + "An address that begins with https, or a copy on a stick, works without.";
    case "refused":
      return "The browser lets nothing be saved on this device, as in a private window, so the handbook works while the "
        + `network does; a copy on a stick works without. In the browser's own words: ${saved.why}`;
    case "asking":
      return "Looking at what is saved on this device …";
    case "saving":
      return "Saving on this device for use without network:";
    case "not-saved":
      return `The handbook could not be saved on this device: ${whyWords(saved)} It works while the network does.`;
    case "mending":
      return `Fetching ${files(saved.files)} of revision ${saved.revision} again …`;
    case "incomplete":
      return `${incompleteWords(saved)} ${saved.why ? `They could not be fetched again: ${whyWords(saved)}` : ""}`.trim();
    case "saved":
      return `Saved on this device: ${megabytes(saved.bytes)} MB, revision ${saved.revision}. It works without network. `
        + (saved.spare.missing
          ? "What stands in if the quick start of Python should fail is not saved yet" + (saved.why ? `: ${whyWords(saved)}` : ".")
          : `${megabytes(saved.spare.bytes)} MB more stand in if the quick start of Python should fail.`);
  }
}

/**
 * The same in one short line, for the top of the start page; the rest stands at the foot.
 * @param {Saved} saved
 * @param {boolean} isNewerWaiting
 */
export function shortWords(saved, isNewerWaiting) {
  const more = isNewerWaiting ? " A newer revision waits: see the foot of this page." : "";
  switch (saved.kind) {
    case "from-disk":
      return "Opened from disk: works without network.";
    case "saving":
      return `Saving on this device: ${saved.done} of ${saved.total} files …`;
    case "saved":
      return `Saved on this device: ${megabytes(saved.bytes)} MB, revision ${saved.revision}.${more}`;
    case "asking":
      return "Looking at what is saved on this device …";
    case "mending":
      return "Not whole on this device: fetching what is missing …";
    default:
      return "Not saved on this device: it works while the network does. Why stands at the foot of this page.";
  }
}

/** @param {IncompleteReport} report */
function incompleteWords({ missing, damaged, total, revision }) {
  if (missing === total) {
    return "The browser has removed the saved copy of the handbook from this device, perhaps because room ran short.";
  }
  const lacks = [missing && `${missing} of ${total} files are missing`, damaged && `${damaged} of ${total} files are damaged`];
  return `Not whole on this device: of revision ${revision}, ${lacks.filter(Boolean).join(" and ")}.`;
}

/** @param {WhyNot} not */
export function whyWords(not) {
  switch (not.why) {
    case "full":
      return "there is no room left for it on this device. Free some room, then open this page again.";
    case "missing":
      return `this address does not hand out the file ${not.file}. Open this page again later.`;
    case "changed":
      return `the file ${not.file} did not arrive as it was published. Perhaps the handbook is being renewed at this very `
        + "moment: open this page again later.";
    default:
      return "not every file arrived. Open this page again while the network is there.";
  }
}

/**
 * A release that stands beside the one in use: on its way, there, or not to be had.
 * @param {Saving | NotSaved | {kind: "waiting"}} newer
 * @returns {string}
 */
export function newerWords(newer) {
  switch (newer.kind) {
    case "saving":
      return `A newer revision, ${newer.revision}, is being saved; this one works meanwhile:`;
    case "not-saved":
      return `A newer revision, ${newer.revision}, could not be saved: ${whyWords(newer)} This one stays as it is, whole.`;
    case "waiting":
      return "A newer revision of this handbook is saved and waits. ";
  }
}

/**
 * @param {Exclude<Standing, "current">} standing
 * @param {string} pages The revision of the page.
 * @param {string} saved The one in use.
 */
export function standingWords(standing, pages, saved) {
  return `This page is of revision ${pages}, and on this device ${saved} is in use by now. ` + (standing === "older"
    ? "It stays as it is, and links in it lead to pages of its own revision, until it is loaded anew. "
    : "Load it anew before you go on. ");
}

/** @param {boolean} isLasting Whether the browser has promised it. */
export function lastingWords(isLasting) {
  return isLasting
    ? "The browser keeps it until you remove it."
    : "When room runs short the browser may remove it, and this line then says so.";
}

/**
 * @param {number} count
 * @param {boolean} computed Whether a number may have been computed with them before they were found.
 */
export function mendedWords(count, computed) {
  return `${count === 1 ? "1 file was" : `${count} files were`} gone or damaged on this device and fetched again.`
    + (computed ? " Load this page anew before you rely on a number that it has shown." : "");
}

/** @param {boolean} isKept */
export function readingsWords(isKept) {
  return isKept
    ? "There are entries on this page. They are kept on this device, and are back when it has loaded anew."
    : "There are entries on this page, and this browser keeps nothing: they will be gone. Write them down first.";
}

/**
 * Stands in for a file that is damaged or gone and cannot be fetched again.
 * @param {string} revision
 */
export function damagedPage(revision) {
  return `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1">
<title>Damaged on this device</title>
<style>:root{color-scheme:light dark}body{margin:0 auto;max-width:34rem;padding:3rem 1rem;font:1.1rem/1.5 system-ui,sans-serif}</style>
<h1>This page is damaged on this device</h1>
<p>Its copy here (revision ${revision.replaceAll("&", "&amp;").replaceAll("<", "&lt;")}) is not what was published, so it is not shown, and it could not be fetched again.</p>
<p>Go back: other pages may be whole. Load this page again when the network is there.</p></html>`;
}

/** @param {number} count */
function files(count) {
  return count === 1 ? "1 file" : `${count} files`;
}

/** @param {number} bytes */
function megabytes(bytes) {
  return (bytes / 1_000_000).toFixed(1);
}
