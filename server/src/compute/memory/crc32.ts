// CRC-32 as programmers and archives print it: polynomial 04C11DB7 worked bit-reversed (EDB88320), all ones to begin
// with, inverted at the end; ISO 3309 and ITU-T V.42 (from memory). Check value of "123456789": cbf43926.

const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit += 1) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  return value >>> 0;
});

/** The CRC-32 of the bytes, 0 to 2^32 - 1; 0 for none. */
export function crc32(bytes: Uint8Array): number {
  let value = 0xffffffff;
  for (const byte of bytes) value = (value >>> 8) ^ TABLE[(value ^ byte) & 0xff]!;
  return (value ^ 0xffffffff) >>> 0;
}
