/**
 * Files that are packed in themselves. They travel as gzip; the service worker unpacks them once, when it saves them,
 * because at every start of Python that would take a fifth of the time. Either way nothing is answered with them before
 * a checksum was looked at: gzip brings its own, and an unpacked file comes with the one that its release lists.
 */

import { unpacked } from "./gunzip.mjs";

/** The header of a file that is handed out unpacked: its SHA-256 as integrity() writes it. */
const UNPACKED = "threepin-unpacked";
const ANY_TYPE = "application/octet-stream";
const WASM = "application/wasm";

/**
 * @template Content
 * @typedef {object} Opened
 * @property {Promise<Content>} content May be worked with before it is known whether it is sound.
 * @property {Promise<void>} sound Fails when it is not what its release lists.
 */

/**
 * @param {BufferSource} bytes
 * @returns {Promise<string>} Their SHA-256, as pages name it.
 */
export async function integrity(bytes) {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return `sha256-${btoa(String.fromCharCode(...digest))}`;
}

/**
 * @param {Response} packed
 * @param {string} listed The checksum that the release lists of what is in it.
 * @param {string} type Of what is in it.
 */
export function toBeKept(packed, listed, type = ANY_TYPE) {
  return new Response(unpacked(packed.body), { headers: { "content-type": type, [UNPACKED]: listed } });
}

/**
 * @param {Promise<Response>} coming
 * @returns {Opened<Uint8Array<ArrayBuffer>>}
 */
export function openBytes(coming) {
  const content = coming.then(async (response) =>
    new Uint8Array(await (isUnpacked(response) ? response : new Response(unpacked(response.body))).arrayBuffer()));
  return { content, sound: Promise.all([coming, content]).then(([response, bytes]) => insistOn(response, bytes)) };
}

/**
 * Compiled while it comes, whether or not the host packs files or knows the type of wasm.
 * @param {Promise<Response>} coming
 * @returns {Opened<WebAssembly.Module>}
 */
export function openModule(coming) {
  const copy = coming.then((response) => isUnpacked(response) ? response.clone() : response);
  const content = WebAssembly.compileStreaming(coming.then((response) => isUnpacked(response)
    ? response
    : new Response(unpacked(response.body), { headers: { "content-type": WASM } })));
  const sound = copy.then(async (response) => {
    if (isUnpacked(response)) await insistOn(response, await response.arrayBuffer());
  });
  return { content, sound };
}

/** @param {Response} response */
function isUnpacked(response) {
  return response.headers.has(UNPACKED);
}

/**
 * @param {Response} response
 * @param {BufferSource} bytes What was in it.
 */
async function insistOn(response, bytes) {
  const listed = response.headers.get(UNPACKED);
  if (listed && (await integrity(bytes)) !== listed) throw new Error("a file of Python is damaged on this device");
}
