// An image file a log names: what reading it gave, and what its bytes are, worked out once.

import { memo } from "../../base/memo";
import type { Board, RomSet } from "../../knowledge/types";
import type { FileBytes, NoBytes } from "./file-bytes";
import { checksOf, type ImageChecks } from "./image";
import { type ImageReport, matchImage } from "./match-image";

/** Bytes; program memories of the 1970s and 80s are far smaller (common practice, no source). */
export const LARGEST_IMAGE = 1024 * 1024;
/** Images read for one log; a cabinet has a few dozen sockets at most (common practice, no source). */
export const MOST_IMAGES = 64;

/** Why there is no image; `too-many`: the log names more of them than are read. */
export type NoImage = Omit<NoBytes, "reason"> & { readonly reason: NoBytes["reason"] | "too-many" };

/** The bytes of an image, or why there are none. */
export type ImageFile = Extract<FileBytes, { readonly ok: true }> | NoImage;

/** A log's images by their path as `imagePath` gives it. */
export type Images = ReadonlyMap<string, ImageFile>;

/**
 * True where nothing that follows from the image can have changed: the same bytes, or the same reason for having none.
 */
export const sameImage = (a: ImageFile, b: ImageFile): boolean =>
  a.ok
    ? b.ok && a.bytes.length === b.bytes.length && a.bytes.every((byte, i) => byte === b.bytes[i])
    : !b.ok && a.reason === b.reason && a.size === b.size;

/**
 * The path in a cell: plain, in backquotes, or where a Markdown link leads; with forward slashes. Undefined where
 * the cell names no file.
 */
export function imagePath(cell: string): string | undefined {
  const typed = cell.trim();
  const [, angled, bare] = /^\[[^\]]*\]\(\s*(?:<([^<>]*)>|([^\s()]+))(?:\s+["'(].*)?\s*\)$/.exec(typed) ?? [];
  const link = angled ?? bare;
  const path = (link === undefined ? typed.replace(/^(`+)\s*(.*?)\s*\1$/, "$2") : unescaped(link))
    .trim()
    .replaceAll("\\", "/");
  return path === "" || /^[-–—?.]+$/.test(path) ? undefined : path;
}

function unescaped(link: string): string {
  try {
    return decodeURIComponent(link);
  } catch {
    // A stray "%" in somebody's file name.
    return link;
  }
}

const NO_SETS: readonly RomSet[] = [];
const setsOf = memo((board: Board): readonly RomSet[] => [...board.romSets.values()]);
const reportsOf = memo((_bytes: Uint8Array, _sets: readonly RomSet[]) => new Map<string, ImageReport>());

/** `matchImage` against all sets of a board, worked out once for an image, a board and a position. */
export function imageReport(bytes: Uint8Array, board: Board | undefined, ref: string): ImageReport {
  const sets = board ? setsOf(board) : NO_SETS;
  const byRef = reportsOf(bytes, sets);
  const report = byRef.get(ref) ?? matchImage(bytes, sets, ref);
  byRef.set(ref, report);
  return report;
}

/** True where the bytes tell nothing of a program: there are none, or all are alike and no set has it so. */
export const isBlank = ({ checks, fill, matches }: ImageReport): boolean =>
  checks.size === 0 || (fill !== undefined && !isWhole(matches[0]));

/** True where the image is several copies of what belongs in the chip, or of what is in no set. */
export const isDoubled = ({ copies, matches }: ImageReport): boolean => copies > 1 && !isWhole(matches[0]);

const isWhole = (match: ImageReport["matches"][number] | undefined): boolean =>
  match?.part === "whole" && match.kind !== "same-sum";

/** The checks a position is identified by; of an image that holds its bytes twice over, those of one copy. */
export function checksForSet(bytes: Uint8Array, report: ImageReport): ImageChecks {
  if (isBlank(report)) return {};
  return isDoubled(report) ? checksOf(bytes.subarray(0, bytes.length / report.copies)) : report.checks;
}
