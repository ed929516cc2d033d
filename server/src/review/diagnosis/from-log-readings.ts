import type { WithinLimits } from "../../compute/diagnosis/types";
import { type Judgement, judgeBlock } from "../../judge";
import { extentOf } from "../../judge/compare";
import { contextAt, type LogContext } from "../../judge/context";
import { isolationOf } from "../../judge/nets/isolation";
import { partPlace, pinName, placeName } from "../../judge/place";
import type { Device } from "../../knowledge/types";
import type { Apart } from "../../log/apart";
import type { LogBlock, LogTable, Reading } from "../../log/model";
import { gateObservations, netObservations } from "./from-log-compared";
import { isolatedPin } from "./from-log-isolated";
import { memoryObservations } from "./from-log-memory";
import { railFinding } from "./from-log-rails";
import type { Observation } from "./observation";

interface Observed {
  readonly ctx: LogContext;
  readonly left: string;
  readonly all: readonly Observation[];
}

const observed = new WeakMap<LogBlock, Observed>();

/**
 * Computed once for a block, a context and what the work before it left off; none without a board.
 * @param offAt what a table's readings were taken without, besides what the table says of it
 */
export function observationsOf(
  block: LogBlock,
  whole: LogContext,
  offAt: (table: LogTable) => readonly Apart[] = () => [],
): readonly Observation[] {
  const ctx = contextAt(block, whole);
  const known = observed.get(block);
  const left = JSON.stringify(block.tables.map(offAt));
  if (known?.ctx === ctx && known.left === left) return known.all;
  const all = ctx.board ? observe(block, ctx, offAt) : [];
  observed.set(block, { ctx, left, all });
  return all;
}

function observe(
  block: LogBlock,
  ctx: LogContext,
  offAt: (table: LogTable) => readonly Apart[],
): Observation[] {
  const judgements = judgeBlock(block, ctx);
  const found: Observation[] = [];
  for (const table of block.tables) {
    const parts = new Map<string, Observation>();
    for (const reading of table.readings) {
      const judgement = judgements.get(reading);
      if (!judgement) continue;
      const one = fromReading(reading, judgement, ctx, offAt(table));
      if (one) addTo(found, parts, one);
    }
    found.push(...memoryObservations(table, ctx), ...netObservations(table, judgements, ctx));
  }
  found.push(...gateObservations(block, ctx));
  return found;
}

/** What was measured of one part in one row is one fact: a shorted transistor shorts all its junctions. */
function addTo(found: Observation[], parts: Map<string, Observation>, one: Observation): void {
  if (one.finding?.kind !== "part") {
    found.push(one);
    return;
  }
  const before = parts.get(one.key);
  if (before?.finding?.kind !== "part") {
    parts.set(one.key, one);
    found.push(one);
    return;
  }
  const worst = before.finding.verdict === "out-of-limits" ? before.finding : one.finding;
  const merged: Observation = {
    ...before,
    finding: { ...worst, says: `${before.finding.says} ${one.finding.says}` },
  };
  parts.set(one.key, merged);
  found[found.indexOf(before)] = merged;
}

function fromReading(
  reading: Reading,
  judgement: Judgement,
  ctx: LogContext,
  before: readonly Apart[],
): Observation | undefined {
  const { verdict } = judgement;
  const procedure = reading.table.procedure.id;
  if (procedure === "inspection") return seen(reading, ctx);
  if (verdict !== "out-of-limits" && verdict !== "suspect" && verdict !== "within-limits") return undefined;
  switch (procedure) {
    case "diode-check":
      return atPin(reading, judgement, true, ctx, before);
    case "logic-levels":
    case "frequency":
    case "reset-timing":
      return atPin(reading, judgement, false, ctx, before);
    case "transistor-junctions":
    case "resistance":
    case "capacitance-esr":
      return ofPart(reading, judgement, ctx);
    case "logic-states":
      return atPowerPin(reading, judgement);
    case "supply-rails":
    case "resistance-to-ground":
    case "soak":
      return judgement.place?.pin && !reading.subject.rail
        ? besidesRails(reading, judgement, ctx, before)
        : railFinding(reading, judgement, ctx);
    default:
      // Coils hang on the board and are no part of it; results have no limits.
      return undefined;
  }
}

/** A pin read among the rails: that of a regulator, or one whose resistance to ground was measured. */
function besidesRails(
  reading: Reading,
  judgement: Judgement,
  ctx: LogContext,
  before: readonly Apart[],
): Observation | undefined {
  const { place } = judgement;
  if (reading.table.procedure.id === "resistance-to-ground")
    return atPin(reading, judgement, true, ctx, before);
  if (place?.pin?.direction === "output") return ofPart(reading, judgement, ctx);
  return atPowerPin(reading, judgement) ?? railFinding(reading, judgement, ctx);
}

