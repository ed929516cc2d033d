// What was done and what was fitted, as the tables of work say.
import { defined } from "../../base/defined";
import { boardIndex } from "../../knowledge/board-index";
import { normalPart } from "../../knowledge/part-number";
import type { LogRow, LogTable } from "../../log/model";
import { timelineOf, type WorkRow } from "../../log/timeline";
import { designators } from "../../log/timeline/work";
import { fittedParts } from "../../review/parts/fitted";
import type { DoneItem, FittedItem, ReportSource } from "./model";
import { partDescription, wholeCell } from "./places";

/** As typed, what was tried and put back with it: it was done, and the words of its row say what became of it. */
export function doneIn(source: ReportSource): readonly DoneItem[] {
  return rowsOf(source, "work").flatMap(({ table, row, state }) => {
    const action = wholeCell(table, row, "action");
    const part = wholeCell(table, row, "part");
    const note = wholeCell(table, row, "note");
    const date = wholeCell(table, row, "date");
    if ((!action && !part) || state === "planned") return [];
    // A part that was tried and is out again is not among those that went in.
    const tried = state === "put-back" && part ? `${part} tried, not left in` : undefined;
    return [
      defined({
        where: whereOf(table, row, source),
        action: action ?? (tried === undefined ? "" : "tried another part"),
        date: date || undefined,
        part: (tried === undefined && part) || undefined,
        note: [tried, note].filter(Boolean).join("; ") || undefined,
      }),
    ];
  });
}

/** The tables of parts fitted as typed, then what only the rows of work tell of: the parts list counts both. */
export function fittedIn(source: ReportSource): readonly FittedItem[] {
  const listed = rowsOf(source, "fitted").flatMap(({ table, row }) => {
    const part = wholeCell(table, row, "part");
    if (!part) return [];
    const note = wholeCell(table, row, "note");
    const caution = substituteCaution(part, row.cells.ref?.text, source);
    return [
      defined<FittedItem>({
        part,
        quantity: wholeCell(table, row, "quantity") ?? "",
        where: wholeCell(table, row, "ref") ?? "",
        note: note || undefined,
        caution: caution || undefined,
      }),
    ];
  });
  const told = new Set(
    listed.flatMap(({ part, where }) => designators(where).map((ref) => placeKey(part, ref))),
  );
  const worked = fittedParts(source.doc).flatMap(({ part, refs }): FittedItem[] => {
    const more = refs.filter((ref) => !told.has(placeKey(part, ref)));
    if (more.length === 0) return [];
    const caution = substituteCaution(part, more[0], source);
    return [
      defined({ part, quantity: String(more.length), where: more.join(", "), caution: caution || undefined }),
    ];
  });
  return [...listed, ...worked];
}

const placeKey = (part: string, ref: string): string => `${normalPart(part)}\n${ref}`;

const rowsOf = ({ doc }: ReportSource, wanted: WorkRow["kind"]): readonly WorkRow[] =>
  timelineOf(doc).rows.filter(({ kind }) => kind === wanted);

/** One designator is explained; several stand as typed. */
function whereOf(table: LogTable, row: LogRow, source: ReportSource): string {
  const typed = wholeCell(table, row, "ref") ?? "";
  return /^[A-Z]{1,4}\d{1,4}$/i.test(typed) ? partDescription(typed, source) : typed;
}

/** The library's caution for that part in place of the board's own. */
function substituteCaution(part: string, ref: string | undefined, { ctx }: ReportSource): string | undefined {
  const board = ctx.board?.value;
  const own = ref === undefined || !board ? undefined : boardIndex(board).part(ref)?.device;
  if (own === undefined || own.toUpperCase() === part.toUpperCase()) return undefined;
  const device = ctx.library.device(own)?.device;
  return device?.substitutes.find((other) => other.part.toUpperCase() === part.toUpperCase())?.caution;
}
