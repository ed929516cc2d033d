// A rail's current when it is first powered: too much is a short, too little means that the rail does not reach what it
// feeds.
import { defined } from "../base/defined";
import { shortLimits } from "../compute/circuit/rail-short";
import { supplyCurrentOf } from "../compute/circuit/supply-current";
import type { Rail } from "../knowledge/types";
import type { Reading } from "../log/model";
import { formatValue } from "../quantity/format-value";
import { parseQuantity } from "../quantity/quantity";
import { amountOf, railNominal } from "./board-parts";
import { hasBoardFile, type LogContext } from "./context";
import { besides, type MeasuredReading, measuredOf, single } from "./measured";
import { isUnregulated, saidLoad } from "./no-load";
import { partTestPoint } from "./test-point";
import type { Judgement, Reference } from "./types";

const CODE = "rail-out-of-tolerance";
const PRACTICE = "common practice, no source";
/** A rail is held down where it gives less than this share of its voltage. */
const HELD_DOWN = 0.9;
/** Times the usual current: a question, and out of limits; and the shares below which it is either. */
const TIMES = { doubt: 1.5, most: 2.5, few: 0.4, least: 0.15 };
/** Times what the chips can draw together, where a board file lists them. */
const TIMES_CHIPS = { doubt: 1.5, most: 3, least: 0.3 };
/** A board file with fewer chips may not list all that draw. */
const FEWEST_CHIPS = 20;
/** Of a current limit, what is as good as all of it. */
const AT_LIMIT = 0.98;

/** The rail's current against what pulls it down, its supply's limit, its usual load, or what its chips draw. */
export function judgeCurrent(reading: Reading, rail: Rail, ctx: LogContext): Judgement {
  const read = measuredOf(reading, "dc-amps", ctx);
  const nothing: Judgement = { reading, verdict: "unjudged", says: { fact: noLimits(rail) } };
  if (!read) return nothing;
  const amps = { ...read, value: Math.abs(read.value) };
  return (
    heldDown(reading, rail, amps) ??
    atLimit(reading, rail, amps, ctx) ??
    (rail.load === undefined ? againstChips(reading, rail, amps, ctx) : againstLoad(reading, rail, amps)) ??
    nothing
  );
}

const noLimits = ({ name, load, source }: Rail): string =>
  load === undefined
    ? `Nothing says what ${name} carries, so its current is not judged.`
    : `${name} usually carries ${load} (${source ?? "the board file"}). That is no limit, so the current is not judged.`;

/** The voltage of the same row is low: the two together are the resistance that pulls it down. */
function heldDown(
  reading: Reading,
  rail: Rail,
  { value, uncertainty }: MeasuredReading,
): Judgement | undefined {
  const beside = besides(reading, "dc");
  const volts = beside && single(beside.value);
  const nominal = railNominal(rail);
  if (volts === undefined || !Number.isFinite(volts) || nominal === undefined || !(value > 0))
    return undefined;
  if (Math.abs(volts) >= HELD_DOWN * Math.abs(nominal)) return undefined;
  const ohms = Math.abs(volts) / value;
  const unregulated = isUnregulated(rail);
  const limits = shortLimits(defined({ volts: nominal, load: amountOf(rail.load, "current"), unregulated }));
  if (ohms >= limits.doubt) return undefined;
  const reference: Reference = {
    kind: "physics",
    of: "a rail that is not shorted",
    low: limits.short,
    unit: "ohm",
    source: limits.source,
  };
  const isShort = ohms < limits.short;
  const limit = round(isShort ? limits.short : limits.doubt, "ohm");
  return {
    reading,
    verdict: isShort ? "out-of-limits" : "suspect",
    side: "high",
    code: CODE,
    reference,
    uncertainty,
    formula: `${formatValue(Math.abs(volts), "V")} / ${formatValue(value, "A")} = ${round(ohms, "ohm")}, below ${limit}`,
    says: {
      fact: `${rail.name} draws ${reading.value.typed} at only ${formatValue(Math.abs(volts), "V")}, like ${round(ohms, "ohm")}; below ${limit} is ${isShort ? "a short" : "doubtful"}.`,
      ...(isShort
        ? {
            cause: "A short pulls it down.",
            step: "Switch off. Read its resistance to ground, then lift the parts on it one by one.",
          }
        : {
            cause: "A short, or a supply too weak or limited too low for the board.",
            step: "Switch off and read its resistance to ground.",
          }),
    },
  };
}

/** "current limit 1 A" in the heading or the note. */
function limitSaid(reading: Reading): number | undefined {
  const { table, subject } = reading;
  // A column of its own says it best.
  const own = besides(reading, "limit");
  const set = own && single(own.value);
  if (set !== undefined && set > 0) return set;
  for (const text of [subject.note?.text, table.section.heading?.text]) {
    const typed = /\blimit(?:ed|er)?\b[^\d|]{0,12}(\d+(?:[.,]\d+)?\s*m?A)\b/i.exec(text ?? "")?.[1];
    const parsed = typed === undefined ? undefined : parseQuantity(typed);
    if (parsed?.ok && parsed.quantity.value > 0) return parsed.quantity.value;
  }
  return undefined;
}