/** A chip that is not fed does nothing right: its supply or ground pin stands for its joints, and for the chip. */
function atPowerPin(reading: Reading, { place, verdict }: Judgement): Observation | undefined {
  const { pin, part } = place ?? {};
  if (!place || !part || !pin || verdict !== "out-of-limits") return undefined;
  if (pin.direction !== "ground" && pin.direction !== "supply") return undefined;
  const { ref } = part;
  return {
    finding: { kind: "pin", ref, pin: pin.number, verdict: "suspect", powered: true },
    key: `power ${ref}.${pin.number}`.toUpperCase(),
    what: placeName(place),
    table: reading.table,
    span: reading.cell.span,
    refs: [ref.toUpperCase()],
  };
}

type Told = Pick<Observation, "finding" | "within">;

function atPin(
  reading: Reading,
  judgement: Judgement,
  unpowered: boolean,
  ctx: LogContext,
  before: readonly Apart[],
): Observation | undefined {
  const place = judgement.place;
  const pin = place && pinName(place);
  if (!place?.part || pin === undefined) return undefined;
  const { ref } = place.part;
  const { verdict } = judgement;
  // A supply pin's level is its rail's, which has a table of its own.
  if (!unpowered && place.tiedTo) return undefined;
  const direction = unpowered ? judgement.side : undefined;
  const isolation = isolationOf(reading, place, ctx.board?.value, before);
  if (isolation) return isolatedPin(judgement, isolation, unpowered, direction);
  const told: Told =
    verdict === "within-limits"
      ? { within: unpowered ? [{ ref, pin }] : [] }
      : {
          finding: {
            kind: "pin",
            ref,
            pin,
            // A powered reading out of limits may come from anywhere before this pin.
            verdict: unpowered && verdict === "out-of-limits" ? "out-of-limits" : "suspect",
            ...(direction ? { direction } : {}),
            ...(unpowered ? {} : { powered: true }),
          },
        };
  return {
    ...told,
    key: `${reading.table.procedure.id} ${ref}.${pin} ${reading.measure}`.toUpperCase(),
    what: placeName(place),
    table: reading.table,
    span: reading.cell.span,
    refs: [ref.toUpperCase()],
    ...(direction !== "high" && place.net && !place.tiedTo ? { net: place.net.name } : {}),
  };
}

/** A junction below this conducts both ways; volts, common practice, no source. */
const SHORT = 0.1;

function ofPart(reading: Reading, judgement: Judgement, ctx: LogContext): Observation | undefined {
  const at =
    judgement.place ??
    (reading.subject.ref && partPlace(reading.subject.ref.text, ctx.board?.value, ctx.library));
  if (!at?.part) return undefined;
  const { ref } = at.part;
  const { verdict, formula } = judgement;
  const id = reading.table.procedure.id;
  const of = `${ref}'s ${id === "transistor-junctions" ? "junctions" : reading.measure}`;
  // Junctions have no window to be below; one that reads a short may be what lies across it. A part held against its own
  // value in place is found wrong only on the side that nothing across it can cause.
  const short = id === "transistor-junctions" && (extentOf(reading.value)?.high ?? 1) < SHORT;
  const direction = judgement.reference ? judgement.side : short ? "low" : undefined;
  const told: Told =
    verdict === "within-limits"
      ? { within: pinsOf(ref, at.device, ctx) }
      : {
          finding: {
            kind: "part",
            ref,
            verdict: verdict === "suspect" ? "suspect" : "out-of-limits",
            ...(direction ? { direction } : {}),
            of,
            says: `${ref} (${reading.measure}): ${formula ?? reading.value.typed}.`,
          },
        };
  return {
    ...told,
    // A transistor's junctions are read together, so that a later row takes the place of an earlier one whole.
    key: `${id} ${ref} ${id === "transistor-junctions" ? "" : reading.measure}`.toUpperCase(),
    what: of,
    table: reading.table,
    span: reading.cell.span,
    refs: [ref.toUpperCase()],
  };
}

const pinsOf = (ref: string, device: Device | undefined, ctx: LogContext): WithinLimits[] => {
  const named = device ? [...device.pins.keys()] : [];
  const onNets = [...(ctx.board?.value.nets.values() ?? [])].flatMap(({ pins }) =>
    pins.filter((pin) => pin.ref === ref).map(({ pin }) => pin),
  );
  return [...new Set([...named, ...onNets])].map((pin) => ({ ref, pin }));
};

/** A part that looks wrong. What looks right says nothing. */
function seen(reading: Reading, ctx: LogContext): Observation | undefined {
  const { value, subject, table } = reading;
  if (value.kind !== "result" || value.ok === undefined) return undefined;
  const typed = subject.ref?.text ?? /^\s*([A-Za-z]{1,3}\d{1,4})\b/.exec(subject.item?.text ?? "")?.[1];
  const { part } = typed === undefined ? {} : partPlace(typed, ctx.board?.value, ctx.library);
  if (!part) return undefined;
  const { ref } = part;
  const of = `${ref} by eye`;
  const says = `${ref} was seen to be ${value.word}.`;
  return {
    // What is burnt or leaking is damaged, whatever did it.
    ...(value.ok ? {} : { finding: { kind: "part", ref, verdict: "out-of-limits", of, says } }),
    look: true,
    key: `${table.procedure.id} ${ref}`.toUpperCase(),
    what: of,
    table,
    span: reading.cell.span,
    refs: [ref.toUpperCase()],
  };
}
