// A diagnosis for the terminal and for other programs. Both say the same and neither needs colour.

import { defined } from "../../../base/defined";
import { diagnosisOf } from "../../../review/diagnosis/of-log";
import { type Json, json } from "../../../text/json";
import { type TerminalText, visibleLines } from "../../../text/terminal";
import type { LogView } from "../../view";
import {
  type ListedSuspect,
  listedSuspect,
  rankedFor,
  type Story,
  shareText,
  storyOf,
  storyText,
  waitingText,
} from "./suspects";

/** What other programs get. `format` is raised when a field changes its meaning or goes. */
export interface DiagnosisReport {
  readonly format: 1;
  readonly job?: string;
  readonly board: string;
  /** Numbers of findings counted. */
  readonly findings: number;
  readonly suspects: readonly ListedSuspect[];
  readonly together: readonly Story[];
  readonly next?: AdvisedReading;
  readonly otherReadings: readonly AdvisedReading[];
  /** Why no reading is advised, where none is. */
  readonly noReading?: string;
  /** Found before a repair and not seen again since, so not counted. */
  readonly waiting: readonly { readonly ref: string; readonly what: readonly string[] }[];
  /** What could not be used, as sentences. */
  readonly problems: readonly string[];
  /** How far the list of explanations goes. */
  readonly bound: string;
}

export interface AdvisedReading {
  readonly kind: string;
  readonly ref: string;
  readonly pin?: string;
  readonly net?: string;
  readonly gate?: string;
  /** The supplies are on for it. */
  readonly live: boolean;
  readonly minutes: number;
  readonly bits: number;
  readonly reason: string;
}

/** @param top suspects and stories listed at most; undefined without a board */
export function diagnosisReport(view: LogView, top: number): DiagnosisReport | undefined {
  const found = diagnosisOf(view);
  if (!found) return undefined;
  const { log, diagnosis, advice } = found;
  const { best, runnersUp } = advice;
  const { job } = view.front;
  return defined({
    format: 1,
    job,
    board: log.input.board.id || (view.front.board ?? ""),
    findings: log.findings.length,
    suspects: rankedFor(found, top).map((ranked) => listedSuspect(view, found, ranked)),
    together: diagnosis.candidates.slice(0, top).map(storyOf),
    next: best ? advised(best) : undefined,
    otherReadings: runnersUp.map(advised),
    noReading: advice.none,
    waiting: log.waiting.map(({ ref, what }) => ({ ref, what })),
    problems: [...log.problems, ...diagnosis.problems],
    bound: diagnosis.bound,
  });
}

const advised = ({
  kind,
  ref,
  pin,
  net,
  gate,
  live,
  minutes,
  bits,
  reason,
}: AdvisedReading): AdvisedReading =>
  defined({
    kind,
    ref,
    pin,
    net,
    gate,
    live,
    minutes,
    bits: rounded(bits),
    reason,
  });

/** Digits that mean something in figures that rest on rough priors, and a few more for sums. */
const rounded = (value: number): number => Number(value.toPrecision(4));

/** The diagnosis as JSON, with the path of its log. */
export const diagnosisJson = (path: string, report: DiagnosisReport): Json => rounding({ path, ...report });

/** Of a log about several boards: one report a board, each with the board's short name. */
export const diagnosesJson = (
  path: string,
  reports: readonly { readonly report: DiagnosisReport; readonly name: string | undefined }[],
): Json =>
  rounding({
    path,
    format: 1,
    boards: reports.map(({ report, name }) => defined({ inSet: name, ...report })),
  });

const rounding = (value: object): Json =>
  json(value, (key, each) => (key === "share" && typeof each === "number" ? rounded(each) : each));

/** Pins named of those that were not read. */
const NAMED = 8;

/** The diagnosis for a terminal, one log under its path. */
export function diagnosisText(path: string, report: DiagnosisReport): TerminalText {
  const { suspects, together, next, otherReadings, noReading, waiting, problems, bound } = report;
  const count = report.findings === 1 ? "1 finding" : `${report.findings} findings`;
  const lines = [
    `${path}: ${count} counted, ${report.board === "" ? "no board named" : `board ${report.board}`}`,
    "",
    ...(suspects.length === 0
      ? []
      : [
          "Suspects, likeliest first. Parts not listed are not cleared.",
          ...suspects.flatMap((suspect, i) => suspectText(suspect, i + 1)),
          "",
        ]),
    ...(together.length === 0
      ? []
      : [
          "Likeliest all together:",
          ...together.map((story) => `  - ${storyText(story)}: ${shareText(story.share)}`),
          "",
        ]),
    ...(next
      ? [
          ...(next.live
            ? ["Under power: only where local rules and your own training allow it."]
            : ["Power off, and what holds charge discharged and measured, first."]),
          `Next reading: ${next.reason}`,
          ...otherReadings.map(({ reason }) => `  or: ${reason}`),
          "",
        ]
      : noReading !== undefined && report.findings > 0
        ? [`Next reading: none. ${noReading}`, ""]
        : []),
    ...waitingText(waiting).map((line) => `- ${line}`),
    ...problems.map((line) => `- ${line}`),
    ...(waiting.length + problems.length > 0 ? [""] : []),
    bound,
  ];
  return visibleLines(`${lines.join("\n")}\n`);
}

function suspectText({ name, title, share, ...told }: ListedSuspect, number: number): string[] {
  const more = told.notTaken.length - NAMED;
  const open = told.notTaken.slice(0, NAMED).join(", ");
  return [
    `${String(number).padStart(3)}. ${name}${title === undefined ? "" : ` (${title})`}: ${shareText(share)}`,
    ...told.for.map((line) => `       for: ${line}`),
    ...told.before.map((line) => `       from the start: ${line}`),
    ...told.against.map((line) => `       against: ${line}`),
    ...(open ? [`       not yet read: ${open}${more > 0 ? ` and ${more} more` : ""}`] : []),
  ];
}
