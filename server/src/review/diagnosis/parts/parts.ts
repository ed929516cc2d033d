// A part that was measured or looked at by itself, as the diagnosis takes it.

import { defined } from "../../../base/defined";
import type { DiagnosisFinding, WithinLimits } from "../../../compute/diagnosis/types";
import type { Judgement } from "../../../judge";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { partTestPoint } from "../../../judge/test-point";
import type { Device } from "../../../knowledge/types";
import type { LogTable, Reading } from "../../../log/model";
import { looksCorroded } from "../../parts/corrosion";
import type { Observation } from "../observation";
import { isCell } from "./cell-gone";

type Told = Pick<Observation, "finding" | "within">;

/** A junction below this conducts both ways; volts, common practice, no source. */
const SHORT = 0.1;

/** What was measured of a part, or of the junctions of a transistor as one thing. */
export function ofPart(
  reading: Reading,
  judgement: Judgement,
  ctx: LogContext,
  what: "part" | "junctions" = "part",
  side?: "low",
): Observation | undefined {
  const at =
    judgement.place ??
    (reading.subject.ref && partTestPoint(reading.subject.ref.text, ctx.board?.value, ctx.library));
  if (!at?.part) return undefined;
  const { ref } = at.part;
  const { verdict, formula } = judgement;
  const areJunctions = what === "junctions";
  const of = `${ref}'s ${areJunctions ? "junctions" : reading.measure}`;
  // Junctions have no window to be below; one that reads a short may be what lies across it. A part held against its own
  // value in place is found wrong only on the side that nothing across it can cause.
  const short = areJunctions && (extentOf(reading.value)?.high ?? 1) < SHORT;
  const direction = side ?? (judgement.reference ? judgement.side : short ? "low" : undefined);
  const told: Told =
    verdict === "suspect" && isInside(reading, judgement)
      ? {}
      : verdict === "within-limits"
        ? { within: pinsOf(ref, at.device, ctx) }
        : {
            finding: defined({
              kind: "part",
              ref,
              verdict: verdict === "suspect" ? "suspect" : "out-of-limits",
              direction,
              of,
              says: `${ref} (${reading.measure}): ${formula ?? reading.value.typed}.`,
            }),
          };
  return {
    ...told,
    // A transistor's junctions are read together, so that a later row takes the place of an earlier one whole.
    key: `${reading.table.procedure.id} ${ref} ${areJunctions ? "" : reading.measure} ${reading.subject.pin?.text ?? ""}`
      .trim()
      .toUpperCase(),
    what: of,
    table: reading.table,
    span: reading.cell.span,
    refs: [ref.toUpperCase()],
  };
}

/** The figure is right, and only the meter leaves it open: that accuses nobody. */
function isInside({ value }: Reading, { reference }: Judgement): boolean {
  const extent = extentOf(value);
  return (
    extent !== undefined &&
    reference?.low !== undefined &&
    reference.high !== undefined &&
    extent.low >= reference.low &&
    extent.high <= reference.high
  );
}

/** A diode of a bridge the way it conducts, or two behind each other; volts, common practice, no source. */
const BRIDGE = { least: 0.3, most: 1.4, rows: 2 } as const;

/** The diodes of a bridge one by one, for which no sheet has a window: sound as far as a meter tells, or one that is not. */
export function bridgesObserved(table: LogTable, ctx: LogContext): Observation[] {
  const rows = new Map<string, Reading[]>();
  for (const reading of table.readings) {
    if (reading.measure !== "forward" && reading.measure !== "reverse") continue;
    const { part } = reading.subject.ref
      ? partTestPoint(reading.subject.ref.text, ctx.board?.value, ctx.library)
      : {};
    if (part && /^(?:BR|DB)\d/i.test(part.ref)) rows.set(part.ref, [...(rows.get(part.ref) ?? []), reading]);
  }
  return [...rows].flatMap(([ref, readings]): Observation[] => {
    const told = readings.filter(({ value }) => value.kind !== "empty");
    const volts = ({ value }: Reading) =>
      extentOf(value) ?? { low: Infinity, high: value.kind === "short" ? 0 : Infinity };
    const conducts = (one: Reading): boolean =>
      volts(one).high >= BRIDGE.least && volts(one).low <= BRIDGE.most;
    // With the leads the other way round it conducts in the other column.
    const bad = told.find(
      (one) =>
        volts(one).high < BRIDGE.least ||
        (one.measure === "forward" && !told.some((other) => other.row === one.row && conducts(other))),
    );
    const at = bad ?? told[0];
    const forward = told.filter(({ measure }) => measure === "forward");
    if (!at || (!bad && forward.length < BRIDGE.rows)) return [];
    const of = `${ref}'s diodes`;
    return [
      {
        key: `${table.procedure.id} ${ref}`.toUpperCase(),
        what: of,
        table,
        span: at.cell.span,
        refs: [ref.toUpperCase()],
        ...(bad
          ? {
              finding: {
                kind: "part" as const,
                ref,
                verdict: "out-of-limits" as const,
                of,
                says: `One diode of ${ref} reads ${bad.value.typed}.`,
              },
            }
          : { against: [{ ref, by: "said-measured" as const }] }),
      },
    ];
  });
}

const pinsOf = (ref: string, device: Device | undefined, ctx: LogContext): WithinLimits[] => {
  const named = device ? [...device.pins.keys()] : [];
  const onNets = [...(ctx.board?.value.nets.values() ?? [])].flatMap(({ pins }) =>
    pins.filter((pin) => pin.ref === ref).map(({ pin }) => pin),
  );
  return [...new Set([...named, ...onNets])].map((pin) => ({ ref, pin, across: true }));
};

