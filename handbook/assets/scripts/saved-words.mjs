/** What is said about the copy on this device, in the words of a reader. */

/**
 * @typedef {{bytes: number, missing: number}} SpareReport What stands in when something fails.
 *
 * @typedef {{kind: "saving", done: number, total: number}
 *   | {kind: "saved", revision: string, total: number, bytes: number, spare: SpareReport}
 *   | {kind: "incomplete", revision: string, missing: number, total: number}} SavedReport From the service worker.
 *
 * @typedef {SavedReport | {kind: "from-disk"} | {kind: "cannot"} | {kind: "refused", why: string} | {kind: "asking"}} Saved
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
      return `The handbook could not be saved on this device: ${saved.why}. It works while the network does.`;
    case "asking":
      return "Looking at what is saved on this device …";
    case "saving":
      return `Saving on this device for use without network: ${saved.done} of ${saved.total} files.`;
    case "incomplete":
      return `Not completely saved on this device: ${saved.missing} of ${saved.total} files are missing. `
        + "Open this page once more while the network is there.";
    case "saved":
      return `Saved on this device: ${megabytes(saved.bytes)} MB, revision ${saved.revision}. It works without network. `
        + (saved.spare.missing
          ? "What stands in if the quick start of Python should fail is not saved yet."
          : `${megabytes(saved.spare.bytes)} MB more stand in if the quick start of Python should fail.`);
  }
}

/** @param {number} bytes */
function megabytes(bytes) {
  return (bytes / 1_000_000).toFixed(1);
}
