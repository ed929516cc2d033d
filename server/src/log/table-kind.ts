// Which kind of table stands under a heading whose words leave two open: the columns tell.
import type { Library } from "../knowledge/library";
import type { Procedure } from "../knowledge/types";
import type { Table } from "../syntax/tables";
import { headerWord, specFor } from "./headers";
import type { Section } from "./model";

/** The procedure of a list of what is on the board. */
export const PARTS_ON_BOARD = "parts-on-board";

/** Undefined under a heading that no procedure claims. */
export function procedureOf(table: Table, section: Section, library: Library): Procedure | undefined {
  return (
    pinToPin(table, section, library) ??
    voltages(table, section, library) ??
    listOfParts(table, section, library) ??
    section.procedure
  );
}

/** "Voltages" are those of rails, or of pins: the columns tell. */
function voltages(table: Table, { procedure }: Section, library: Library): Procedure | undefined {
  const rails = library.procedure("supply-rails");
  const pins = library.procedure("logic-levels");
  if (!rails || !pins || (procedure !== rails && procedure !== pins)) return undefined;
  const words = table.header.cells.map(({ text }) => headerWord(text));
  const isRail = words.some(
    (word) => specFor(rails, word)?.role === "rail" && specFor(pins, word) === undefined,
  );
  if (isRail) return rails;
  const roles = words.map((word) => specFor(pins, word)?.role);
  return roles.includes("ref") && roles.includes("pin") ? pins : undefined;
}

/** Whether a resistance is that of a part or that between two pins: a pair has a column for each end. */
function pinToPin(table: Table, { procedure }: Section, library: Library): Procedure | undefined {
  const pair = library.procedure("continuity");
  const single = library.procedure("resistance");
  if (!pair || !single || (procedure !== pair && procedure !== single)) return undefined;
  const roles = table.header.cells.map(({ text }) => specFor(pair, headerWord(text))?.role);
  return roles.includes("from") && roles.includes("to") ? pair : single;
}

/** A list of what is on the board, though its heading could be that of what was fitted: it counts and dates nothing. */
function listOfParts(table: Table, { heading, procedure }: Section, library: Library): Procedure | undefined {
  const list = library.procedure(PARTS_ON_BOARD);
  if (procedure?.id !== "parts-fitted" || !heading || !list) return undefined;
  if (!/^[^\p{L}]*(?:parts(?: list)?|components|materials)[^\p{L}]*$/iu.test(heading.text)) return undefined;
  const words = table.header.cells.map(({ text }) => headerWord(text));
  const isFitted = words.some((word) => {
    const role = specFor(procedure, word)?.role;
    return (
      role === "quantity" || role === "date" || role === "check" || /fitted|new|supplier|source/.test(word)
    );
  });
  return isFitted ? undefined : list;
}
