// SHA-1 by FIPS 180-4, 5.1.1 (padding), 5.3.1 (first value) and 6.1.2 (the rounds), from memory. Written out because
// the core runs where no platform library is, and is not asked to withstand anyone: it tells images apart.

const rotate = (word: number, by: number): number => (word << by) | (word >>> (32 - by));

/** The 160-bit digest as 40 lower-case hexadecimal digits. */
export function sha1(bytes: Uint8Array): string {
  const state = new Int32Array([0x67452301, 0xefcdab89, 0x98badcfe, 0x10325476, 0xc3d2e1f0]);
  const words = new Int32Array(80);
  const message = padded(bytes);
  for (let block = 0; block < message.byteLength; block += 64) {
    for (let t = 0; t < 16; t += 1) words[t] = message.getInt32(block + 4 * t);
    for (let t = 16; t < 80; t += 1) {
      words[t] = rotate(words[t - 3]! ^ words[t - 8]! ^ words[t - 14]! ^ words[t - 16]!, 1);
    }
    let [a, b, c, d, e] = state as unknown as [number, number, number, number, number];
    for (let t = 0; t < 80; t += 1) {
      const next = (rotate(a, 5) + mixed(t, b, c, d) + e + words[t]!) | 0;
      [a, b, c, d, e] = [next, a, rotate(b, 30), c, d];
    }
    [a, b, c, d, e].forEach((word, i) => {
      state[i] = state[i]! + word;
    });
  }
  return [...state].map((word) => (word >>> 0).toString(16).padStart(8, "0")).join("");
}

/** The round's function of three words with its constant added. */
function mixed(t: number, b: number, c: number, d: number): number {
  if (t < 20) return ((b & c) | (~b & d)) + 0x5a827999;
  if (t < 40) return (b ^ c ^ d) + 0x6ed9eba1;
  if (t < 60) return ((b & c) | (b & d) | (c & d)) + 0x8f1bbcdc;
  return (b ^ c ^ d) + 0xca62c1d6;
}

/** The message, a one bit, zeros to 8 bytes short of a block, and its length in bits. */
function padded(bytes: Uint8Array): DataView {
  const padding = new Uint8Array(64 * Math.ceil((bytes.length + 9) / 64));
  padding.set(bytes);
  padding[bytes.length] = 0x80;
  const view = new DataView(padding.buffer);
  view.setUint32(padding.length - 8, Math.floor(bytes.length / 2 ** 29));
  view.setUint32(padding.length - 4, (bytes.length * 8) % 2 ** 32);
  return view;
}
