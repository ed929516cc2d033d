// A small photograph, drawn here: a board in one colour with a chip in another.

import { deflateSync } from "node:zlib";

/** @param {[number, number, number]} board its colour @param {[number, number, number]} chip @returns {Buffer} a PNG */
export function picture(board, chip, width = 240, height = 150) {
  const rows = Buffer.alloc(height * (1 + width * 3));
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1) {
      const isChip = x > width * 0.3 && x < width * 0.7 && y > height * 0.4 && y < height * 0.6;
      const isLeg = x > width * 0.3 && x < width * 0.7 && x % 16 < 5 && y > height * 0.3 && y < height * 0.7;
      rows.set(isChip ? chip : isLeg ? [210, 210, 210] : board, y * (1 + width * 3) + 1 + x * 3);
    }
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 2, 0, 0, 0], 8);
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    part("IHDR", head),
    part("IDAT", deflateSync(rows)),
    part("IEND", Buffer.alloc(0)),
  ]);
}

function part(name, data) {
  const body = Buffer.concat([Buffer.from(name, "latin1"), data]);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(data.length);
  const sum = Buffer.alloc(4);
  sum.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, sum]);
}

/** The check sum of the PNG specification (W3C, annex D), bit by bit. */
function crc32(bytes) {
  let sum = 0xffffffff;
  for (const byte of bytes) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit += 1) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  }
  return (sum ^ 0xffffffff) >>> 0;
}
