// What may be wrong with the board of a log. Computed only where somebody asks, and not again while what the log
// says of the board stays the same.

import { memo } from "../../base/memo";
import { finish, type Steps } from "../../base/steps";
import { type Diagnosis, diagnosisSteps } from "../../compute/diagnosis";
import { nextReadingSteps, type ReadingAdvice } from "../../compute/diagnosis/next-reading";
import type { DiagnosisFinding } from "../../compute/diagnosis/types";
import { type DiagnosisSource, type FromLog, fromLogSteps } from "./from-log";

/** A diagnosis with what of the log it was made from and what to read next. */
export interface LogDiagnosis {
  readonly log: FromLog;
  readonly diagnosis: Diagnosis;
  readonly advice: ReadingAdvice;
  /** Those of `log` one by one, as the diagnosis has them: it may be older than the log. */
  readonly diagnosed: readonly DiagnosisFinding[];
}

/** Somebody waits for the answer; what more nodes would find is too unlikely to be shown. */
const MOST_NODES = 1000;

/** Each source has a place for what its steps have made to the end. */
const evidenceOf = memo((_source: DiagnosisSource): { made?: { readonly log: FromLog | undefined } } => ({}));

interface Kept {
  /** What the diagnosis rests on. */
  readonly key: string;
  readonly diagnosis: Diagnosis;
  readonly diagnosed: readonly DiagnosisFinding[];
  /** Once it was asked for. */
  advice?: ReadingAdvice;
}

/** The same by what stays while a log is typed in. */
const rankings = memo((_ctx: DiagnosisSource["ctx"]): { last?: Kept } => ({}));

/** What the log holds for a diagnosis, without making one; undefined without a board. */
export const evidenceIn = (source: DiagnosisSource): FromLog | undefined => finish(evidenceSteps(source));

/** As `evidenceIn`, in steps; what is made to the end is kept with its source. */
export function* evidenceSteps(source: DiagnosisSource): Steps<FromLog | undefined> {
  const evidence = evidenceOf(source);
  evidence.made ??= { log: yield* fromLogSteps(source) };
  return evidence.made.log;
}

/** The diagnosis without advice on what to read next, for those who need no more; undefined without a board. */
export const rankingOf = (source: DiagnosisSource): Diagnosis | undefined =>
  finish(rankingSteps(source))?.diagnosis;

/** As `rankingOf`, in steps. It is made again only where what it rests on has changed. */
export function* rankingSteps(
  source: DiagnosisSource,
): Steps<(Kept & { readonly log: FromLog }) | undefined> {
  const log = yield* evidenceSteps(source);
  if (!log) return undefined;
  const { board: _board, deviceOf: _deviceOf, ...rest } = log.input;
  const key = JSON.stringify([rest, log.powered]);
  const ranking = rankings(source.ctx);
  let known = ranking.last;
  if (known?.key !== key) {
    const diagnosis = yield* diagnosisSteps(log.input, { maxNodes: MOST_NODES });
    if (!diagnosis.ok) return undefined;
    known = { key, diagnosis, diagnosed: log.input.findings };
    ranking.last = known;
  }
  return { ...known, log };
}

/** The diagnosis of a log as it stands; undefined without a board. */
export const diagnosisOf = (source: DiagnosisSource): LogDiagnosis | undefined =>
  finish(logDiagnosisSteps(source));

/**
 * As `diagnosisOf`, in steps of a few milliseconds. What was worked out to the end is kept, so that those who ask for
 * it afterwards have it at once; what was left half done is not.
 */
export function* logDiagnosisSteps(source: DiagnosisSource): Steps<LogDiagnosis | undefined> {
  const found = yield* rankingSteps(source);
  if (!found) return undefined;
  const { key, log, diagnosis, diagnosed } = found;
  let { advice } = found;
  if (!advice) {
    advice = yield* nextReadingSteps(log.input, diagnosis, { powered: log.powered });
    const now = rankings(source.ctx).last;
    if (now?.key === key) now.advice = advice;
  }
  return { log, diagnosis, advice, diagnosed };
}
