// Byte sums, as printed on labels and by programmers: the low bits of the sum of all bytes. Common practice, no source.
// They are blind to swapped bytes and to errors that cancel.

/** Sum of the bytes, its low 8 bits. */
export const sum8 = (bytes: Uint8Array): number => total(bytes) % 0x100;

/** Sum of the bytes, its low 16 bits. */
export const sum16 = (bytes: Uint8Array): number => total(bytes) % 0x1_0000;

/** Exact for images up to 2^45 bytes. */
function total(bytes: Uint8Array): number {
  let sum = 0;
  for (const byte of bytes) sum += byte;
  return sum;
}
