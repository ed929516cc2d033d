// What readings say together as findings: each cause once, the pins behind it as its related places.

import { pinText } from "../compute/nets/net-text";
import type { Cause, Count } from "../compute/together/types";
import type { LogContext } from "../judge/context";
import { inJudgedBlocks } from "../judge/in-blocks";
import { pinName, testPointOf } from "../judge/test-point";
import { causesIn, type Explained, type PartOfCause, type TableCause } from "../judge/together";
import type { LogDocument } from "../log/document";
import { isMeasured } from "../log/headers";
import type { LogTable } from "../log/model";
import { formatValue } from "../quantity/format-value";
import { rowAt } from "../syntax/tables";
import type { TextEdit } from "../text/edits";
import type { Saying } from "../text/saying";
import { upperFirst } from "../text/sentence";
import { type Span, shift } from "../text/span";
import type { Draft, Fix, LogInput } from "./check";

type Kind = Cause["kind"];
type CauseOf<K extends Kind> = TableCause & { readonly cause: Extract<Cause, { kind: K }> };

/** What a finding of a common cause carries. Spans are of the file. */
export interface CauseData {
  /** Designators, none for rails. */
  readonly refs: readonly string[];
  /** "U5.3", or the rail's name, in the order of the table. */
  readonly pins: readonly string[];
  /** The readings, and the pin cells, whose own findings it takes the place of. */
  readonly explains: readonly number[];
  /** Readings that can be compared with nothing, since they were not taken as they should be; pins, as in `pins`. */
  readonly spoilt: { readonly places: readonly number[]; readonly pins: readonly string[] };
  readonly edits?: readonly TextEdit[];
  readonly title?: string;
}

/** What a check says of a cause. */
export interface CauseSaying extends Saying {
  /** The edit that puts it right, where one does. */
  readonly fix?: { readonly title: string; readonly edits: readonly TextEdit[] };
}

/** Codes whose findings a comment in the section allows: then nobody asks for their common cause either. */
const EXPLAINED_CODES = new Set(["diode-out-of-window", "rail-out-of-tolerance", "pin-shorted"]);

const causesOfLog = inJudgedBlocks((block, ctx) => {
  if (block.suppressions.some(({ code }) => EXPLAINED_CODES.has(code))) return undefined;
  const causes = causesIn(block, ctx);
  return causes.length === 0 ? undefined : causes;
});

/** One finding for each cause of these kinds. `words` gives undefined where another check tells it. */
export function* fromCauses<K extends Kind>(
  { doc, ctx }: Pick<LogInput, "doc" | "ctx">,
  kinds: readonly K[],
  words: (cause: CauseOf<K>, start: number, doc: LogDocument) => CauseSaying | undefined,
): Iterable<Draft> {
  for (const { start, found } of causesOfLog(doc, ctx)) {
    for (const one of found) {
      if (!isOneOf(one, kinds)) continue;
      const told = words(one, start, doc);
      if (told) yield draft(one, told, start, doc.uri, ctx);
    }
  }
}

const isOneOf = <K extends Kind>(one: TableCause, kinds: readonly K[]): one is CauseOf<K> =>
  (kinds as readonly Kind[]).includes(one.cause.kind);

function draft(
  { cause, parts, clear }: TableCause,
  { fix, ...says }: CauseSaying,
  start: number,
  uri: string,
  ctx: LogContext,
): Draft {
  const explained = parts.flatMap((part) => part.explained);
  const [first] = explained;
  const at = (span: Span): Span => shift(span, start);
  const spoilt = cause.kind === "dead" ? [] : parts.flatMap((part) => part.places);
  const data: CauseData = {
    refs: parts.flatMap(({ ref }) => ref ?? []),
    pins: explained.flatMap((one) =>
      one.ref && one.pin ? pinText({ ref: one.ref, pin: one.pin }) : nameOf(one),
    ),
    explains: explained.flatMap(({ reading }) => [
      at(reading.cell.span).start,
      // A wide table's pin cell is of all its chips.
      ...(reading.table.shape === "long" && reading.subject.pin ? [at(reading.subject.pin.span).start] : []),
    ]),
    spoilt: {
      places: spoilt.map((one) => one.at + start),
      pins: spoilt.flatMap(({ subject }) => {
        const place = testPointOf(subject, ctx);
        const pin = place && pinName(place);
        return place && pin !== undefined ? [pinText({ ref: place.ref, pin })] : [];
      }),
    },
    ...(fix ? { edits: fix.edits, title: fix.title } : {}),
  };
  const [only] = parts;
  return {
    span: at(first?.reading.cell.span ?? { start: 0, end: 0 }),
    ...says,
    ...(clear ? {} : { severity: "information" as const }),
    related: explained.map((one) => ({
      uri,
      span: at(one.reading.cell.span),
      message: `${nameOf(one)} reads ${one.reading.value.typed}`,
    })),
    data,
    ...(parts.length === 1 && only?.ref && ctx.stated ? { restsOn: only.ref } : {}),
  };
}

