/** Unpacks gzip, with what the browser brings. */

/**
 * @param {ReadableStream<Uint8Array<ArrayBuffer>> | null} packed
 * @returns {ReadableStream<Uint8Array<ArrayBuffer>>}
 */
export function unpacked(packed) {
  if (!packed) throw new Error("a file of Python is empty");
  return packed.pipeThrough(new DecompressionStream("gzip"));
}

/**
 * Written by hand, not piped from a Blob: one engine cannot read a Blob in a worker of a page from disk.
 * @param {Uint8Array<ArrayBuffer>} packed
 * @returns {Promise<Uint8Array<ArrayBuffer>>}
 */
export async function gunzipBytes(packed) {
  const gunzip = new DecompressionStream("gzip");
  const writer = gunzip.writable.getWriter();
  const written = writer.write(packed).then(() => writer.close());
  const [bytes] = await Promise.all([new Response(gunzip.readable).arrayBuffer(), written]);
  return new Uint8Array(bytes);
}
