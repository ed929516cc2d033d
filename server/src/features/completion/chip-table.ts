import { type Place, partPlace } from "../../analysis/place";
import type { Device, Procedure } from "../../knowledge/types";
import type { Section } from "../../log/model";
import { encodeCell } from "../../syntax/tables";
import { byRef, md, partLine } from "../describe";
import { byPins, pinTable } from "../tables/layouts";
import type { Completion } from "../types";
import type { LogView } from "../view";
import { literal } from "./literal";
import { ownLine } from "./own-line";

/** Library devices offered for a number typed on an empty line; more would bury the board's own parts. */
const MAX_LIBRARY = 20;
/** Stands for the designator of a chip that is on no board file. */
const UNNAMED = "U?";

/**
 * A whole readings table for a chip, one row a pin, with the pin's name and net in the note column and the
 * cursor in the first reading. Offered on a line of its own: for every chip of the board, and for chips of
 * the library whose number is being typed.
 */
export function chipTables(view: LogView, section: Section, lineStart: number, offset: number): Completion[] {
  const procedure = tableProcedure(view, section);
  if (!procedure) return [];
  const line = ownLine(view.doc.text, lineStart, offset);
  if (!line) return [];
  const { typed, lead, eol, gap, span: at } = line;
  const withHeading = gap + (section.procedure ? "" : `## ${procedure.title}${eol}${eol}`);
  const make: Make = (name, ref, device, place, description, about) => {
    const table = tableText(procedure, ref, device, place, view);
    return {
      label: `${name} readings table`,
      kind: "table" as const,
      description,
      documentation: `${md(about)}\n\n${procedure.title}, one row for each of the ${device.pins.size} pins of ${name}.`,
      span: at,
      newText: withHeading + table.plain.join(eol) + eol,
      snippet: literal(withHeading) + table.snippet.join(eol) + eol,
      filterText: `${lead}${name}`,
    };
  };
  return [...boardChips(view, make), ...libraryChips(view, typed, make)];
}

type Make = (
  name: string,
  ref: string | undefined,
  device: Device,
  place: Place,
  description: string,
  about: string,
) => Completion;

function boardChips(view: LogView, make: Make): Completion[] {
  const board = view.ctx.board?.value;
  if (!board) return [];
  return [...board.parts.values()]
    .sort((a, b) => byRef(a.ref, b.ref))
    .flatMap((part) => {
      const place = partPlace(part.ref, board, view.ctx.library);
      const { device } = place;
      if (!device || device.pins.size < 3) return [];
      return make(
        part.ref,
        part.ref,
        device,
        place,
        // Short, for the label must not give way to it; what the part is for stands in the documentation.
        `${part.device ?? device.id} · ${device.pins.size} pins`,
        partLine(part, board, view.ctx),
      );
    });
}

function libraryChips(view: LogView, typed: string, make: Make): Completion[] {
  if (!/^\w*\d/.test(typed)) return [];
  const { library } = view.ctx;
  const begun = library.devicesMatching(typed).slice(0, MAX_LIBRARY);
  // A number as printed, with its maker's letters, is no beginning of a listed one.
  const printed = begun.length === 0 ? library.device(typed) : undefined;
  return (printed ? [printed] : begun)
    .filter(({ device }) => device.pins.size >= 3)
    .map(({ typed: name, device }) =>
      make(name, undefined, device, { ref: "", device }, `${device.pins.size} pins`, device.title),
    );
}

/** The section's own procedure where it is one of pins, else the diode check, the first thing done to a chip. */
function tableProcedure(view: LogView, section: Section): Procedure | undefined {
  const own = section.procedure;
  if (own) return byPins(own) ? own : undefined;
  return view.ctx.library.procedures.find((procedure) => procedure.id === "diode-check");
}

function tableText(
  procedure: Procedure,
  ref: string | undefined,
  device: Device,
  place: Place,
  view: LogView,
) {
  const { columns, rows: laidOut } = pinTable(procedure, ref ?? UNNAMED, device, place, view);
  const headers = columns.map((column) => column.headers[0] ?? "");
  const measured = laidOut[0]?.indexOf(undefined) ?? -1;
  const rows = laidOut.map((row) => row.map((cell) => encodeCell(cell ?? "")));
  const widths = headers.map((header, i) =>
    Math.max(3, header.length, ...rows.map((row) => row[i]?.length ?? 0)),
  );
  const line = (cells: readonly string[]) =>
    `| ${cells.map((c, i) => c.padEnd(widths[i] ?? 0)).join(" | ")} |`;
  const head = [line(headers), `|${widths.map((w) => "-".repeat(w + 2)).join("|")}|`];
  // Without a designator the first stop is the designator, written once and mirrored in every row.
  const first = ref === undefined ? 2 : 1;
  const withStops = rows.map((row, index) =>
    row.map((cell, i) => {
      if (i === measured) return `\${${first + index}:${" ".repeat(TYPED)}}`;
      if (ref === undefined && columns[i]?.role === "ref") return index === 0 ? `\${1:${UNNAMED}}` : "$1";
      return literal(cell.padEnd(widths[i] ?? 0));
    }),
  );
  return {
    plain: [...head, ...rows.map(line)],
    snippet: [
      ...head.map(literal),
      ...withStops.map((row) => `| ${row.map((c, i) => padStop(c, widths[i] ?? 0)).join(" | ")} |`),
    ],
  };
}

/** Characters of a reading as a meter shows it, "0.582": typed over as many blanks they leave the columns in line. */
const TYPED = 5;

/** A tab stop keeps the column's width behind it, so that the table stays in line until it is filled. */
function padStop(cell: string, width: number): string {
  if (!cell.startsWith("$")) return cell;
  // A stop that only repeats the first shows what that one shows.
  const shown = (/^\$\{\d+:(.*)\}$/.exec(cell)?.[1] ?? UNNAMED).length;
  return cell + " ".repeat(Math.max(0, width - shown));
}
