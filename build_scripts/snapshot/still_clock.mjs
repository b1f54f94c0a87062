/**
 * Import this first: from here on the clock ticks by the call and every random number is known before, so that the
 * same inputs give the same bytes. Only for programs that make files; nothing random that they hold is ever used.
 */

import crypto from "node:crypto";

process.env.TZ = "UTC";

let moment = Date.UTC(2026, 0, 1);
const WorldsDate = Date;
globalThis.Date = class extends WorldsDate {
  constructor(...given) {
    if (given.length) super(...given);
    else super((moment += 1));
  }

  static now() {
    return (moment += 1);
  }
};

let elapsed = 0;
performance.now = () => (elapsed += 0.01);
process.hrtime = Object.assign(() => [1, 0], { bigint: () => 1n });

Math.random = () => 0.5;
crypto.randomFillSync = fill;
crypto.webcrypto.getRandomValues = fill;
globalThis.crypto.getRandomValues = fill;

function fill(view) {
  const bytes = new Uint8Array(view.buffer, view.byteOffset, view.byteLength);
  bytes.forEach((_, position) => (bytes[position] = (position * 37 + 11) & 255));
  return view;
}