/** What lies on a part, and is not yet in it. */
const SURFACE = /corroded|dirty|lifted/i;

/** What is not the part itself, but holds or feeds it. */
const UNDER = /\b(?:tracks?|traces?|copper|pads?|prints?|vias?|sockets?|joints?|through[- ]holes?)\b/i;
/** What was done about it on the spot. */
const PUT_RIGHT = /\b(?:new|another) (?:socket|one|pads?)\b|\b(?:renewed|replaced|fitted|exchanged)\b/i;
/** What belongs to the machine and no part of the board. */
const LOOM = /\b(?:plugs?|looms?|harness|wiring|cables?|crimps?)\b/i;

function loomSeen(item: string, word: string, { table, cell }: Reading): Observation {
  const of = `the look of ${item}`;
  return {
    key: `${table.procedure.id} ${item}`.toUpperCase(),
    what: of,
    table,
    span: cell.span,
    refs: [],
    look: true,
    finding: {
      kind: "sign",
      sign: "wiring-apart",
      of,
      says: `${item} was seen to be ${word}.`,
      outside: `the wiring in the machine: ${item}`,
    },
  };
}

/** A cell that leaked and is off the board harms nothing any more: what it left behind has findings of its own. */
const TAKEN_OFF =
  /\b(?:out|off|removed|gone)\s+already\b|\balready\s+(?:out|off|removed|gone)\b|\b(?:cut|taken)\s+(?:out|off)\b|^\s*(?:is\s+|was\s+)?(?:removed|out|gone)\b(?!\s+of\b)|,\s*(?:now\s+)?(?:off|out|removed|gone)\s*$/i;
const isCellTakenOff = (ref: string, { subject, value }: Reading): boolean =>
  isCell(ref) && (TAKEN_OFF.test(subject.note?.text ?? "") || TAKEN_OFF.test(value.typed));

/** What was seen in one word; a description that tells of corrosion is that. */
function lookOf({ value }: Reading): { readonly ok: boolean | undefined; readonly word: string } | undefined {
  if (value.kind === "result") return value;
  return value.kind === "text" && looksCorroded(value.text) ? { ok: false, word: "corroded" } : undefined;
}

/** A part that looks wrong. What looks right says nothing. */
export function seen(reading: Reading, ctx: LogContext): Observation | undefined {
  const { subject, table } = reading;
  const value = lookOf(reading);
  if (value?.ok === undefined) return undefined;
  const typed = subject.ref?.text ?? /^\s*([A-Za-z]{1,3}\d{1,4})\b/.exec(subject.item?.text ?? "")?.[1];
  const { part } = typed === undefined ? {} : partTestPoint(typed, ctx.board?.value, ctx.library);
  const item = subject.item?.text ?? "";
  if (!part) return LOOM.test(item) && !value.ok ? loomSeen(item, value.word, reading) : undefined;
  const { ref } = part;
  const of = `${ref}'s inspection`;
  const says = `${ref} was seen to be ${value.word}.`;
  const isUnder = UNDER.test(item) && !UNDER.test(part.value ?? "");
  const isSurface = SURFACE.test(value.word) || isUnder;
  const isMended = isCellTakenOff(ref, reading) || (isUnder && PUT_RIGHT.test(subject.note?.text ?? ""));
  // What is burnt or leaking is damaged, whatever did it.
  const finding = defined<DiagnosisFinding>({
    kind: "part",
    ref,
    verdict: isSurface ? "suspect" : "out-of-limits",
    of,
    says,
    surface: isSurface || undefined,
    under: isUnder || undefined,
  });
  return defined({
    finding: value.ok || isMended ? undefined : finding,
    look: true,
    key: `${table.procedure.id} ${ref}`.toUpperCase(),
    what: of,
    table,
    span: reading.cell.span,
    refs: [ref.toUpperCase()],
  });
}

type TriedPart = Pick<Observation, "what" | "against" | "finding" | "passed">;

/** A part that was tried as a whole, by what came of it. */
const tried =
  (told: (ref: string, isWithin: boolean, typed: string) => TriedPart) =>
  (
    { subject, table, cell, value }: Reading,
    { verdict }: Judgement,
    ctx: LogContext,
  ): Observation | undefined => {
    const { part } = subject.ref ? partTestPoint(subject.ref.text, ctx.board?.value, ctx.library) : {};
    return (
      part && {
        ...told(part.ref, verdict === "within-limits", value.typed),
        key: `${table.procedure.id} ${part.ref}`.toUpperCase(),
        table,
        span: cell.span,
        refs: [part.ref.toUpperCase()],
      }
    );
  };

/** A chip that was tried by itself, off the board: what failed there is the chip, and what passed may still be. */
export const chipTested = tried((ref, isWithin, typed) => {
  const what = `${ref}'s test out of circuit`;
  if (isWithin) return { what, passed: ref };
  const says = `${ref} failed a test out of circuit (${typed}).`;
  return { what, finding: { kind: "sign", sign: "failed-alone", refs: [ref], of: what, says } };
});

/** A part in whose place another was tried: what the other cured was there, and what it did not may still be. */
export const swapped = tried((ref, isWithin, typed) => {
  const what = `the swap of ${ref}`;
  if (isWithin) return { what, against: [{ ref, by: "swap-same" }] };
  const says = `Another part in the place of ${ref} helped (${typed}).`;
  return { what, finding: { kind: "sign", sign: "swap-better", refs: [ref], of: what, says } };
});