function atLimit(
  reading: Reading,
  rail: Rail,
  { value }: MeasuredReading,
  _ctx: LogContext,
): Judgement | undefined {
  const limit = limitSaid(reading);
  if (limit === undefined || value < AT_LIMIT * limit) return undefined;
  return {
    reading,
    verdict: "suspect",
    side: "high",
    code: CODE,
    reference: {
      kind: "physics",
      of: "the supply's current limit",
      high: limit,
      unit: "A",
      source: "this log",
    },
    formula: `${formatValue(value, "A")} ≥ ${formatValue(limit, "A")}`,
    says: {
      fact: `${rail.name} draws ${reading.value.typed}, all that the current limit of ${formatValue(limit, "A")} allows.`,
      cause: "The board needs more, or something is shorted.",
      step: "Switch off and read its resistance to ground before you raise the limit.",
    },
  };
}

function againstLoad(
  reading: Reading,
  rail: Rail,
  { value, uncertainty }: MeasuredReading,
): Judgement | undefined {
  const load = amountOf(rail.load, "current");
  if (load === undefined || load <= 0) return undefined;
  const source = rail.source ?? "the board file";
  const usual = `the ${formatValue(load, "A")} it usually carries`;
  const high = value > TIMES.doubt * load;
  const low = value < TIMES.few * load && saidLoad(reading) !== "unloaded";
  if (!high && !low) return undefined;
  const reference: Reference = {
    kind: "board",
    of: `the usual load of ${rail.name}`,
    low: TIMES.few * load,
    high: TIMES.doubt * load,
    unit: "A",
    source: `${source}; ${PRACTICE}`,
  };
  return told(
    reading,
    rail,
    usual,
    high,
    high ? value > TIMES.most * load : value < TIMES.least * load,
    reference,
    {
      value,
      uncertainty,
    },
  );
}

function againstChips(
  reading: Reading,
  rail: Rail,
  { value, uncertainty }: MeasuredReading,
  ctx: LogContext,
): Judgement | undefined {
  const board = ctx.board?.value;
  const net = board && rail.net !== undefined ? board.nets.get(rail.net) : undefined;
  if (!board || !net) return undefined;
  let least = 0;
  let most = 0;
  let known = 0;
  for (const ref of new Set(net.pins.map((pin) => pin.ref))) {
    const { device, family } = partTestPoint(ref, board, ctx.library);
    const draws = device && supplyCurrentOf(device.kind, family?.id);
    if (!draws) continue;
    known += 1;
    least += draws.least;
    most += draws.most;
  }
  if (known === 0) return undefined;
  const isWhole = hasBoardFile(ctx) && known >= FEWEST_CHIPS;
  const low = value < TIMES_CHIPS.least * least && saidLoad(reading) !== "unloaded";
  const high = isWhole && value > TIMES_CHIPS.doubt * most;
  if (!low && !high) return undefined;
  const chips = known === 1 ? "the chip known" : `the ${known} chips known`;
  const usual = `the ${round(low ? least : most, "A")} ${chips} on it draw at ${low ? "least" : "most"}`;
  const reference: Reference = {
    kind: "family",
    of: `what ${chips} on ${rail.name} draw`,
    low: TIMES_CHIPS.least * least,
    ...(isWhole ? { high: TIMES_CHIPS.doubt * most } : {}),
    unit: "A",
    source: "supply currents of their families, from memory",
  };
  return told(reading, rail, usual, high, !high || value > TIMES_CHIPS.most * most, reference, {
    value,
    uncertainty,
  });
}

function told(
  reading: Reading,
  rail: Rail,
  usual: string,
  high: boolean,
  isOut: boolean,
  reference: Reference,
  { value, uncertainty }: MeasuredReading,
): Judgement {
  return {
    reading,
    verdict: isOut ? "out-of-limits" : "suspect",
    side: high ? "high" : "low",
    code: CODE,
    reference,
    uncertainty,
    formula: `${formatValue(value, "A")} ${high ? ">" : "<"} ${round((high ? reference.high : reference.low) ?? 0, "A")}`,
    says: {
      fact: `${rail.name} draws ${reading.value.typed}, far ${high ? "more" : "less"} than ${usual}.`,
      ...(high
        ? {
            cause: "Something on it is shorted or latched up.",
            step: "Switch off, feel what gets warm, and read its resistance to ground.",
          }
        : {
            cause: "It does not reach them.",
            step: "Follow it from the connector through fuse, link and track to the chips' own pins.",
          }),
    },
  };
}

const round = (value: number, unit: string): string => formatValue(Number(value.toPrecision(2)), unit);
