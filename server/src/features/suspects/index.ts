// The diagnosis of a log as a list to walk through: each suspect with its evidence, each piece of evidence with its place.
import { defined } from "../../base/defined";
import type { Conflict } from "../../compute/diagnosis/conflict";
import type { NextReading } from "../../compute/diagnosis/next-reading";
import type { Suspect } from "../../compute/diagnosis/suspects";
import { pinText } from "../../compute/nets/net-text";
import { tablesOf } from "../../log/document";
import { provingReview } from "../../review/proving";
import { netTarget, partTarget } from "../definition";
import {
  cautionFor,
  diagnosisOf,
  type LogDiagnosis,
  rankedFor,
  roughShare,
  type Share,
  type WeighedSuspect,
  waitingText,
  weighed,
} from "../shared/diagnosis";
import type { Target } from "../types";
import type { LogView } from "../view";

/** A sentence and the place in the log that it is about, where there is one. */
export interface LinkedSentence {
  readonly text: string;
  /** Offset in the document. */
  readonly at?: number;
}

export interface PlacedSuspect extends Pick<WeighedSuspect, "name" | "title"> {
  readonly share: Share;
  readonly for: readonly LinkedSentence[];
  readonly before: readonly string[];
  readonly against: readonly string[];
  readonly notTaken: readonly LinkedSentence[];
  /** Where the board file has it. */
  readonly target?: Target;
}

/** A reading that is advised, with what it costs; `at` is its place in the log, `target` that in the board file. */
export interface NextReadingPlace {
  /** What to do: "Diode check U14 pin 3 (COL_1), unpowered". */
  readonly action: string;
  /** What it tells apart and at what price. */
  readonly why: string;
  readonly minutes: number;
  readonly cautions: readonly string[];
  readonly at?: number;
  readonly target?: Target;
}

export interface SuspectList {
  readonly suspects: readonly PlacedSuspect[];
  readonly next?: NextReadingPlace;
  readonly others: readonly NextReadingPlace[];
  /** Items of the board's proving list that nothing in the log shows yet, or that failed. */
  readonly unproven: readonly { readonly title: string; readonly wants: string; readonly failed: boolean }[];
  /** Items of the proving list in all. */
  readonly toProve: number;
  /** How far the list goes, what was not counted and why: full sentences. */
  readonly notes: readonly string[];
}

/** More than these nobody measures on one evening. */
const LISTED = 8;

/** Undefined without a board. Of a log about several boards the lists one after the other, each name with its board's. */
export function suspectList(view: LogView): SuspectList | undefined {
  if (!view.set) return listOf(view);
  const lists = view.set.flatMap((one) => {
    const list = listOf(one);
    return list ? [{ list, name: one.doc.ofSet?.name ?? "" }] : [];
  });
  if (lists.length === 0) return undefined;
  const readings = lists.flatMap(({ list, name }) =>
    [...(list.next ? [list.next] : []), ...list.others].map((one) => ({
      ...one,
      action: `${name}: ${one.action}`,
    })),
  );
  // Of the first board that has any, what tells most; what the other boards want is among the others.
  const [next, ...others] = readings;
  return defined({
    suspects: lists.flatMap(({ list, name }) =>
      list.suspects.map((one) => ({ ...one, name: `${name}: ${one.name}` })),
    ),
    next,
    others,
    unproven: lists.flatMap(({ list, name }) =>
      list.unproven.map((one) => ({ ...one, title: `${name}: ${one.title}` })),
    ),
    toProve: lists.reduce((sum, { list }) => sum + list.toProve, 0),
    notes: lists.flatMap(({ list, name }) => list.notes.map((note) => `${name}: ${note}`)),
  });
}

function listOf(view: LogView): SuspectList | undefined {
  const found = diagnosisOf(view);
  if (!found) return undefined;
  const { advice, diagnosis, log } = found;
  const readings = readingsOf(view);
  const { items } = provingReview(view.doc, view.ctx);
  return defined({
    suspects: rankedFor(found, LISTED).map((ranked) => placedSuspect(view, found, ranked, readings)),
    next: advice.best ? placedReading(view, advice.best, readings) : undefined,
    others: advice.runnersUp.map((reading) => placedReading(view, reading, readings)),
    unproven: items
      .filter(({ state }) => state !== "proven")
      .map(({ item, state, wants }) => ({
        title: item.title,
        wants: wants ?? "",
        failed: state === "failed",
      })),
    toProve: items.length,
    notes: [...waitingText(log.waiting), ...log.problems, ...diagnosis.problems, diagnosis.bound],
  });
}

function placedSuspect(
  view: LogView,
  found: LogDiagnosis,
  ranked: Parameters<typeof weighed>[2],
  readings: ReadonlyMap<string, number>,
): PlacedSuspect {
  const { name, title, share, ...told } = weighed(view, found, ranked);
  const target = targetOf(view, ranked.suspect);
  return defined({
    name,
    title,
    share: roughShare(share),
    for: told.for.map((conflict) => said(conflict.reason, placeOf(found, conflict))),
    before: told.before,
    against: told.against,
    notTaken: told.notTaken.map((at) => said(pinText(at), readings.get(keyOf(at.ref, at.pin)))),
    target,
  });
}

const said = (text: string, at: number | undefined): LinkedSentence => defined({ text, at });

/** Where the log says it: the first of the findings that make up the conflict. */
function placeOf({ diagnosed, log }: LogDiagnosis, { findings }: Conflict): number | undefined {
  const [first] = findings;
  const index = first ? diagnosed.indexOf(first) : -1;
  return index < 0 ? undefined : log.findings[index]?.span.start;
}

function targetOf(view: LogView, suspect: Suspect): Target | undefined {
  if (suspect.kind === "track") return netTarget(view, suspect.net);
  if (suspect.kind === "bridge") return netTarget(view, suspect.nets[0]);
  return "ref" in suspect ? partTarget(view, suspect.ref) : undefined;
}

const keyOf = (ref: string, pin: string): string => `${ref} ${pin}`.toUpperCase();

/** Where each pin's reading stands, or is to be typed: the last place in the log. */
function readingsOf({ doc }: LogView): ReadonlyMap<string, number> {
  const places = new Map<string, number>();
  for (const { start, table } of tablesOf(doc)) {
    for (const { subject, cell } of table.readings) {
      if (subject.ref && subject.pin)
        places.set(keyOf(subject.ref.text, subject.pin.text), start + cell.span.start);
    }
  }
  return places;
}

function placedReading(
  view: LogView,
  reading: NextReading,
  readings: ReadonlyMap<string, number>,
): NextReadingPlace {
  const { ref, pin, minutes, action, why } = reading;
  const at = pin === undefined ? undefined : readings.get(keyOf(ref, pin));
  const target = partTarget(view, ref);
  return defined({
    action,
    why,
    minutes,
    cautions: cautionFor(reading),
    at,
    target,
  });
}
