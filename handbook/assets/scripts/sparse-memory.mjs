/**
 * The file of a memory snapshot, written when the site is built and read in the page: this one module does both.
 *
 * Most of Python's memory is either zero or as the wasm file itself lays it. The file holds the words that are neither,
 * in runs, behind a text that says what belongs to them. All numbers are little-endian, as wasm memory is.
 *
 *   32-bit words: mark, bytes of the text, number of runs, number of words in all runs
 *   the text: JSON, filled up with spaces to whole words
 *   two words a run: how many words lie before it since the last one, how many it has
 *   the words of all runs
 */

/**
 * @typedef {object} SnapshotText
 * @property {any} state What Pyodide keeps beside the memory.
 * @property {string} buildId The build of Pyodide that it belongs to.
 * @property {number} memoryBytes How far the memory reaches that is in use.
 * @property {number} pristineBytes How far the part reaches that the wasm file lays.
 *
 * @typedef {object} SparseMemory
 * @property {SnapshotText} text
 * @property {Uint32Array} runs
 * @property {Uint32Array} words
 */

const MARK = 0x33504954;
const HEAD_WORDS = 4;
/** A run goes on over as many equal words; a new one would take more room than they do, once the file is packed. */
const WORTH_A_RUN = 4;

/**
 * @param {Uint32Array} memory
 * @param {Uint32Array} pristine What the memory holds before anything has run; zero beyond its end.
 * @param {SnapshotText} text
 * @returns {Uint8Array<ArrayBuffer>}
 */
export function packMemory(memory, pristine, text) {
  const runs = findRuns(memory, pristine);
  const wordCount = runs.reduce((sum, { start, end }) => sum + end - start, 0);
  const json = JSON.stringify(text);
  const encoded = new TextEncoder().encode(json);
  const padded = new TextEncoder().encode(json + " ".repeat((4 - encoded.length % 4) % 4));
  const packed = new Uint32Array(HEAD_WORDS + padded.length / 4 + 2 * runs.length + wordCount);
  packed.set([MARK, padded.length, runs.length, wordCount]);
  new Uint8Array(packed.buffer).set(padded, HEAD_WORDS * 4);
  let position = HEAD_WORDS + padded.length / 4;
  let before = 0;
  for (const { start, end } of runs) {
    packed.set([start - before, end - start], position);
    position += 2;
    before = end;
  }
  for (const { start, end } of runs) {
    packed.set(memory.subarray(start, end), position);
    position += end - start;
  }
  return new Uint8Array(packed.buffer);
}

/**
 * @param {Uint8Array<ArrayBuffer>} packed
 * @returns {SparseMemory} Views of the same bytes.
 */
export function readMemory(packed) {
  const [mark, textBytes, runCount, wordCount] = new Uint32Array(packed.buffer, packed.byteOffset, HEAD_WORDS);
  const runsAt = packed.byteOffset + HEAD_WORDS * 4 + textBytes;
  if (mark !== MARK) throw new Error("the snapshot is not one of this handbook");
  if (packed.byteLength !== HEAD_WORDS * 4 + textBytes + 4 * (2 * runCount + wordCount)) {
    throw new Error("the snapshot is not whole");
  }
  return {
    text: JSON.parse(new TextDecoder().decode(packed.subarray(HEAD_WORDS * 4, HEAD_WORDS * 4 + textBytes))),
    runs: new Uint32Array(packed.buffer, runsAt, 2 * runCount),
    words: new Uint32Array(packed.buffer, runsAt + 8 * runCount, wordCount),
  };
}

/**
 * Lay the runs over memory that is pristine again.
 * @param {SparseMemory} sparse
 * @param {Uint32Array} memory
 */
export function layMemory({ runs, words }, memory) {
  let place = 0;
  let taken = 0;
  for (let run = 0; run < runs.length; run += 2) {
    place += runs[run];
    const length = runs[run + 1];
    memory.set(words.subarray(taken, taken + length), place);
    place += length;
    taken += length;
  }
}

/**
 * @param {Uint32Array} memory
 * @param {Uint32Array} pristine
 */
function findRuns(memory, pristine) {
  /** @type {{start: number, end: number}[]} */
  const runs = [];
  for (let place = 0; place < memory.length; place += 1) {
    if (memory[place] === (pristine[place] ?? 0)) continue;
    const last = runs.at(-1);
    if (last && place - last.end <= WORTH_A_RUN) last.end = place + 1;
    else runs.push({ start: place, end: place + 1 });
  }
  return runs;
}
