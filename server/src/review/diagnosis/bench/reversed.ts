// Diodes and transistors of which every one reads as with the leads the other way round.

import { extentOf } from "../../../judge/compare";
import type { LogTable, Reading } from "../../../log/model";
import type { Observation } from "../observation";
import { refsOf, wholeTable } from "./whole-table";

/** Parts at least; fewer may be what they are. */
const LEAST = { transistors: 3, diodes: 3 } as const;
/** What a junction drops; volts. */
const DROP = { low: 0.1, high: 1 } as const;

/** One finding for the table, or none. */
export const reversedLeads = (table: LogTable): Observation | undefined =>
  backwards(table) ?? allOpen(table) ?? allBlocking(table);

/** Several diodes, each by itself, and every one of them open: the leads were the other way round. */
function allOpen(table: LogTable): Observation | undefined {
  if (table.kind.observedAs !== "pin-unpowered") return undefined;
  const readings = table.readings.filter(({ value }) => value.kind !== "empty");
  const refs = refsOf(readings);
  const areDiodes =
    refs.every((ref) => /^(?:D|CR)\d/i.test(ref)) && readings.every(({ subject }) => subject.ref);
  if (refs.length < LEAST.diodes || !areDiodes || !readings.every(({ value }) => value.kind === "open"))
    return undefined;
  const whose = refs.join(", ");
  return wholeTable(table, readings, refs, {
    of: `the drops of ${whose}`,
    mistake: "the leads were reversed",
    says: `All of ${whose} read open.`,
    again: `Swap the leads and read ${refs[0]} again`,
  });
}

/** Several diodes read both ways, and every one of them conducts in the column of the other: the leads, or the columns. */
function allBlocking(table: LogTable): Observation | undefined {
  const byRef = new Map<string, { readonly forward: Reading[]; readonly reverse: Reading[] }>();
  for (const reading of table.readings) {
    const way = reading.measure === "forward" || reading.measure === "reverse" ? reading.measure : undefined;
    const ref = reading.subject.ref?.text;
    if (!way || ref === undefined) continue;
    const own = byRef.get(ref) ?? { forward: [], reverse: [] };
    own[way].push(reading);
    byRef.set(ref, own);
  }
  const conducts = ({ value }: Reading): boolean => {
    const volts = value.kind === "open" ? undefined : extentOf(value);
    return volts !== undefined && volts.low > DROP.low && volts.high < DROP.high;
  };
  const isBack = ({
    forward,
    reverse,
  }: {
    readonly forward: Reading[];
    readonly reverse: Reading[];
  }): boolean =>
    forward.length > 0 &&
    reverse.length > 0 &&
    forward.every(({ value }) => value.kind === "open") &&
    reverse.every(conducts);
  if (byRef.size < LEAST.diodes || ![...byRef.values()].every(isBack)) return undefined;
  const refs = [...byRef.keys()];
  const whose = refs.join(", ");
  return wholeTable(table, table.readings, refs, {
    of: `the drops of ${whose}`,
    mistake: "the leads were reversed",
    says: `All of ${whose} read open forward, and a drop in reverse.`,
    again: `Swap the leads and read ${refs[0]} again`,
  });
}

/** A column of a table of junctions, by its two ends. */
const acrossEnds = ({ measure, subject }: Reading): string =>
  `${measure} ${subject.pin?.text ?? ""}`
    .toUpperCase()
    .replace(/[^BCE]/g, "")
    .slice(-2);

/** Every transistor open at both junctions from its base, and a diode from emitter to collector: the leads were swapped. */
function backwards(table: LogTable): Observation | undefined {
  if (table.kind.observedAs !== "junctions") return undefined;
  const byRow = new Map<number, Reading[]>();
  for (const reading of table.readings) byRow.set(reading.row, [...(byRow.get(reading.row) ?? []), reading]);
  const rows = [...byRow.values()];
  const isBack = rows.every((row) => {
    const open = row.filter(({ value }) => value.kind === "open");
    const drops = row.filter(({ value }) => value.kind !== "open" && extentOf(value) !== undefined);
    return (
      open.length === 2 && drops.length === 1 && drops.every((one) => /^(?:CE|EC)$/.test(acrossEnds(one)))
    );
  });
  if (rows.length < LEAST.transistors || !isBack) return undefined;
  const refs = refsOf(table.readings);
  const whose = refs.join(", ");
  return wholeTable(table, table.readings, refs, {
    of: `the junctions of ${whose}`,
    mistake: "the leads were reversed",
    says: `All of ${whose} read open from the base, and a diode from emitter to collector.`,
    again: `Swap the leads and read ${refs[0]} again`,
  });
}
