// Writes the demo's one program image again, byte for byte: 2,048 invented bytes that are no program of anybody's.
//
//   node demo/roms/make-image.js
import { writeFileSync } from "node:fs";

/** Bytes of a 2716. */
const SIZE = 2048;
const TITLE = "REGATTA 1978 INVENTED";

export function demoImage() {
  const bytes = new Uint8Array(SIZE).fill(0xff);
  let state = 1978;
  // The last eighth was never programmed but for the vectors, as in most chips of the time.
  for (let i = 0; i < SIZE - 256; i += 1) {
    // The constants of a common generator of random numbers (from memory); any would do.
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    bytes[i] = state >>> 24;
  }
  bytes.set(new TextEncoder().encode(TITLE), 16);
  bytes.set([0xf8, 0x20, 0xf8, 0x40, 0xf8, 0x60, 0xf8, 0x00], SIZE - 8);
  return bytes;
}

if (import.meta.url === `file://${process.argv[1]}`) {
  writeFileSync(new URL("2026-016-u2.bin", import.meta.url), demoImage());
}
