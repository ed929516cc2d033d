// Which parts a log gives reason to renew: those a reading disproved, those the diagnosis has most against, and places
// left empty.

import type { Steps } from "../../base/steps";
import type { SignId } from "../../compute/diagnosis/strength";
import type { LogContext } from "../../judge/context";
import { boardIndex } from "../../knowledge/board-index";
import type { FrontMatter } from "../../knowledge/load-front-matter";
import type { LogDocument } from "../../log/document";
import type { LogSummary } from "../../log/summary";
import { workRows } from "../../log/timeline";
import { evidenceIn, evidenceSteps, rankingOf, rankingSteps } from "../diagnosis/of-log";
import { modificationsIn } from "./modifications";

export interface PartsSource {
  readonly doc: LogDocument;
  readonly front: Partial<FrontMatter>;
  readonly ctx: LogContext;
  readonly earlier?: ReadonlyMap<string, LogSummary>;
}

export interface Suggestion {
  /** As on the board. */
  readonly ref: string;
  readonly why: string;
}

/** From this share of the diagnosis on a part is worth having on the bench: common practice, no source. */
const LIKELY = 0.5;

const ALONE: Readonly<Partial<Record<SignId, string>>> = {
  "failed-alone": "failed: its test out of circuit",
  "swap-better": "another part there helped",
};

/** One a place, the strongest reason first; none without a board. */
export function suggestions(source: PartsSource): Suggestion[] {
  const board = source.ctx.board?.value;
  if (!board) return [];
  const index = boardIndex(board);
  const found = new Map<string, Set<string>>();
  const add = (ref: string, why: string) => {
    const part = index.part(ref);
    if (part) found.set(part.ref, (found.get(part.ref) ?? new Set()).add(why));
  };
  const log = evidenceIn(source);
  for (const { finding } of log?.findings ?? []) {
    if (finding.kind === "part" && finding.verdict === "out-of-limits")
      add(finding.ref, `failed: ${finding.of}`);
    // What condemns one part by itself is worth having there, however the rest of the log divides the shares.
    const by = finding.kind === "sign" ? ALONE[finding.sign] : undefined;
    if (by !== undefined && finding.kind === "sign") for (const ref of finding.refs ?? []) add(ref, by);
  }
  const diagnosis = log && log.findings.length > 0 ? rankingOf(source) : undefined;
  for (const { suspect, probability } of diagnosis?.ranked ?? []) {
    if (suspect.kind === "part" && probability >= LIKELY)
      add(suspect.ref, `suspected: share ${Math.round(probability * 100)} % in the diagnosis`);
  }
  for (const ref of emptyPlaces(source)) add(ref, "removed, nothing fitted yet");
  return [...found].map(([ref, reasons]) => ({ ref, why: [...reasons].join("; ") }));
}

/** The slow part of them in steps: when it has run to its end, they cost little. */
export function* suggestionSteps(source: PartsSource): Steps<void> {
  const log = yield* evidenceSteps(source);
  if (log && log.findings.length > 0) yield* rankingSteps(source);
}

/** Designators taken off with nothing written as fitted there since; batteries, which stay off, left out. */
export function emptyPlaces({ doc, ctx }: Pick<PartsSource, "doc" | "ctx">): string[] {
  const rows = workRows(doc);
  const listed = new Set(
    rows.filter(({ kind, part }) => kind === "fitted" && part).flatMap(({ refs }) => refs),
  );
  // A modification's steps say which parts it does without.
  const without = modificationsIn(doc, ctx.board?.value)
    .flatMap(({ modification }) => modification?.steps ?? [])
    .join("\n")
    .toUpperCase();
  return rows.flatMap((row, index) => {
    if (row.kind !== "work" || row.action !== "remove" || row.part) return [];
    const later = rows.slice(index + 1).filter(({ action }) => action === "replace" || action === "fit");
    return row.refs.filter(
      (ref) =>
        !/^BT\d/.test(ref) &&
        !listed.has(ref) &&
        !later.some(({ refs }) => refs.includes(ref)) &&
        !new RegExp(`\\b${ref}\\b`).test(without),
    );
  });
}
