// The cell that a reading is typed into: the one that waits for it, else a new row of the table its pin was read in, else of
// the last table of its kind, else of a table of its own.
import type { NextReading } from "../../compute/diagnosis/next-reading";
import { pinName, testPointOf } from "../../judge/test-point";
import type { ColumnRole, Procedure } from "../../knowledge/types";
import { tablesOf } from "../../log/document";
import { KINDS } from "../../log/kinds";
import type { LogTable, Reading } from "../../log/model";
import type { TextEdit } from "../../text/edits";
import { span } from "../../text/span";
import { openAtEnd } from "../shared/tables/open-end";
import { writeLayout } from "../shared/tables/write";
import { appendRow, lineEndAt } from "../typing";
import type { LogView } from "../view";
import { type ExpectedWords, expectedIn, expectedOf, expectedUnpowered } from "./expect";

export interface GuideCell {
  /** What makes the cell; nothing where it is there. */
  readonly edits: readonly TextEdit[];
  /** Offset at which the reading is typed, after the edits. */
  readonly cursor: number;
}

/** A pin, its cell, and what its row has to say besides. */
export interface GuidedReading {
  readonly ref: string;
  readonly pin: string;
  readonly cell?: GuideCell;
  readonly expected: ExpectedWords;
}

interface Read {
  readonly start: number;
  readonly table: LogTable;
  readonly reading: Reading;
  readonly ref: string;
  readonly pin: string;
  readonly net: string | undefined;
}

/** Undefined for a step that is no reading of one pin, such as the states of a whole gate. */
export function cellFor(view: LogView, next: NextReading): GuidedReading | undefined {
  const all = readingsIn(view).filter(({ table }) => isFor(table, next.live));
  if (next.kind === "pull" || next.kind === "lift") return withPartOff(view, next, all);
  const { ref, pin } = next;
  if (pin === undefined) return undefined;
  const own = all.filter((read) => sameName(read.ref, ref) && sameName(read.pin, pin));
  const open = own.findLast(({ reading }) => reading.value.kind === "empty");
  if (open) return waiting(view, open);
  const table = own.at(-1)?.table ?? lastLong(all);
  const inTable =
    table &&
    newRow(view, table, {
      ref,
      pin,
      // What was read before and is read once more says so: two values of one pin are otherwise taken for a slip.
      remark: own.length > 0 ? "again" : undefined,
    });
  const cell = inTable ?? newTable(view, procedureFor(view, next.live), { ref, pin });
  const expected =
    table && inTable
      ? expectedIn(table, ref, pin, view.ctx)
      : next.live
        ? {}
        : expectedUnpowered(ref, pin, view.ctx);
  return { ref, pin, expected, ...(cell ? { cell } : {}) };
}

/** A cell that is there and empty. */
const waiting = ({ ctx }: LogView, read: Read): GuidedReading => ({
  ref: read.ref,
  pin: read.pin,
  cell: { edits: [], cursor: cursorIn(read) },
  expected: expectedOf(read.reading, ctx),
});

/** With a part off its net the net is read where it was read before. */
function withPartOff(
  view: LogView,
  { ref, net, kind }: NextReading,
  all: readonly Read[],
): GuidedReading | undefined {
  const last = all.findLast((read) => read.net === net && !sameName(read.ref, ref));
  if (!last) return undefined;
  const own = view.ctx.board?.value.nets.get(net ?? "")?.pins.find((pin) => sameName(pin.ref, ref));
  if (kind === "lift" && !own) return undefined;
  const note = kind === "pull" ? `${ref} out` : `${ref} pin ${own?.pin} lifted`;
  const cell = newRow(view, last.table, { ref: last.ref, pin: last.pin, note });
  // With another part off the net it reads otherwise than with all of them on it.
  return { ref: last.ref, pin: last.pin, expected: {}, ...(cell ? { cell } : {}) };
}

const isFor = ({ kind }: LogTable, live: boolean): boolean =>
  kind.observedAs === (live ? "pin-powered" : "pin-unpowered");

const sameName = (a: string, b: string): boolean => a.toUpperCase() === b.toUpperCase();

function readingsIn({ doc, ctx }: LogView): Read[] {
  return [...tablesOf(doc)].flatMap(({ start, table }) =>
    table.readings.flatMap((reading): Read[] => {
      const place = testPointOf(reading.subject, ctx);
      const pin = place && pinName(place);
      return place && pin !== undefined
        ? [{ start, table, reading, ref: place.ref, pin, net: place.net?.name }]
        : [];
    }),
  );
}

/** Behind the blank that pads an empty cell on its left. */
const cursorIn = ({ start, reading: { cell } }: Pick<Read, "start" | "reading">): number =>
  start + cell.span.start;

const lastLong = (all: readonly Read[]): LogTable | undefined =>
  all.findLast(({ table }) => table.shape === "long" && has(table, "ref"))?.table;

const columnOf = ({ columns }: LogTable, role: ColumnRole): number =>
  columns.findIndex(({ spec }) => spec?.role === role);
const has = (table: LogTable, role: ColumnRole): boolean => columnOf(table, role) >= 0;

interface Wanted {
  readonly ref: string;
  readonly pin: string;
  /** Has to be written down for the reading to be what it is. */
  readonly note?: string;
  /** Is written down where there is room for it. */
  readonly remark?: string | undefined;
}

