// What the logs of a board read as entries of its board file, each with its source.
import { defined } from "../../base/defined";
import type { DraftExpected } from "../../knowledge/board-file";
import type { Library } from "../../knowledge/library";
import type { Board, Expected } from "../../knowledge/types";
import { kindOf } from "../../log/kinds";
import { formatValue } from "../../quantity/format-value";
import { baselinesFor } from "../baseline";
import { placeKey } from "../baseline/places";
import type { Baseline, BaselinePlace, Baselines, BoardHistory } from "../baseline/types";
import { findRail } from "../rail-name";
import { partTestPoint, pinName, pinTestPoint } from "../test-point";
import { type ReferenceJobs, type ReferenceLimits, type References, referencesFor } from ".";
import { fileSourceOf } from "./words";

/** What all logs of a board have read that other boards of the type are held against. */
export interface ReadBefore {
  readonly returned: BoardHistory;
  readonly references: ReferenceJobs;
}

export interface Proposal {
  /** In the order of the board's names. An entry that was proposed before and stands there still is replaced. */
  readonly entries: readonly DraftExpected[];
  /** Places at which a person wrote what is to be expected, which stays. */
  readonly kept: number;
}

/** How a source begins that was proposed here, so that another proposal may bring it up to date. */
const PROPOSED = /^(?:reference jobs? |tolerance interval of )/;

/** @param board the board file alone, with nothing of the logs laid over it */
export function proposeLimits(
  { returned, references }: ReadBefore,
  board: Board,
  library: Library,
): Proposal {
  const baselines = baselinesFor(returned, "", undefined);
  const limits = referencesFor(references, "", undefined);
  const places = new Map<string, BaselinePlace>();
  for (const readings of [...returned.at.values(), ...references.history.at.values()])
    for (const { place } of readings) places.set(placeKey(place), place);
  const there = new Map(board.expected.map((item) => [expectedAt(item, board, library), item]));
  const entries: DraftExpected[] = [];
  let kept = 0;
  for (const place of places.values()) {
    if (!mayStand(place, library)) continue;
    const found = limitsAt(place, baselines, limits);
    if (!found) continue;
    const typed = there.get(keyOf(place));
    if (typed && !PROPOSED.test(typed.source)) kept += 1;
    else entries.push({ procedure: place.procedure, ...atOf(place, typed), ...found, from: "" });
  }
  return { entries: entries.sort((a, b) => inOrder.compare(sortKey(a), sortKey(b))), kept };
}

/** Board files say neither with what load nor which of several readings of a kind: those would be held against the wrong ones. */
function mayStand({ procedure, measure, load }: BaselinePlace, library: Library): boolean {
  if (kindOf(procedure).acrossJobs !== "expected" || load !== undefined) return false;
  const columns = library.procedure(procedure)?.columns.filter(({ role }) => role === "reading") ?? [];
  const own = columns.find((column) => column.measure === measure);
  return own !== undefined && columns.find(({ quantity }) => quantity === own.quantity) === own;
}

type Found = Pick<DraftExpected, "low" | "high" | "source">;

function limitsAt(
  place: BaselinePlace,
  baselines: Baselines | undefined,
  references: References | undefined,
): Found | undefined {
  const baseline = baselines?.at(place);
  if (baseline) return { ...endsOf(baseline), source: baselineSource(baseline) };
  const limits = references?.at(place);
  return limits && { ...endsOf(limits), source: fileSourceOf(limits.readings, limits.unit) };
}

/** An end that says nothing is zero: every reading lies on the other side of it. */
const endsOf = ({ low = 0, high = 0, unit }: Pick<ReferenceLimits | Baseline, "low" | "high" | "unit">) => ({
  low: written(low, unit),
  high: written(high, unit),
});

/** As it is typed on any keyboard. */
const written = (value: number, unit: string): string =>
  formatValue(value, unit).replace("Ω", "ohm").replace("µ", "u");

/** Jobs named at most; the others are counted. */
const NAMED = 4;

function baselineSource({ n, jobs }: Baseline): string {
  const more = n > NAMED ? ` and ${n - NAMED} more` : "";
  const named = jobs.slice(0, NAMED).map(({ job }) => job);
  return `tolerance interval of ${n} returned boards (95 %/95 %); jobs ${named.join(", ")}${more}`;
}

/** A place that is there already is named as it is there, or it would be another one. */
function atOf(
  { at }: BaselinePlace,
  typed: Expected | undefined,
): Pick<DraftExpected, "ref" | "pin" | "rail"> {
  const { ref, pin, rail } = typed ?? (("rail" in at ? { rail: at.rail } : at) as Partial<Expected>);
  return defined({
    ref,
    pin,
    rail,
  });
}

const keyOf = ({ procedure, at }: BaselinePlace): string =>
  "rail" in at ? `${procedure} rail ${at.rail}` : `${procedure} ${at.ref.toUpperCase()} ${at.pin ?? ""}`;

function expectedAt({ procedure, ref, pin, rail }: Expected, board: Board, library: Library): string {
  if (ref === undefined)
    return `${procedure} rail ${rail === undefined ? "" : (findRail(board, rail)?.name ?? rail)}`;
  const part = partTestPoint(ref, board, library);
  const number = pin === undefined ? undefined : pinName(pinTestPoint(part, pin, board));
  return `${procedure} ${part.ref.toUpperCase()} ${number ?? ""}`;
}

/** Not by the machine's language: U2 before U10 everywhere. */
const inOrder = new Intl.Collator("en", { numeric: true });
const sortKey = ({ procedure, ref, pin, rail }: DraftExpected): string =>
  [procedure, rail ?? "", ref ?? "", pin ?? ""].join("\n");
