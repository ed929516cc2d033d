// Tables that are wrong as a whole and that no pin's own window shows: a probe without a supply, a meter on the wrong
// range. One finding in place of those of their readings.

import { partValue } from "../../compute/part-value";
import { extentOf } from "../../judge/compare";
import type { LogContext } from "../../judge/context";
import { partPlace } from "../../judge/place";
import type { LogTable, Reading } from "../../log/model";
import type { Observation } from "./observation";

const { dimension: OHMS } = { dimension: "resistance" } as const;
/** Readings at least; fewer may be what they are. */
const LEAST = { floating: 5, ohms: 2, transistors: 3 } as const;

export const tableMistake = (table: LogTable, ctx: LogContext): Observation | undefined =>
  floating(table) ?? multiplier(table, ctx) ?? backwards(table);

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
  return told(table, table.readings, refs, {
    of: `the junctions of ${whose}`,
    mistake: "the leads were reversed",
    says: `All of ${whose} read open from the base, and a diode from emitter to collector.`,
    again: `Swap the leads and read ${refs[0]} again`,
  });
}

function floating(table: LogTable): Observation | undefined {
  const states = table.readings.filter(({ value }) => value.kind === "state");
  if (
    states.length < LEAST.floating ||
    !states.every(({ value }) => value.kind === "state" && value.state === "floating")
  )
    return undefined;
  const refs = refsOf(states);
  const whose = refs.join(", ");
  return told(table, states, refs, {
    of: `the states of ${whose}`,
    mistake: "the probe was off ground or without its supply",
    says: `Every pin of ${whose} that was probed floats.`,
    again: `Clip the probe to the board's ground and +5 V, try it on both, and read ${whose} again`,
  });
}

/** All of them off by the same power of ten from what is marked on the parts. */
function multiplier(table: LogTable, ctx: LogContext): Observation | undefined {
  if (table.kind.observedAs !== "part") return undefined;
  const ratios = table.readings.flatMap((reading) => {
    if (reading.spec.unit !== "ohm") return [];
    const ref = reading.subject.ref?.text;
    const part = ref === undefined ? undefined : partPlace(ref, ctx.board?.value, ctx.library).part;
    const nominal = partValue(part, OHMS)?.nominal;
    const extent = extentOf(reading.value);
    if (nominal === undefined || !extent || !(extent.low > 0) || !Number.isFinite(extent.high)) return [];
    return [{ reading, power: Math.log10(extent.low / nominal) }];
  });
  const [first] = ratios;
  const power = first ? Math.round(first.power) : 0;
  if (power === 0 || ratios.length < LEAST.ohms + 1) return undefined;
  if (!ratios.every((one) => Math.abs(one.power - power) < 0.08)) return undefined;
  const readings = ratios.map(({ reading }) => reading);
  const refs = refsOf(readings);
  return told(table, readings, refs, {
    of: `the resistance of ${refs.join(", ")}`,
    mistake: "the meter was on another range, or the unit is",
    says: `All of ${refs.join(", ")} read ${power > 0 ? 10 ** power : `1/${10 ** -power}`} times what is marked on them.`,
    again: `Look at the meter's range and unit, and read ${refs[0]} again`,
  });
}

const refsOf = (readings: readonly Reading[]): string[] => [
  ...new Set(readings.flatMap(({ subject }) => subject.ref?.text ?? [])),
];

function told(
  table: LogTable,
  readings: readonly Reading[],
  refs: readonly string[],
  words: { readonly of: string; readonly mistake: string; readonly says: string; readonly again: string },
): Observation | undefined {
  const [first] = readings;
  if (!first) return undefined;
  return {
    key: `table ${table.procedure.id} ${refs.join(" ")}`.toUpperCase(),
    what: words.of,
    table,
    span: first.cell.span,
    refs: [],
    finding: { kind: "table", refs, ...words },
  };
}