/** A row below the table's last, its reading left open. Undefined where the table cannot say which pin it was. */
function newRow(view: LogView, table: LogTable, { ref, pin, note, remark }: Wanted): GuideCell | undefined {
  if (table.shape !== "long" || !has(table, "pin") || !has(table, "reading")) return undefined;
  if (!has(table, "ref") && (table.section.ref === undefined || !sameName(table.section.ref.text, ref)))
    return undefined;
  if (note !== undefined && !has(table, "note")) return undefined;
  const placed = [...tablesOf(view.doc)].find((each) => each.table === table);
  if (!placed) return undefined;
  const texts: string[] = table.columns.map(() => "");
  const put = (role: ColumnRole, text: string | undefined) => {
    const column = columnOf(table, role);
    if (column >= 0 && text !== undefined) texts[column] = text;
  };
  put("ref", ref);
  put("pin", pin);
  put("note", note ?? remark);
  return appendRow(view, placed.start + table.source.header.span.start, texts, columnOf(table, "reading"));
}

/**
 * Under the heading that waits for it, else at the end of the log.
 * @param again stands behind the heading of a table that is to be apart from those before it
 */
function newTable(
  view: LogView,
  procedure: Procedure | undefined,
  wanted: Wanted,
  again?: string,
): GuideCell | undefined {
  const head = (role: ColumnRole) => procedure?.columns.find((column) => column.role === role)?.headers[0];
  const [ref, pin, note] = [head("ref"), head("pin"), head("note")];
  const reading = head("reading");
  if (!procedure || ref === undefined || pin === undefined || reading === undefined) return undefined;
  const header = [ref, pin, reading, ...(note === undefined ? [] : [note])];
  const row = [wanted.ref, wanted.pin, undefined, ...(note === undefined ? [] : [""])];
  const { plain } = writeLayout({ name: procedure.title, about: "", header, rows: [row] });
  const { text } = view.doc;
  const eol = lineEndAt(text, text.length);
  const empty = again === undefined ? emptySection(view, procedure) : undefined;
  const last = view.doc.blocks.at(-1)?.block.source;
  if (empty === undefined && last && openAtEnd(last)) return undefined;
  const at = empty ?? text.length;
  const gap = /(?:\r?\n){2}$/.test(text.slice(0, at)) ? "" : /\n$/.test(text.slice(0, at)) ? eol : eol + eol;
  const heading = [procedure.title, again].filter(Boolean).join(" ");
  const title = empty === undefined ? `## ${heading}${eol}${eol}` : "";
  const before = `${gap}${title}${plain.slice(0, 2).join(eol)}${eol}`;
  const line = plain[2] ?? "";
  const after = empty === undefined ? eol : `${eol}${eol}`;
  const column = line.split("|").slice(0, 3).join("|").length + 2;
  return {
    edits: [{ span: span(at, at), newText: `${before}${line}${after}` }],
    cursor: at + before.length + column,
  };
}

function procedureFor({ ctx }: LogView, live: boolean): Procedure | undefined {
  const kind = KINDS.find(({ firstOfChip, observedAs, judgedBy }) =>
    live ? observedAs === "pin-powered" && judgedBy === "level" : firstOfChip === true,
  );
  return kind && ctx.library.procedure(kind.id);
}

/** Where a table belongs below a heading of the procedure that has none yet; at its end, before the next heading. */
function emptySection({ doc }: LogView, { id }: Procedure): number | undefined {
  for (const { start, block } of doc.blocks) {
    for (const [index, section] of block.sections.entries()) {
      if (section.procedure?.id !== id || !section.heading) continue;
      if (block.tables.some((table) => table.section === section)) continue;
      const next = block.sections[index + 1]?.heading?.span.start ?? block.source.text.length;
      const own = doc.text.slice(start, start + next);
      return start + own.trimEnd().length;
    }
  }
  return undefined;
}

/** The first reading of a pin that still waits to be taken, from the offset on and then from the top. */
export function firstOpenReading(view: LogView, from: number): GuidedReading | undefined {
  const open = readingsIn(view).filter(({ reading }) => reading.value.kind === "empty");
  const one = open.find((read) => cursorIn(read) >= from) ?? open[0];
  return one && waiting(view, one);
}

/**
 * A reading that was spoilt by how its table was taken is read again: below the table, so that the later reading settles the
 * earlier, pin after pin. Undefined where none of them says which pin it was of, or all were read again.
 * @param places offsets of the spoilt readings, in the order of the log
 */
export function cellForAgain(view: LogView, places: readonly number[]): GuidedReading | undefined {
  const all = readingsIn(view);
  const end = Math.max(...places);
  const spoilt = all.filter((read) => places.includes(read.start + read.reading.cell.span.start));
  const later = all.filter(({ start, table }) => start + table.span.start > end);
  for (const { ref, pin, table } of spoilt) {
    const again = later.filter((read) => sameName(read.ref, ref) && sameName(read.pin, pin));
    const open = again.find(({ reading }) => reading.value.kind === "empty");
    if (open) return waiting(view, open);
    if (again.length > 0) continue;
    const below = lastLong(later.filter((read) => read.table.kind === table.kind));
    const cell =
      (below && newRow(view, below, { ref, pin })) ??
      newTable(view, table.section.procedure ?? table.procedure, { ref, pin }, "again");
    return { ref, pin, expected: expectedIn(table, ref, pin, view.ctx), ...(cell ? { cell } : {}) };
  }
  return undefined;
}
