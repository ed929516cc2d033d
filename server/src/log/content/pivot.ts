// Tables turned on their side: a row a chip and a column a pin, a column a rail and a row a circumstance, a row a step and a
// column a pin. Each is read as a table with a row for each of its cells.
import { defined } from "../../base/defined";
import type { Library } from "../../knowledge/library";
import type { ColumnSpec, Procedure } from "../../knowledge/types";
import { splitHeader } from "../../quantity/units";
import { type Table, wordsOfRows } from "../../syntax/tables";
import { DEVICE_COLUMN } from "../device-column";
import { kindOf } from "../kinds";
import { RIPPLE } from "../measures";
import type { Section, TableColumn } from "../model";
import type { TableView } from "../read-table";
import { procedureByContent } from "./classify";
import { isLeg, isPin, isRail, isSurelyRail } from "./look";
import { RIPPLE_WORD } from "./ripple-word";
import { contentOfTable, type TableContent } from "./table-content";
import { turnedRowByRow, turnedTable } from "./turned";

/** Empty where the table is not turned. */
export function pivots(
  table: Table,
  section: Section,
  named: Procedure | undefined,
  told: () => TableContent,
  library: Library,
): TableView[] {
  if (named && (kindOf(named.id).matrix || kindOf(named.id).place === "ends")) return [];
  const headers = table.header.cells;
  const at = (is: (text: string) => boolean): number[] =>
    headers.flatMap(({ text }, i) => (i > 0 && is(text.trim()) ? [i] : []));
  const pins = at(isPin);
  const legs = at(isLeg);
  const across = pins.length >= 3 ? pins : legs.length >= 2 ? legs : [];
  if (across.length > 0) return pinsAcross(table, section, named, told, library, across);
  const rails = at((text) => isSurelyRail(text) && isRail(text));
  return rails.length >= 2 && rails.length * 2 >= headers.length
    ? railsAcross(table, section, named, library, rails)
    : [];
}

function pinsAcross(
  table: Table,
  section: Section,
  named: Procedure | undefined,
  told: () => TableContent,
  library: Library,
  across: readonly number[],
): TableView[] {
  const { ref, device } = told();
  if (ref && across.includes(ref.at)) return [];
  const columns = [ref?.at, device && device !== ref ? device.at : undefined].filter((i) => i !== undefined);
  if (!ref && !section.ref) return [];
  // Without a column of designators each row is the same part at another time.
  const tables = ref ? [turnedTable(table, columns, across)] : turnedRowByRow(table, columns, across);
  return tables.flatMap((long): TableView[] => {
    if (isEmpty(long)) return [];
    const words = [section.heading?.text, ...told().headers].join(" ").toLowerCase();
    const fits = named?.columns.some(({ role }) => role === "pin") ? named : undefined;
    const procedure =
      fits ??
      procedureByContent(
        contentOfTable(long.header, wordsOfRows(long), library, { words, isAboutOnePart: true }),
        library,
      );
    const measured = procedure && mainOf(procedure);
    const pin = procedure?.columns.find(({ role }) => role === "pin");
    if (!procedure || !measured || !pin) return [];
    const refSpec = procedure.columns.find(({ role }) => role === "ref");
    const specs = [...columns.map((i) => (i === ref?.at ? refSpec : DEVICE_COLUMN)), pin, measured];
    return [view(long, section, procedure, specs)];
  });
}

function railsAcross(
  table: Table,
  section: Section,
  named: Procedure | undefined,
  library: Library,
  across: readonly number[],
): TableView[] {
  const fits = named?.columns.some(({ role }) => role === "rail") ? named : undefined;
  const labels = wordsOfRows(table);
  return turnedRowByRow(table, [], across).flatMap((long, index): TableView[] => {
    const label = across.includes(0) ? "" : (labels[index]?.cells[0]?.text ?? "");
    if (isEmpty(long)) return [];
    const words = [section.heading?.text, label].join(" ").toLowerCase();
    const procedure =
      fits ??
      procedureByContent(
        contentOfTable(long.header, wordsOfRows(long), library, { words, isAboutOnePart: false }),
        library,
      );
    const rail = procedure?.columns.find(({ role }) => role === "rail");
    const ripple = RIPPLE_WORD.test(label)
      ? procedure?.columns.find(({ measure }) => measure === RIPPLE)
      : undefined;
    const measured = ripple ?? (procedure && mainOf(procedure));
    if (!procedure || !rail || !measured || COMPARED.test(label)) return [];
    const unit = splitHeader(label).unit ?? (/\bmv/i.test(label) ? "mV" : undefined);
    const load = /\b(?:un-?loaded|no load|off[ -]load|without load|bare|idle|unplugged)\b/i.test(label)
      ? "unloaded"
      : /\bload(?:ed)?\b/i.test(label)
        ? "loaded"
        : undefined;
    const own = load ? { ...section, qualifiers: { ...section.qualifiers, load } as const } : section;
    return [view(long, own, procedure, [rail, measured], unit)];
  });
}

const COMPARED = /\b(?:expected|nominal|should|spec|limits?|min|max|tolerance|current|amps?)\b/i;

/** What a table of the procedure cannot do without. */
const mainOf = ({ columns }: Procedure): ColumnSpec | undefined =>
  columns.find(({ role, required }) => required && (role === "reading" || role === "state"));

const isEmpty = (table: Table): boolean => wordsOfRows(table).length === 0;

function view(
  table: Table,
  section: Section,
  procedure: Procedure,
  specs: readonly (ColumnSpec | undefined)[],
  unit?: string,
): TableView {
  const columns = table.header.cells.map(
    (header, i): TableColumn =>
      defined({ header, spec: specs[i], unit: i === table.header.cells.length - 1 ? unit : undefined }),
  );
  return { table, section, procedure, columns };
}
