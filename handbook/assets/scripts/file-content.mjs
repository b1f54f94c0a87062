/** Whether a file is the one that a release lists. Its content decides, wherever it came from. */

import { integrity, toBeKept } from "./packed-files.mjs";

/**
 * @typedef {{readonly url: string, readonly revision: string | null, readonly integrity?: string,
 *   readonly kept?: string, readonly type?: string}} ListedFile
 * A file named by its content brings the whole of its SHA-256 in base64, any other the first digits of it. One that is
 * packed in itself brings that of what is in it besides, and its type.
 */

/** A file that cannot be had as the release lists it, and why: the host refused it, or it has another content. */
export class NotAsListed extends Error {
  /**
   * @param {string} url
   * @param {"changed" | "missing"} why
   */
  constructor(url, why) {
    super(`${url}: ${why}`);
    this.url = url;
    this.why = why;
  }
}

/**
 * What is kept of a file.
 * @param {Response} response With the content that the release lists.
 * @param {ListedFile} file
 */
export function toKeep(response, { kept, type }) {
  return kept ? toBeKept(response, kept, type) : response;
}

/**
 * The file as it lies on the device.
 * @param {ListedFile} file
 * @returns {ListedFile}
 */
export function asKept(file) {
  return file.kept ? { ...file, integrity: file.kept } : file;
}

/**
 * @param {Response} response It is read to its end.
 * @param {ListedFile} file
 * @returns {Promise<boolean>} false too when it cannot be read.
 */
export async function isContentOf(response, file) {
  try {
    return matches(await response.arrayBuffer(), file);
  } catch {
    return false;
  }
}

/**
 * @param {BufferSource} bytes
 * @param {ListedFile} file
 */
export async function matches(bytes, file) {
  if (file.integrity) return file.integrity === (await integrity(bytes));
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  const digits = Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return Boolean(file.revision) && digits.startsWith(/** @type {string} */ (file.revision));
}

/**
 * Refuse what is not the file that the release lists: a host may be renewed in the middle of a download, or damage
 * what it hands out, and no copy may ever hold files of two revisions.
 * @param {Response} response It can still be read afterwards.
 * @param {ListedFile} file
 */
export async function insistOn(response, file) {
  if (response.status !== 200) throw new NotAsListed(file.url, "missing");
  // Outside isContentOf, so that a download which breaks off stays a matter of the network.
  if (!(await matches(await response.clone().arrayBuffer(), file))) throw new NotAsListed(file.url, "changed");
}
