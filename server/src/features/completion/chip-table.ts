import { defined } from "../../base/defined";
import { partAt } from "../../judge/board-parts";
import { hasBoardFile } from "../../judge/context";
import { partTestPoint, type TestPoint } from "../../judge/test-point";
import type { Device, Procedure } from "../../knowledge/types";
import { tablesOf } from "../../log/document";
import { kindOf } from "../../log/kinds";
import type { Section } from "../../log/model";
import { markdown, md } from "../../text/markdown";
import type { Span } from "../../text/span";
import { byRef, partLine } from "../shared/describe";
import { isDesignator } from "../shared/part-name";
import { literal } from "../shared/snippet-text";
import { byPins, chipLayout, FEWEST_PINS, UNNAMED, unsaidNumber } from "../shared/tables/layouts";
import { writeLayout } from "../shared/tables/write";
import type { Completion } from "../types";
import type { LogView } from "../view";
import { devicesFor, withMore } from "./devices";
import { ownLine } from "./own-line";

/**
 * A whole readings table for a chip, one row a pin, with the pin's name and net in the note column and the
 * cursor in the first reading. Offered on a line of its own: for every chip that the board file or the log has said the
 * number of, for chips of the library whose number is being typed, and for a designator that nobody has said anything
 * of as each chip of the library. A number that is said nowhere yet is written into the table.
 */
export function chipTables(view: LogView, section: Section, lineStart: number, offset: number): Completion[] {
  const procedure = tableProcedure(view, section);
  if (!procedure) return [];
  const line = ownLine(view.doc.text, lineStart, offset);
  if (!line) return [];
  const { typed, lead, eol, gap, span: at } = line;
  const withHeading = gap + (section.procedure ? "" : `## ${procedure.title}${eol}${eol}`);
  const make: Make = ({ name, filter = name, number, place, description, about }) => {
    const { device } = place;
    const table = writeLayout(chipLayout(procedure, place, view, number));
    const asSnippet = (lines: readonly string[]) => literal(withHeading) + lines.join(eol) + eol;
    return defined({
      label: `${name} readings table`,
      kind: "table" as const,
      description,
      documentation: markdown`${md(about)}\n\n${md(procedure.title)}, one row for each of the ${device.pins.size} pins of ${md(name)}.`,
      span: at,
      newText: withHeading + table.plain.join(eol) + eol,
      snippet: asSnippet(table.snippet),
      filled: table.filled && asSnippet(table.filled),
      filterText: `${lead}${filter}`,
    });
  };
  const begun = chipBegun(view, typed, at);
  const known = boardChips(view, procedure, make, begun?.isOnlyHere ? begun.ref : undefined);
  return [...known, ...(begun ? newChips(view, begun, make) : []), ...libraryChips(view, typed, make)];
}

interface Chip {
  /** What it is called in the list, and what is typed to find it there where that is not the same. */
  readonly name: string;
  readonly filter?: string;
  /** The number on it, where that is to be written down. */
  readonly number: string | undefined;
  readonly place: TestPoint & { readonly device: Device };
  readonly description: string;
  readonly about: string;
}

type Make = (chip: Chip) => Completion;

/**
 * Those with no table of this procedure yet come first, as the next to be read. All but the one that only the line being
 * typed speaks of: that line is about to be a table.
 */
function boardChips(
  view: LogView,
  procedure: Procedure,
  make: Make,
  except: string | undefined,
): Completion[] {
  const board = view.ctx.board?.value;
  if (!board) return [];
  const done = refsUnder(view, procedure);
  const isDone = (ref: string) => Number(done.has(ref.toUpperCase()));
  return [...board.parts.values()]
    .sort((a, b) => isDone(a.ref) - isDone(b.ref) || byRef(a.ref, b.ref))
    .flatMap((part) => {
      const { ref } = part;
      if (ref.toUpperCase() === except?.toUpperCase()) return [];
      const place = partTestPoint(ref, board, view.ctx.library);
      const { device } = place;
      if (!device || device.pins.size < FEWEST_PINS) return [];
      return make({
        name: ref,
        number: unsaidNumber(ref, view),
        place: { ...place, device },
        // Short, for the label must not give way to it; what the part is for stands in the documentation.
        description: `${part.device ?? device.id} · ${device.pins.size} pins`,
        about: partLine(part, board, view.ctx),
      });
    });
}

/** The designators, in capitals, that stand in tables of a procedure. */
function refsUnder({ doc }: LogView, { id }: Procedure): ReadonlySet<string> {
  const refs = new Set<string>();
  for (const { table } of tablesOf(doc)) {
    if (table.section.procedure?.id !== id) continue;
    for (const { subject } of table.readings) if (subject.ref) refs.add(subject.ref.text.toUpperCase());
  }
  return refs;
}

/** "U3", and behind it the beginning of its number. */
const NEW_CHIP = /^([A-Za-z]{1,4}\d{1,4}[A-Za-z]?|\d{1,2}[A-Za-z]\d?)(?:[ \t]+([\w.-]*))?$/;

interface ChipBegun {
  readonly ref: string;
  readonly number: string;
  /** No file and no other line names it, so that what is known of it is what is being typed. */
  readonly isOnlyHere: boolean;
}

function chipBegun(view: LogView, typed: string, at: Span): ChipBegun | undefined {
  const [, ref, number = ""] = NEW_CHIP.exec(typed) ?? [];
  if (ref === undefined || !isDesignator(ref, view.ctx.library)) return undefined;
  const { text } = view.doc;
  const others = `${text.slice(0, at.start)}\n${text.slice(at.end)}`;
  const isNamed = (where: string) => new RegExp(`(?<!\\w)${ref}(?!\\w)`, "i").test(where);
  return { ref, number, isOnlyHere: number !== "" && !hasBoardFile(view.ctx) && !isNamed(others) };
}

/** A designator of which nobody has said what it is, as what the library has for it. */
function newChips(view: LogView, { ref, number, isOnlyHere }: ChipBegun, make: Make): Completion[] {
  const { library } = view.ctx;
  if (!isOnlyHere && partAt(ref, view.ctx)?.device !== undefined) return [];
  // "2C" may as well be the beginning of a number, and "U1" that of a designator which the board file lists.
  if (number === "" && (/^\d/.test(ref) || hasBoardFile(view.ctx))) return [];
  return withMore(
    devicesFor(ref, number, library, ({ pins }) => pins.size >= FEWEST_PINS),
    ({ typed: name, device }) =>
      make({
        name: `${ref} (${name})`,
        filter: `${ref} ${name}`,
        number: name,
        place: { ref, device },
        description: `${device.pins.size} pins`,
        about: device.title,
      }),
  );
}

function libraryChips(view: LogView, typed: string, make: Make): Completion[] {
  if (!/^\w*\d[\w.-]*$/.test(typed)) return [];
  const { library } = view.ctx;
  const begun = devicesFor("", typed, library, ({ pins }) => pins.size >= FEWEST_PINS);
  return withMore(begun, ({ typed: name, device }) =>
    make({
      name,
      number: name,
      place: { ref: UNNAMED, device },
      description: `${device.pins.size} pins`,
      about: device.title,
    }),
  );
}

/** The section's own procedure where it is one of pins, else the diode check, the first thing done to a chip. */
function tableProcedure(view: LogView, section: Section): Procedure | undefined {
  const own = section.procedure;
  if (own) return byPins(own) ? own : undefined;
  return view.ctx.library.procedures.find(({ id }) => kindOf(id).firstOfChip);
}
