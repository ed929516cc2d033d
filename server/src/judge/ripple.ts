// Ripple behind a rectifier against what the board's reservoir can leave at the load.

import { impliedCapacitance, judgeReservoir, type RippleInput } from "../compute/circuit/ripple";
import type { Rail } from "../knowledge/types";
import { headerWord } from "../log/headers";
import type { Reading } from "../log/model";
import { formatValue } from "../quantity/format-value";
import type { Advice, Saying } from "../text/saying";
import { amountOf, linkTo, type PartValueResult, tolerances, valueAt } from "./board-parts";
import type { LogContext } from "./context";
import { judgementFrom, unjudged } from "./judgement-from";
import { accuracyGap, besides, type MeasuredReading, measuredOf } from "./measured";
import type { Judgement, Reference } from "./types";
import { uncertaintyOf } from "./uncertainty";

const CODE = "rail-out-of-tolerance";

/** What the ripple of a rail is computed from; `from` says where the current is known from. */
export interface RippleCircuit extends RippleInput {
  readonly reservoir: Extract<PartValueResult, { ok: true }>;
  readonly currentUncertainty: number;
  readonly from: string;
}

/** The rail's circuit at the load of this row, or what is missing of it in a sentence. */
export function rippleCircuit(rail: Rail, reading: Reading, ctx: LogContext): RippleCircuit | string {
  if (rail.reservoir === undefined) return `The board file names no reservoir of ${rail.name}.`;
  const reservoir = valueAt(rail.reservoir, "capacitance", ctx);
  if (!reservoir.ok) return reservoir.reason;
  const frequency = amountOf(rail.mains, "frequency");
  const { rectifier } = rail;
  if (frequency === undefined || frequency <= 0)
    return `The board file does not say what mains frequency ${rail.name} comes from.`;
  if (!rectifier)
    return `The board file does not say whether ${rail.name} is rectified full-wave or half-wave.`;
  const load = loadOf(rail, reading, ctx);
  if (typeof load === "string") return load;
  return {
    reservoir,
    frequency,
    rectifier,
    current: load.value,
    currentUncertainty: load.uncertainty,
    from: load.from,
  };
}

/** The current read in the same row, else what the board file says the rail carries when it is loaded. */
export function loadOf(
  rail: Rail,
  reading: Reading,
  ctx: LogContext,
): (MeasuredReading & { readonly from: string }) | string {
  const read = measuredOf(besides(reading, "load"), "dc-amps", ctx);
  if (read && read.value > 0) return { ...read, from: "as read" };
  const usual = amountOf(rail.load, "current");
  if (usual === undefined || usual <= 0)
    return `Neither this row nor the board file says what current ${rail.name} carries.`;
  if (reading.table.section.qualifiers.load === "unloaded")
    return `${rail.name} carries ${formatValue(usual, "A")} by the board file, but this was read unloaded: write the current beside it.`;
  return { value: usual, uncertainty: 0, from: "the board file's load" };
}

/** The board file's own limit decides; without one the ripple is held against the most the reservoir can leave. */
export function judgeRipple(base: Judgement, rail: Rail, ctx: LogContext): Judgement {
  const { reading } = base;
  const read = measuredOf(reading, "ac-volts", ctx);
  const limited = base.reference !== undefined;
  if (!read || (limited && base.verdict !== "out-of-limits")) return base;
  if (!limited && rail.reservoir === undefined) return base;
  const circuit = rippleCircuit(rail, reading, ctx);
  const gap = rms(reading) ?? (typeof circuit === "string" ? circuit : accuracyGap(ctx));
  if (gap !== undefined || typeof circuit === "string") {
    const read = `${rail.name} ripple reads ${reading.value.typed}.`;
    return limited ? base : unjudged(reading, base.place, `${read} ${gap}`);
  }
  return limited ? withImplied(base, read.value, circuit) : fromCircuit(base, rail, read, circuit, ctx);
}

