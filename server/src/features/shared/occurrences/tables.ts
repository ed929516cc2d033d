import type { LogContext } from "../../../judge/context";
import type { Library } from "../../../knowledge/library";
import type { LogTable, Reading } from "../../../log/model";
import { refIn } from "../part-name";
import { pinOccurrenceKey, tellsOf, testPointAtPin, thingKeys } from "./keys";
import type { Occurrence } from "./occurrence";

/** The pins and the readings of a table; what else its cells name are mentions like those in words. */
export function tableOccurrences(table: LogTable, ctx: LogContext): Occurrence[] {
  return [...pinsOf(table, ctx), ...table.readings.map((reading) => readingOccurrence(reading, ctx))];
}

function* pinsOf(table: LogTable, ctx: LogContext): Generator<Occurrence> {
  const overColumns = refsOver(table, ctx.library);
  for (const { ref, pin } of table.rows.map(({ cells }) => cells)) {
    if (!pin) continue;
    const places = (ref ? [ref.text] : overColumns).map((each) => testPointAtPin(each, pin.text, ctx));
    yield {
      kind: "pin",
      span: pin.span,
      keys: places.map(pinOccurrenceKey),
      // In a wide table a row is that pin of every chip: its net is no one net.
      tells: places.length === 1 ? places.flatMap(tellsOf) : [],
      done: false,
      aside: false,
    };
  }
}

/** The designators over the columns of a wide table. */
export const refsOver = ({ shape, procedure, columns }: LogTable, library: Library): string[] =>
  shape === "wide" && procedure.wide?.columns === "ref"
    ? columns
        .slice(1)
        .flatMap(({ header, spec }) => (spec || header.text === "" ? [] : [refIn(header, library).text]))
    : [];

function readingOccurrence(reading: Reading, ctx: LogContext): Occurrence {
  const { ref, pin, rail, signal } = reading.subject;
  const at = ref && pin ? testPointAtPin(ref.text, pin.text, ctx) : undefined;
  const thing = rail
    ? ({ kind: "rails", name: rail.text } as const)
    : signal
      ? ({ kind: "nets", name: signal.text } as const)
      : ref && ({ kind: "parts", name: ref.text } as const);
  return {
    kind: "reading",
    span: reading.cell.span,
    keys: at ? [pinOccurrenceKey(at)] : thing ? thingKeys(thing, ctx) : [],
    tells: at ? tellsOf(at) : [],
    done: reading.value.kind !== "empty",
    aside: false,
    reading,
  };
}
