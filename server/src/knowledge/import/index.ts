// Importing a board from what others made of it: netlists, board layouts and parts lists in, the text of a board file and a
// report out. Nothing here knows an editor or a disk.
import { type BoardEdited, mergeIntoBoardFile, writeBoardFile } from "../board-file";
import type { Library } from "../library";
import { loadBoard } from "../load-board";
import { combine, type ImportConflict, type ImportedFile } from "./combine";
import { fitExisting } from "./fit-existing";
import type { Importing } from "./imported";
import { recognise } from "./read";
import { type FileReport, type ImportReport, withMerge } from "./report";
import { type Drafted, toDraft } from "./to-draft";

export type { ImportStep } from "./imported";
export { MOST_IMPORTED } from "./limits";
export { type ImportReport, isIncomplete } from "./report";
export { reportText } from "./report-text";

export interface ImportRequest {
  /** Texts without a byte order mark; the file named first is believed where two disagree. */
  readonly files: readonly { readonly name: string; readonly text: string }[];
  readonly library: Library;
  /** Of the new board file. */
  readonly id?: string;
  /** The board file that is added to; without it a new one is made. */
  readonly existing?: string;
}

export type ImportResult =
  | {
      readonly ok: true;
      /** Of the whole board file. */
      readonly text: string;
      /** How an existing file becomes that. */
      readonly merged?: BoardEdited;
      readonly report: ImportReport;
    }
  /** Nothing is to be written. Sentences that begin with what they are about, a file's name or the board file. */
  | { readonly ok: false; readonly reasons: readonly string[] };

/** Reads, matches and writes; progress is of the file being read. */
export function* importBoard({ files, library, id, existing }: ImportRequest): Importing<ImportResult> {
  const read: ImportedFile[] = [];
  const reasons: string[] = [];
  for (const { name, text } of files) {
    const found = recognise(text);
    if (!found.ok) {
      reasons.push(`${name} ${found.reason}.`);
      continue;
    }
    const board = yield* found.read(text);
    const refused = board.problems.find(({ kind }) => kind === "refused");
    if (refused) reasons.push(`${name}: ${refused.message}`);
    else if (board.parts.length === 0)
      reasons.push(`${name} names no part. ${board.problems[0]?.message ?? "Is it the right file?"}`);
    else read.push({ name, board });
  }
  if (reasons.length > 0) return { ok: false, reasons };
  const combined = combine(read);
  const drafted = toDraft(combined, library, id);
  const report = reportOf(read, combined.conflicts, drafted);
  if (existing === undefined || existing.trim() === "")
    return { ok: true, text: writeBoardFile(drafted.draft), report };
  const board = loadBoard(existing).value;
  const { draft, renamed } = board
    ? fitExisting(drafted.draft, board)
    : { draft: drafted.draft, renamed: [] };
  const merged = mergeIntoBoardFile(existing, draft);
  if (!merged.ok) return { ok: false, reasons: [merged.reason] };
  return { ok: true, text: merged.text, merged, report: { ...withMerge(report, merged), renamed } };
}

function reportOf(
  files: readonly ImportedFile[],
  conflicts: readonly ImportConflict[],
  drafted: Drafted,
): ImportReport {
  const matches = [...drafted.matches];
  return {
    files: files.map(
      ({ name, board }): FileReport => ({
        name,
        format: board.format,
        parts: board.parts.length,
        nets: board.nets.length,
        pins: board.parts.reduce((sum, { pins }) => sum + pins.length, 0),
        problems: board.problems,
        moreProblems: board.moreProblems,
      }),
    ),
    parts: drafted.draft.parts.length,
    matched: matches.flatMap(([ref, match]) =>
      match.kind === "device" ? [{ ref, value: match.typed, device: match.device.id }] : [],
    ),
    unmatched: matches.flatMap(([ref, match]) =>
      match.kind === "unknown" || match.kind === "differs"
        ? [{ ref, value: match.typed, reason: match.reason }]
        : [],
    ),
    nets: drafted.draft.nets.length,
    unconnected: drafted.unconnected,
    rails: drafted.supplies.rails,
    grounds: drafted.supplies.grounds,
    unknownSupplies: drafted.supplies.unknown,
    conflicts,
    leftOut: drafted.leftBehind,
    renamed: [],
    kept: [],
  };
}
