// The tables in a table. Usually there is one. A chip's two sides stand beside each other, a line of a spreadsheet holds a
// drop, a level and a state, and chips or rails may stand across the top: each is then read as a table of its own, whose
// cells are those of the one that was written.
import { defined } from "../../base/defined";
import type { Library } from "../../knowledge/library";
import type { Procedure } from "../../knowledge/types";
import type { SyntaxBlock } from "../../syntax/block";
import { type Table, wordsOfRows } from "../../syntax/tables";
import { headerWord } from "../header-word";
import { isMeasured, specFor } from "../headers";
import { hasRecord, KINDS, kindOf } from "../kinds";
import type { Section } from "../model";
import type { TableView } from "../read-table";
import { procedureOf } from "../table-kind";
import { type Caption, captionOf } from "./caption";
import { procedureByContent } from "./classify";
import { pivots } from "./pivot";
import { sidesOf } from "./sides";
import { contentOfTable, PIN_WORD, type TableContent } from "./table-content";

/** Each with the section and the procedure it is read by; none where the table is prose. */
export function viewsOf(table: Table, section: Section, block: SyntaxBlock, library: Library): TableView[] {
  const caption = captionOf(table, block, library);
  const own = withOuter(withCaption(section, caption, table), table);
  const heading = procedureOf(table, own, library);
  const words = [section.heading?.text, caption?.text]
    .join(" ")
    .toLowerCase()
    .replace(/[^\p{L}\p{N}+.]+/gu, " ");
  let known: TableContent | undefined;
  const told = (): TableContent => {
    known ??= contentOfTable(table.header, wordsOfRows(table), library, {
      words,
      isAboutOnePart: own.ref !== undefined,
    });
    return known;
  };
  const named =
    heading && measuredBy(heading, table) < 2 && isRefused(heading, told)
      ? (procedureByContent(told(), library) ?? heading)
      : heading;
  const turned = pivots(table, own, named, told, library);
  if (turned.length > 0) return turned;
  return sidesOf(table).flatMap((only): TableView[] => {
    const isOwn = named !== undefined && !hasRecord(named.id);
    const kinds = only || isOwn || isKnownTo(named, table) ? [] : kindsIn(told());
    if (kinds.length > 1) {
      const claimed = kinds.flatMap(({ columns }) => columns);
      return kinds.flatMap(({ id, columns }) => {
        const procedure = library.procedure(id);
        const without = new Set(claimed.filter((at) => !columns.includes(at)));
        return procedure ? [{ table, section: own, procedure, without }] : [];
      });
    }
    const procedure = named ?? procedureByContent(told(), library);
    if (!procedure) return [];
    const byContent = isOwn ? undefined : () => procedureByContent(told(), library);
    return [defined({ table, section: own, procedure, byContent, without: only })];
  });
}

/** Pins with levels or drops, or rails, under a word such as "Clock" or "Display", which was no more than a word of the heading. */
function isRefused({ id }: Procedure, told: () => TableContent): boolean {
  // What a workspace calls by a name of its own is what it says there.
  if (!hasRecord(id)) return false;
  const { refuses, place } = kindOf(id);
  if (refuses) return refuses(told());
  if (
    place !== "part" &&
    place !== "crossing" &&
    place !== "switch" &&
    place !== "item" &&
    place !== "columns"
  )
    return place === "pin" && !gates(id) && told().hasPins && told().states.length > 0;
  const held = told();
  // "Display supply" is of the rails under it.
  if (held.rail && held.volts.length > 0 && held.results.length === 0 && held.states.length === 0)
    return true;
  if (!held.hasPins || held.pin === undefined) return false;
  return held.states.length + held.volts.length > 0 && held.ohms.length === 0;
}

const gates = (id: string): boolean => kindOf(id).gates === true;

/** A table of pins under a heading that names no part is of the part that a heading above it names. */
function withOuter(section: Section, { header }: Table): Section {
  const { outerPart, ref, refs } = section;
  if (ref || refs || !outerPart || !header.cells.some(({ text }) => PIN_WORD.test(headerWord(text))))
    return section;
  return { ...section, ref: outerPart.ref, ...(outerPart.part ? { part: outerPart.part } : {}) };
}

/** The heading's procedure has a word for every column, or for two readings at least. */
function isKnownTo(procedure: Procedure | undefined, table: Table): boolean {
  const specs = procedure ? table.header.cells.map(({ text }) => specFor(procedure, headerWord(text))) : [];
  return (
    specs.length > 0 && (specs.every((spec) => spec) || (procedure ? measuredBy(procedure, table) : 0) > 1)
  );
}

/** Columns of readings that a procedure has words for, each counted once. */
const measuredBy = (procedure: Procedure, { header }: Table): number =>
  new Set(
    header.cells.flatMap(({ text }) => {
      const spec = specFor(procedure, headerWord(text));
      return spec && isMeasured(spec.role) ? [spec] : [];
    }),
  ).size;

/** What stands right above the table counts where the heading names no part, or several. */
function withCaption(section: Section, caption: Caption | undefined, table: Table): Section {
  const part = caption?.part;
  if (!part || namesItsPlaces(table)) return section;
  if (section.ref && (section.ref.text === part.ref.text || !caption.isTitle)) return section;
  const { refs: _refs, part: _part, ...rest } = section;
  return { ...rest, ref: part.ref, ...(part.part ? { part: part.part } : {}) };
}

const PLACE = /^[A-Za-z]{1,4}\d{1,4}\s?[-./]\s?[A-Za-z0-9+]{1,8}$/;

/** "U10.14", "U10.13": each row says whose pin it is, and "J4 unplugged." above it says something else. */
function namesItsPlaces(table: Table): boolean {
  const rows = wordsOfRows(table);
  const named = rows.filter(({ cells: [first] }) => PLACE.test(first?.text ?? ""));
  return named.length > 1 && named.length * 2 > rows.length;
}

/** Columns that say by their headers that they are of one kind whatever the rest is; of two kinds at least, else none. */
function kindsIn(told: TableContent): { id: string; columns: number[] }[] {
  if (!told.hasPins) return [];
  const free = told.look.columns.filter(
    (column) =>
      column !== told.ref && column !== told.pin && column !== told.device && column.texts.length > 0,
  );
  const taken = new Set<number>();
  return KINDS.flatMap(({ id, claims }) => {
    const columns = claims ? free.filter((column) => !taken.has(column.at) && claims(column)) : [];
    for (const { at } of columns) taken.add(at);
    return columns.length > 0 ? [{ id, columns: columns.map(({ at }) => at) }] : [];
  });
}
