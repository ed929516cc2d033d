// A log's ROM check tables as what was read at each position.

import { defined } from "../../base/defined";
import { memo } from "../../base/memo";
import { plainHex } from "../../compute/memory/hex";
import type { ImageChecks } from "../../compute/memory/image";
import {
  checksForSet,
  type ImageFile,
  type Images,
  imagePath,
  imageReport,
} from "../../compute/memory/image-file";
import type { ImageReport } from "../../compute/memory/match-image";
import type { Board, RomImage } from "../../knowledge/types";
import type { LogBlock, LogTable, Reading } from "../../log/model";

export type Figure = "sum16" | "crc32" | "sha1" | "shown";
const DIGITS: Readonly<Record<Figure, number>> = { sum16: 4, crc32: 8, sha1: 40, shown: 4 };

/** A program memory as one row of the log identifies it. */
export interface RomRow {
  /** The designator as the board file writes it, as typed where the board has no such part. */
  readonly ref: string;
  /** As typed. */
  readonly checks: ImageChecks;
  /** What the position is known by: the image's checks where it was read, else those typed. */
  readonly known: ImageChecks;
  readonly image?: RowImage;
  /** Sums of two digits: the low byte of the 16-bit sum is all there is to compare. */
  readonly sum8?: string;
  /** The sum the machine showed, two or four digits. */
  readonly shown?: string;
  /** Figures with their places, by what they are. Spans are of the block. */
  readonly at: ReadonlyMap<Figure | "size" | "image", Reading>;
  /** Figures that are none: not hexadecimal, or too long. */
  readonly bad: readonly { readonly reading: Reading; readonly digits: number }[];
}

/** An image that a row names and that was read. */
export interface RowImage {
  readonly path: string;
  readonly bytes: Uint8Array;
  readonly report: ImageReport;
}

/** The board's designators by their capitals; of two that differ in case only, the first. */
const refsOf = memo(
  (board: Board): ReadonlyMap<string, string> =>
    new Map([...board.parts.keys()].reverse().map((ref) => [ref.toUpperCase(), ref])),
);

/** One entry a row that holds at least one figure or names an image. */
export function romRows(table: LogTable, board: Board | undefined, images?: Images): readonly RomRow[] {
  const byRow = new Map<number, Reading[]>();
  for (const reading of table.readings) {
    if (reading.value.kind !== "empty") byRow.set(reading.row, [...(byRow.get(reading.row) ?? []), reading]);
  }
  return [...byRow.values()].flatMap((readings): RomRow[] => {
    const typed = readings[0]?.subject.ref?.text;
    if (typed === undefined) return [];
    const ref = (board && refsOf(board).get(typed.toUpperCase())) ?? typed;
    const at = new Map<Figure | "size" | "image", Reading>();
    const bad: RomRow["bad"][number][] = [];
    const hex: { [figure in Figure]?: string } = {};
    let size: number | undefined;
    let image: RowImage | undefined;
    for (const reading of readings) {
      const { measure } = reading;
      if (measure === "size") {
        size = bytesOf(reading.value.typed);
        if (size !== undefined) at.set("size", reading);
      } else if (measure === "image") {
        at.set("image", reading);
        image = rowImage(reading, board, ref, images);
      } else if (isFigure(measure)) {
        const digits = hexOf(reading.value.typed);
        if (digits === undefined || digits.length > DIGITS[measure])
          bad.push({ reading, digits: DIGITS[measure] });
        else {
          hex[measure] = digits;
          at.set(measure, reading);
        }
      }
    }
    const short = hex.sum16 !== undefined && hex.sum16.length <= 2;
    const checks: ImageChecks = defined({
      size,
      sum16: hex.sum16 === undefined || short ? undefined : plainHex(hex.sum16, 4),
      crc32: hex.crc32 === undefined ? undefined : plainHex(hex.crc32, 8),
      sha1: hex.sha1 === undefined ? undefined : plainHex(hex.sha1, 40),
    });
    return [
      defined({
        ref,
        at,
        bad,
        checks,
        known: image ? checksForSet(image.bytes, image.report) : checks,
        image,
        sum8: short ? plainHex(hex.sum16!, 2) : undefined,
        shown: hex.shown === undefined ? undefined : plainHex(hex.shown, hex.shown.length <= 2 ? 2 : 4),
      }),
    ];
  });
}

function rowImage(
  { value }: Reading,
  board: Board | undefined,
  ref: string,
  images: Images | undefined,
): RowImage | undefined {
  const path = imagePath(value.typed);
  const file = path === undefined ? undefined : images?.get(path);
  if (path === undefined || !file?.ok) return undefined;
  return { path, bytes: file.bytes, report: imageReport(file.bytes, board, ref) };
}

/** A cell that names an image, and what came of reading it; no `file` while it is being read. */
export interface ImageCell {
  readonly reading: Reading;
  readonly path: string;
  readonly file?: ImageFile;
}

/** Every cell of a table that names an image. */
export const imageCells = (table: LogTable, images?: Images): readonly ImageCell[] =>
  table.kind.holds !== "images"
    ? []
    : table.readings.flatMap((reading): ImageCell[] => {
        const path =
          reading.measure !== "image" || reading.value.kind === "empty"
            ? undefined
            : imagePath(reading.value.typed);
        if (path === undefined) return [];
        const file = images?.get(path);
        return [defined({ reading, path, file })];
      });

/** The images that a block names, each once. */
export const imagePaths = memo(({ tables }: LogBlock): readonly string[] => [
  ...new Set(tables.flatMap((table) => imageCells(table).map(({ path }) => path))),
]);

const isFigure = (measure: string): measure is Figure => measure in DIGITS;

/** The digits alone, in lower case; undefined where they are not hexadecimal. */
function hexOf(typed: string): string | undefined {
  const plain = typed.replace(/[`\s]/g, "");
  return /^(?:0x|\$|&h|#)?([0-9a-f]+)h?$/i.exec(plain)?.[1]?.toLowerCase();
}

/** "2048", "2K", "2 kB", "800h". */
function bytesOf(typed: string): number | undefined {
  const [, number, unit] = /^(\d+)\s*(k(?:i?b)?|bytes|b)?$/i.exec(typed.trim()) ?? [];
  if (number !== undefined) return Number(number) * (/^k/i.test(unit ?? "") ? 1024 : 1);
  const hex = /^(?:0x|\$)?([0-9a-f]+)h?$/i.exec(typed.trim())?.[1];
  return hex === undefined ? undefined : Number.parseInt(hex, 16);
}

/** True where a sum of two or four digits is that of the 16-bit sum given. */
export const sumAgrees = (shown: string, sum16: string): boolean =>
  plainHex(sum16, 4).endsWith(shown.toLowerCase());

/** The first position's checks of each ref, for finding the set; refs in the board's own writing. */
export function positionsOf(rows: readonly RomRow[]): ReadonlyMap<string, ImageChecks> {
  const positions = new Map<string, ImageChecks>();
  for (const { ref, known } of rows) {
    if (known.sum16 === undefined && known.crc32 === undefined && known.sha1 === undefined) continue;
    positions.set(ref, { ...positions.get(ref), ...known });
  }
  return positions;
}

/** The images of a board's sets at a position. */
export const imagesAt = (board: Board, ref: string): readonly RomImage[] =>
  [...board.romSets.values()].flatMap(({ images }) => images.filter((image) => image.ref === ref));