/** The arithmetic is of peak to peak; an alternating range shows the root mean square, which is much less. */
function rms({ value, table, cell, row }: Reading): string | undefined {
  const qualifier = value.kind === "quantity" ? value.quantity.qualifier : undefined;
  const at = table.source.rows[row]?.cells.indexOf(cell) ?? -1;
  const header = headerWord(table.columns[at]?.header.text ?? "");
  const told = qualifier === undefined ? header === "ac" : qualifier !== "pp";
  return told
    ? "This was not read peak to peak, as the reservoir's ripple is computed. Use an oscilloscope and write it as Vpp."
    : undefined;
}

function fromCircuit(
  base: Judgement,
  rail: Rail,
  read: MeasuredReading,
  circuit: RippleCircuit,
  ctx: LogContext,
): Judgement {
  const { reservoir, current, currentUncertainty } = circuit;
  const ownUncertainty = uncertaintyOf(base.reading.value, ctx.meter, "ac-volts");
  // The current read in the row moves the limit; both are left open together.
  const share = currentUncertainty / current;
  const first = judgeReservoir({ ...circuit, ...wanted(reservoir), ripple: read.value });
  if (!first.ok) return unjudged(base.reading, base.place, first.reason);
  const uncertainty = Math.hypot(ownUncertainty, first.bound.value * share);
  const ruling = judgeReservoir({ ...circuit, ...wanted(reservoir), ripple: read.value, uncertainty });
  if (!ruling.ok) return unjudged(base.reading, base.place, ruling.reason);
  const { bound, verdict } = ruling;
  const says: Saying = {
    fact: `${rail.name} ripple reads ${base.reading.value.typed}; ${reservoir.ref} of ${formatValue(reservoir.nominal, "F")} leaves at most ${formatValue(bound.value, "V")}.`,
    ...(verdict === "within-limits"
      ? { cause: "The capacitor is not disproved." }
      : verdict === "suspect"
        ? { step: "Too close to tell. Read it again on a finer range." }
        : advice(circuit)),
    more: [
      `Worked at ${formatValue(current, "A")} (${circuit.from}), ${formatValue(circuit.frequency, "Hz")} ${circuit.rectifier}.`,
      verdict === "out-of-limits" ? asIf(read.value, circuit) : undefined,
    ]
      .filter(Boolean)
      .join(" "),
  };
  const reference: Reference = {
    kind: "board",
    of: `the most ripple that ${reservoir.ref} can leave on ${rail.name}`,
    high: bound.value,
    unit: "V",
    source: ruling.source,
    ...linkTo(["rails", rail.name], ctx),
  };
  return judgementFrom(base.reading, base.place, { ...ruling, says }, CODE, {
    uncertainty,
    reference,
    note: tolerances(reservoir),
  });
}

const wanted = ({ nominal, tolerance }: { nominal: number; tolerance: number }) => ({ nominal, tolerance });

const advice = ({ reservoir, rectifier }: RippleCircuit): Advice => ({
  cause: `${reservoir.ref} has lost capacitance or has a poor joint${rectifier === "full-wave" ? ", or half of the bridge is open" : ""}.`,
  step: "Check the load current first.",
});

/** "It is as if C1's 4700 µF were 1128 µF."; undefined where the ripple leaves room for the whole capacitor. */
function asIf(ripple: number, circuit: RippleCircuit): string | undefined {
  const { reservoir } = circuit;
  const left = impliedCapacitance({ ...circuit, ripple });
  if (!left.ok || left.value >= reservoir.nominal) return undefined;
  return `It is as if ${reservoir.ref}'s ${formatValue(reservoir.nominal, "F")} were ${formatValue(left.value, "F")}.`;
}

/** A ripple above the board file's limit, with the capacitance that would leave it. */
function withImplied(base: Judgement, ripple: number, circuit: RippleCircuit): Judgement {
  const told = asIf(ripple, circuit);
  const left = impliedCapacitance({ ...circuit, ripple });
  if (told === undefined || !left.ok) return base;
  const at = `at ${formatValue(circuit.current, "A")}, ${circuit.from}`;
  return {
    ...base,
    says: { ...base.says, more: `${told} Worked ${at}.` },
    formula: `${base.formula}; ${left.formula}`,
  };
}
