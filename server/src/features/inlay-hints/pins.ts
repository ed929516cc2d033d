import type { LogContext } from "../../judge/context";
import type { TestPoint } from "../../judge/test-point";
import type { LogTable } from "../../log/model";
import type { Cell } from "../../syntax/tables";
import { joined, type Markdown, markdown, md } from "../../text/markdown";
import { fewOf, joinedTo, netMembers, pinLine } from "../shared/describe";
import { testPointAtPin } from "../shared/occurrences/keys";
import { refsOver } from "../shared/occurrences/tables";
import type { Hint } from "./hint";
import { cellEnd, columnHints } from "./width";

/** A name of a net longer than this is cut; the whole of it is in the tooltip. In characters. */
const LONGEST = 24;

/** Beside each pin what it is called and which net it is on, where that is one thing for the whole row. */
export function pinHints(table: LogTable, ctx: LogContext): Hint[] {
  const column = pinColumn(table);
  const label = (cell: Cell, row: number): string =>
    labelOf(placesOf(table, row, ctx), saidIn(table, row, cell));
  return columnHints(table, column, label).map((placed) => ({ kind: "pin", ...placed }));
}

/** -1 where the table has none. */
function pinColumn({ shape, procedure, columns }: LogTable): number {
  if (shape === "wide" && procedure.wide?.rows === "pin") return 0;
  return columns.findIndex(({ spec }) => spec?.role === "pin");
}

/** In a wide table a row is that pin of every chip. */
function placesOf(table: LogTable, row: number, ctx: LogContext): TestPoint[] {
  const { ref, pin } = table.rows[row]?.cells ?? {};
  if (!pin || pin.text === "") return [];
  const refs = table.shape === "wide" ? refsOver(table, ctx.library) : ref ? [ref.text] : [];
  return refs.map((each) => testPointAtPin(each, pin.text, ctx));
}

/** The pin's cell, and those of the row that hold words and no readings. */
const saidIn = ({ columns, source, shape }: LogTable, row: number, pin: Cell): readonly string[] =>
  shape === "wide"
    ? [pin.text]
    : (source.rows[row]?.cells ?? []).flatMap((cell, column) => {
        const role = columns[column]?.spec?.role;
        return cell === pin || role === "note" || role === "signal" || role === undefined ? [cell.text] : [];
      });

/** "2A · ROW_1"; a name that stands in the row already is not said again. Empty where there is nothing to say. */
function labelOf(places: readonly TestPoint[], typed: readonly string[]): string {
  const name = same(places.map(({ pin }) => pin?.name));
  const net = same(places.map((place) => joinedTo(place)[0] ?? place.net?.name));
  const said = new Set(
    typed.flatMap((text) => [text, ...text.split(/[^\w+-]+/)]).map((word) => word.toUpperCase()),
  );
  const words = [name, net === name ? undefined : net].filter(
    (word) => word !== undefined && !said.has(word.toUpperCase()),
  );
  const label = words.join(" · ");
  return label.length > LONGEST ? `${label.slice(0, LONGEST - 1)}…` : label;
}

const same = (names: readonly (string | undefined)[]): string | undefined =>
  names.every((name) => name === names[0]) ? names[0] : undefined;

export function pinTooltip(table: LogTable, at: number, ctx: LogContext): Markdown | undefined {
  const column = pinColumn(table);
  const row = table.source.rows.findIndex(({ cells }) => {
    const cell = cells[column];
    return cell !== undefined && cellEnd(cell) === at;
  });
  const lines = placesOf(table, row, ctx).flatMap((place) => {
    const line = pinLine(place);
    if (line === "") return [];
    const members = place.net ? markdown`: ${fewOf(netMembers(place.net, ctx))}` : "";
    return [markdown`**${md(place.ref)} pin ${md(place.pinTyped ?? "")}**: ${md(line)}${members}`];
  });
  return lines.length > 0 ? joined(lines, "\n\n") : undefined;
}
