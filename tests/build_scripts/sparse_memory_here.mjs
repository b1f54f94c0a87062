// Packs memories, reads them back and lays them. Cases come as a JSON list on the input, outcomes go to the output:
//   {"held": [[place, word], ...], "laid": [[place, word], ...], "length": words of memory}
import { readFileSync } from "node:fs";

import { layMemory, packMemory, readMemory } from "../../handbook/assets/scripts/sparse-memory.mjs";

function outcome({ held, laid, length }) {
  const pristine = filled(laid, length);
  const memory = pristine.slice();
  for (const [place, word] of held) memory[place] = word;
  const text = { state: { "Ω": [null] }, buildId: "b", memoryBytes: memory.byteLength, pristineBytes: 4 };
  const packed = packMemory(memory, pristine, text);
  const read = readMemory(packed);
  const restored = pristine.slice();
  layMemory(read, restored);
  const foreign = packed.slice();
  foreign[0] ^= 1;
  return {
    same: Buffer.from(restored.buffer).equals(Buffer.from(memory.buffer)),
    text: JSON.stringify(read.text) === JSON.stringify(text),
    bytes: packed.length,
    cutShort: refusal(packed.slice(0, -4)),
    foreign: refusal(foreign),
  };
}

function filled(pairs, length) {
  const words = new Uint32Array(length);
  for (const [place, word] of pairs) words[place] = word;
  return words;
}

function refusal(bytes) {
  try {
    readMemory(bytes);
    return "";
  } catch (why) {
    return why.message;
  }
}

console.log(JSON.stringify(JSON.parse(readFileSync(0, "utf8")).map(outcome)));
