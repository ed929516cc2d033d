// What an import found, as data: the same for the command line's two formats and for the editor.
import type { BoardEdited, KeptEntry } from "../board-file/change";
import type { ImportConflict } from "./combine";
import type { ImportFormat, ImportProblem } from "./imported";
import type { GuessedGround, GuessedRail } from "./supplies";
import type { LeftBehind } from "./to-draft";

export interface FileReport {
  readonly name: string;
  readonly format: ImportFormat;
  readonly parts: number;
  readonly nets: number;
  readonly pins: number;
  readonly problems: readonly ImportProblem[];
  /** Problems beyond those listed. */
  readonly moreProblems: number;
}

/**
 * What became of the files that a board was imported from: what was written, what was guessed, and what was left out.
 */
export interface ImportReport {
  readonly files: readonly FileReport[];
  readonly parts: number;
  /** Parts whose device the library knows, by designator. */
  readonly matched: readonly { readonly ref: string; readonly value: string; readonly device: string }[];
  /** Parts with a part number that were not matched, and why. */
  readonly unmatched: readonly { readonly ref: string; readonly value: string; readonly reason: string }[];
  /** Those written, without the pins that are connected to nothing. */
  readonly nets: number;
  readonly unconnected: number;
  readonly rails: readonly GuessedRail[];
  readonly grounds: readonly GuessedGround[];
  /** Nets named like a supply whose voltage nothing tells. */
  readonly unknownSupplies: readonly string[];
  readonly conflicts: readonly ImportConflict[];
  readonly leftOut: readonly LeftBehind[];
  /** Nets that the board file has under another name. */
  readonly renamed: readonly { readonly net: string; readonly file: string }[];
  /** What a board file that was there says otherwise; it stays as it was typed. */
  readonly kept: readonly KeptEntry[];
  /** Entries added to a board file that was there; absent for a new one. */
  readonly added?: number;
}

/** Whether some of a file was not read. */
export const isIncomplete = ({ files }: ImportReport): boolean =>
  files.some(({ problems }) => problems.some(({ kind }) => kind === "lost"));

export const withMerge = (report: ImportReport, merged: BoardEdited): ImportReport => ({
  ...report,
  kept: merged.kept,
  leftOut: [
    ...report.leftOut,
    ...merged.leftOut.map(({ key, reason }) => ({ what: key, reason: `was left out: ${reason}` })),
  ],
  added: merged.added.length,
});
