// Diodes and transistors that read as with the leads the other way round: all of a table, or all from one row on or up to one.

import { MIRROR } from "../../../compute/circuit/junction";
import { EXPECTED, isJunctionType, type JunctionType } from "../../../compute/circuit/junction-table";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { partTestPoint } from "../../../judge/test-point";
import type { LogTable, Reading } from "../../../log/model";
import type { Observation } from "../observation";
import { refsOf, wholeTable } from "./whole-table";

/** Parts at least, of a whole table and of a part of it; fewer may be what they are. */
const LEAST = { all: 3, some: 4 } as const;
/** What a junction drops, two of them in a row too, and how much more the other way is then no leak but another path; volts. */
const DROP = { low: 0.1, high: 1.5, more: 0.1 } as const;

/** One finding for the table, or none. */
export function reversedLeads(table: LogTable, ctx: LogContext): Observation | undefined {
  const rows = partsRead(table);
  const ways = rows.map((row) => wayOf(row, ctx));
  const back = ways.flatMap((way, at) => (way === "back" ? at : []));
  const first = back[0] ?? 0;
  const last = back.at(-1) ?? -1;
  const isRun = ways.slice(first, last + 1).every((way) => way === "back" || way === "either");
  // Whoever took up the leads again after a pause read all that came after with them so.
  const isPart = isRun && (first === 0 || last === rows.length - 1) && back.length >= LEAST.some;
  const isAll = !ways.includes("right") && back.length >= LEAST.all && ways.every((way) => way !== "other");
  if (!isAll && !isPart) return undefined;
  const readings = isAll ? rows.flat() : rows.slice(first, last + 1).flat();
  const refs = refsOf(isAll ? readings : back.flatMap((at) => rows[at] ?? []));
  const whose = refs.join(", ");
  const one = wholeTable(table, readings, refs, {
    of: `the junctions of ${whose}`,
    mistake: "the leads were reversed",
    says: `All of ${whose} block where they should conduct, and fit swapped leads.`,
    again: `Swap the leads and read ${refs[0]} again`,
  });
  return one && !isAll ? { ...one, instead: new Set(readings.map(({ cell }) => cell.span.start)) } : one;
}

/** What was read of each part, in the order of the table; none where it is no table of parts with junctions. */
function partsRead(table: LogTable): readonly (readonly Reading[])[] {
  const { observedAs } = table.kind;
  if (observedAs !== "junctions" && observedAs !== "pin-unpowered") return [];
  const parts = new Map<string, Reading[]>();
  for (const reading of table.readings) {
    if (reading.value.kind === "empty") continue;
    const ref = reading.subject.ref?.text;
    if (ref === undefined || (observedAs !== "junctions" && !DIODE.test(ref))) return [];
    parts.set(ref, [...(parts.get(ref) ?? []), reading]);
  }
  return [...parts.values()];
}

const DIODE = /^(?:D|CR)\d/i;

/** `either`: it fits both; `other`: neither, so that something else is wrong there. */
type Way = "right" | "back" | "either" | "other";

function wayOf(row: readonly Reading[], ctx: LogContext): Way {
  const ref = row[0]?.subject.ref?.text ?? "";
  const named = row[0]?.subject.part?.text;
  const device =
    partTestPoint(ref, ctx.board?.value, ctx.library).device ??
    (named === undefined ? undefined : ctx.library.device(named)?.device);
  const read = row.flatMap((reading): Read[] => {
    const volts = extentOf(reading.value);
    return volts ? [{ at: acrossEnds(reading), volts: volts.low }] : [];
  });
  if (read.length < row.length) return "other";
  const type = device?.families.find(isJunctionType);
  const fits = DIODE.test(ref) ? fitsDiode : type ? fitsType(type) : fitsNpn;
  const [asTyped, turned] = [
    fits(read),
    fits(read.map(({ at, volts }) => ({ at: OTHER_WAY[at] ?? at, volts }))),
  ];
  // Many put the black lead on the base of a PNP, and write down what conducts.
  const isHabit = type?.startsWith("PNP") === true && !read.some(({ at }) => at === "eb" || at === "cb");
  if (asTyped && turned) return "either";
  return asTyped ? "right" : !turned ? "other" : isHabit ? "either" : "back";
}

interface Read {
  /** "be", or "forward" of a diode. */
  readonly at: string;
  readonly volts: number;
}

const OTHER_WAY: Readonly<Record<string, string>> = { ...MIRROR, forward: "reverse", reverse: "forward" };

const conducts = ({ volts }: Read): boolean => volts > DROP.low && volts < DROP.high;

/** It conducts forward; in reverse it blocks, or what lies beside it conducts through more than one junction. */
function fitsDiode(read: readonly Read[]): boolean {
  const forward = read.filter(({ at }) => at !== "reverse");
  const most = Math.max(DROP.low, ...forward.map(({ volts }) => volts));
  return read.every((one) => (one.at === "reverse" ? one.volts > most + DROP.more : conducts(one)));
}

/** Each pair as such a transistor shows it; between collector and emitter something else on the board may conduct. */
const fitsType =
  (type: JunctionType) =>
  (read: readonly Read[]): boolean =>
    read.every((one) => {
      const expected = EXPECTED[type][one.at as keyof typeof MIRROR]?.kind ?? "either";
      if (expected === "either") return one.volts > DROP.low;
      return expected === "drop" ? conducts(one) : !Number.isFinite(one.volts) || isAcross(one, read);
    });

/** A diode from emitter to collector, in the column of the other way only where the base blocks. */
const isAcross = (one: Read, read: readonly Read[]): boolean =>
  one.at === "ec" && conducts(one) && read.every(({ at, volts }) => at === "ec" || !Number.isFinite(volts));

const fitsNpn = fitsType("NPN");

/** A column of a table of junctions by its two ends, or by its direction. */
function acrossEnds({ measure, subject }: Reading): string {
  if (measure === "forward" || measure === "reverse") return measure;
  return `${measure} ${subject.pin?.text ?? ""}`
    .toLowerCase()
    .replace(/[^bce]/g, "")
    .slice(-2);
}
