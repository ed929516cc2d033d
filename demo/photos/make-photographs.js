// Draws the demo's two photographs again, dot for dot: a corner of a board that does not exist, with U13 burnt and with a new
// one in a socket.
//
//   node demo/photos/make-photographs.js
import { writeFileSync } from "node:fs";
import { crc32, deflateSync } from "node:zlib";

const WIDTH = 360;
const HEIGHT = 240;

const BOARD = [26, 92, 62];
const TRACK = [60, 130, 88];
const HOLE = [196, 160, 92];
const PLASTIC = [34, 34, 38];
const LEG = [206, 208, 212];
const PRINT = [232, 232, 224];
const SOCKET = [92, 66, 48];
const SCORCH = [74, 48, 26];

/** Where the chip lies: left, top, right, bottom. */
const CHIP = [110, 90, 270, 150];

/** @param {boolean} isNew whether the chip was replaced */
function colourAt(x, y, isNew) {
  const [left, top, right, bottom] = CHIP;
  const isChip = x >= left && x <= right && y >= top && y <= bottom;
  const isRim = !isChip && x >= left - 8 && x <= right + 8 && y >= top - 14 && y <= bottom + 14;
  const isLeg =
    x > left &&
    x < right &&
    (x - left) % 23 > 7 &&
    (x - left) % 23 < 15 &&
    (y < top ? top - y : y - bottom) < 12;
  if (isChip) {
    const isNotch = x < left + 10 && Math.abs(y - (top + bottom) / 2) < 8;
    if (isNotch) return BOARD;
    // The hole that a chip makes when it goes, off its middle.
    const away = Math.hypot(x - 196, y - 114);
    if (!isNew && away < 9) return [12, 10, 8];
    if (!isNew && away < 15) return SCORCH;
    if (isNew && y > 112 && y < 128 && x > 150 && x < 240 && (x * 7) % 11 < 6) return PRINT;
    return PLASTIC;
  }
  if (isLeg) return LEG;
  if (isRim && isNew) return SOCKET;
  if (!isNew && Math.hypot(x - 206, y - 160) < 26 + ((x * 5 + y * 3) % 7)) return SCORCH;
  if (y % 40 === 20 && x % 60 < 44) return TRACK;
  if (Math.hypot((x % 60) - 50, (y % 40) - 20) < 4) return HOLE;
  return BOARD;
}

/** A PNG of three bytes a dot. */
export function photograph(isNew) {
  const rows = Buffer.alloc(HEIGHT * (1 + WIDTH * 3));
  for (let y = 0; y < HEIGHT; y += 1)
    for (let x = 0; x < WIDTH; x += 1) rows.set(colourAt(x, y, isNew), y * (1 + WIDTH * 3) + 1 + x * 3);
  const head = Buffer.alloc(13);
  head.writeUInt32BE(WIDTH, 0);
  head.writeUInt32BE(HEIGHT, 4);
  head.set([8, 2, 0, 0, 0], 8);
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk("IHDR", head),
    chunk("IDAT", deflateSync(rows, { level: 9 })),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

function chunk(name, data) {
  const body = Buffer.concat([Buffer.from(name, "latin1"), data]);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(data.length);
  const sum = Buffer.alloc(4);
  sum.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, sum]);
}

if (import.meta.url === `file://${process.argv[1]}`) {
  for (const [name, isNew] of [
    ["before", false],
    ["after", true],
  ])
    writeFileSync(new URL(`2026-024-u13-${name}.png`, import.meta.url), photograph(isNew));
}
