// What one cause explains of a table, as the diagnosis takes it: one observation in place of those of its pins.

import { defined } from "../../../base/defined";
import type { DiagnosisFinding } from "../../../compute/diagnosis/types";
import type { Cause } from "../../../compute/together/types";
import type { LogContext } from "../../../judge/context";
import { pinName, testPointOf } from "../../../judge/test-point";
import type { PartOfCause, TableCause } from "../../../judge/together";
import type { Reading } from "../../../log/model";
import type { Observation } from "../observation";
import { FROM_WRONG_END } from "./whole-table";

/** The observations of a block with those that a cause explains taken out, and the causes put in. */
export function withTableCauses(
  found: readonly Observation[],
  causes: readonly TableCause[],
  ctx: LogContext,
): Observation[] {
  if (causes.length === 0) return [...found];
  // What was measured wrong says nothing at all; a dead chip's own pins say one thing.
  const gone = new Set<number>();
  for (const { cause, parts } of causes)
    for (const part of parts)
      for (const reading of cause.kind === "dead" ? part.explained.map((one) => one.reading) : part.readings)
        gone.add(reading.cell.span.start);
  const tables = new Set(causes.map(({ table }) => table));
  return [
    ...found.filter(({ span, table }) => !(tables.has(table) && gone.has(span.start))),
    ...causes.flatMap((cause) => observationOf(cause, ctx) ?? []),
  ];
}

function observationOf(one: TableCause, ctx: LogContext): Observation | undefined {
  const { cause, table, parts } = one;
  const [first] = parts;
  const at = first?.explained[0]?.reading;
  if (!first || !at) return undefined;
  const refs = parts.flatMap(({ ref }) => ref ?? []);
  const dead = cause.kind === "dead" && first.ref !== undefined ? chipFinding(first, first.ref) : undefined;
  const finding = dead ?? tableFinding(cause, parts, refs);
  return defined({
    key: `${dead ? "chip" : "table"} ${table.procedure.id} ${refs.join(" ")}`.toUpperCase(),
    what: dead ? `the pins of ${refs.join(", ")} together` : of(refs),
    table,
    span: at.cell.span,
    refs: dead ? refs.map((ref) => ref.toUpperCase()) : [],
    covers: parts.flatMap(({ readings }) => readings.flatMap((reading) => keyOf(reading, ctx) ?? [])),
    finding,
  });
}

/** As a pin that was read by itself has it. */
function keyOf(reading: Reading, ctx: LogContext): string | undefined {
  const place = testPointOf(reading.subject, ctx);
  const pin = place && pinName(place);
  return pin === undefined
    ? undefined
    : `${reading.table.procedure.id} ${place?.ref}.${pin} ${reading.measure}`.toUpperCase();
}

function chipFinding({ explained, ground, supply, signals }: PartOfCause, ref: string): DiagnosisFinding {
  const power = [ground, supply].flatMap((one) => (one?.pin === undefined ? [] : one.pin));
  const pins = explained.flatMap(({ pin }) => (pin === undefined || power.includes(pin) ? [] : pin));
  const says = `${ref} as a whole: ${pins.length} of ${signals} signal pins read wrong.`;
  return { kind: "chip", ref, pins, power, says };
}

const of = (refs: readonly string[]): string =>
  refs.length === 0 ? "the rails" : `the pins of ${refs.join(", ")}`;

function tableFinding(
  cause: Cause,
  parts: readonly PartOfCause[],
  refs: readonly string[],
): DiagnosisFinding {
  const all = parts.reduce((sum, part) => sum + part.of, 0);
  const fits = parts.reduce((sum, part) => sum + part.fits, 0);
  const whose = refs.length === 0 ? "the rails" : refs.join(", ");
  const [what, again, mistake] = wordsOf(cause, whose, pinsOf(parts));
  const rails = parts.flatMap(({ explained }) =>
    explained.flatMap(({ reading }) => reading.subject.rail?.text ?? []),
  );
  return defined({
    kind: "table" as const,
    refs: refs.length > 0 ? refs : [...new Set(rails)],
    of: of(refs),
    mistake,
    says: `${fits} of ${all} readings of ${whose} fit ${what}.`,
    again,
    orBoard: cause.kind === "open" || (cause.kind === "swapped" && cause.shows === "blocking") || undefined,
  });
}

const isOneOff = (by: number, pins: number): boolean => by === 1 || (pins > 0 && by === pins - 1);

/** The highest pin that is read or meant; nought where none has a number. */
const pinsOf = (parts: readonly PartOfCause[]): number =>
  Math.max(
    0,
    ...parts.flatMap(({ readings }) => readings.flatMap(({ subject }) => Number(subject.pin?.text) || 0)),
  );

/** What the readings fit, what to do, and what went wrong. */
function wordsOf(
  cause: Cause,
  whose: string,
  pins: number,
): readonly [fit: string, again: string, mistake: string] {
  const onGround = `Measure ${whose} again with the lead on ground`;
  switch (cause.kind) {
    case "open":
      return ["a lead that was not on ground", onGround, "the lead was off ground"];
    case "lead-on-pin":
      return [`a lead on pin ${cause.pin}`, onGround, `the lead was off ground, on pin ${cause.pin}`];
    case "swapped":
      return ["swapped leads", `Swap the leads and measure ${whose} again`, "the leads were reversed"];
    case "counted":
      // From the pin beside: whoever wrote it down may have been a row off as well.
      if (cause.by.way === "further-on" && cause.by.by !== undefined && isOneOff(cause.by.by, pins))
        return [
          "one pin further",
          `Find pin 1 of ${whose}, and read two pins of it again`,
          "the column was shifted by a row, or the pins were counted from the one beside",
        ];
      return [
        "pins counted another way",
        `Find pin 1 of ${whose}, then move the readings or take them again`,
        FROM_WRONG_END,
      ];
    case "shifted":
      return [
        "one row further",
        `Move the column of ${whose} by one row, or read it again`,
        "the column was shifted by a row",
      ];
    case "scale":
      return [
        "another unit",
        `Write the unit beside the readings of ${whose}`,
        "the meter was on another range, or the unit is",
      ];
    default:
      return [
        "the meter or its leads, and no fault of the board",
        `Check the meter's range, leads and battery, discharge the board, and measure ${whose} again`,
        "the meter's range or its lead, or the board was still charged",
      ];
  }
}