const nameOf = ({ ref, pin, reading }: Explained): string =>
  ref && pin ? `${ref} pin ${pin}` : (reading.subject.rail?.text ?? "this");

/** The fix that a finding of a cause carries, if any. */
export function fixOf({ data }: { readonly data?: unknown }): readonly Fix[] {
  const { edits, title } = (data ?? {}) as Partial<CauseData>;
  return edits && title ? [{ title, edits, preferred: true }] : [];
}

const COUNTED: { readonly [Way in Exclude<Count["way"], "further-on">]: string } = {
  reversed: "from the other end",
  turned: "from the opposite corner",
  "second-row-down": "up the second row instead of down",
  "rows-backward": "from the other end of each row",
  across: "round the chip instead of from side to side",
};

/** Behind "with the pins counted". */
export const countWords = (count: Count): string =>
  count.way === "further-on" ? `from pin ${count.by + 1} on` : COUNTED[count.way];

/** A sentence for what fits as well; undefined where nothing does. */
export const orWords = (or: Cause | undefined): string | undefined =>
  or?.kind === "counted"
    ? `Pins counted ${countWords(or.by)} would fit as well.`
    : or?.kind === "shifted"
      ? `A column one row too ${or.by === 1 ? "high" : "low"} would fit as well.`
      : undefined;

/** "U5", "U5 and U6", "U5, U6 and U9". */
export const listInWords = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? "") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;

/** "U5 and U6", or "the rails" where the parts have no designators. */
export const refsOfParts = (parts: readonly PartOfCause[]): string =>
  listInWords(parts.flatMap(({ ref }) => ref ?? [])) || "the rails";

/** The same at the beginning of a sentence. */
export const partsFirst = (parts: readonly PartOfCause[]): string => upperFirst(refsOfParts(parts));

export const total = (parts: readonly PartOfCause[], of: (part: PartOfCause) => number): number =>
  parts.reduce((sum, part) => sum + of(part), 0);

/** "0.201 V to 0.205 V", or one of them where they are the same; undefined where none is a figure. */
export function figures(values: readonly number[], unit: string): string | undefined {
  const known = values.filter((value) => Number.isFinite(value));
  if (known.length === 0) return undefined;
  const [low, high] = [formatValue(Math.min(...known), unit), formatValue(Math.max(...known), unit)];
  return low === high ? low : `${low} to ${high}`;
}

/**
 * The edits that put what stands in each row of the parts where it belongs, its note with it; none where a part would
 * lose a reading. Every cell keeps its width where what comes in has room.
 */
export function movedRows(
  parts: readonly PartOfCause[],
  table: LogTable,
  start: number,
  text: string,
): TextEdit[] {
  const edits: TextEdit[] = [];
  for (const { readings, meant } of parts) {
    if (!meant) return [];
    const rows = readings.map(({ row, cell }) =>
      cellsToMove(table, row, rowAt(table.source, row)?.cells.indexOf(cell) ?? -1),
    );
    meant.forEach((to, from) => {
      if (to === from) return;
      rows[from]?.forEach((cell, i) => {
        const target = rows[to]?.[i];
        if (!target) return;
        const content = text.slice(start + cell.span.start, start + cell.span.end);
        const { outer } = target;
        edits.push({
          span: shift(outer, start),
          newText: ` ${content} `.padEnd(outer.end - outer.start),
        });
      });
    });
  }
  return edits;
}

/** The reading itself, and in a table of one reading a row all else that was read or noted there. */
function cellsToMove(table: LogTable, row: number, at: number) {
  const cells = rowAt(table.source, row)?.cells ?? [];
  if (table.shape === "wide") return cells[at] ? [cells[at]] : [];
  return table.columns.flatMap(({ spec }, i) => {
    const cell = cells[i];
    return spec && cell && (isMeasured(spec.role) || spec.role === "note") ? [cell] : [];
  });
}
