// A log with tables for what its running words and lists say row by row, so that they are judged as they would be in a table.
// They are the diagnosis's own: no check holds anybody to a form in which he did not write.
import { defined } from "../../../../base/defined";
import { memoBy } from "../../../../base/memo";
import type { LogContext } from "../../../../judge/context";
import type { Library } from "../../../../knowledge/library";
import type { Board, Matrix, Procedure } from "../../../../knowledge/types";
import type { LogDocument } from "../../../../log/document";
import { kindOf, kindOfPlaced } from "../../../../log/kinds";
import type { LogBlock, LogTable, ProseTable, Reading, Section, TableColumn } from "../../../../log/model";
import { readTable } from "../../../../log/read-table";
import type { Cell, Row, Table } from "../../../../syntax/tables";
import type { Span } from "../../../../text/span";
import type { Sentence } from "../sentences";
import { sentencesOf } from "../sentences";
import { banksSaid } from "./banks-said";
import { endsSaid } from "./ends-said";
import { bringsAnother, heldSaid } from "./held-said";
import { junctionsAcross, junctionsSaid } from "./junctions-said";
import { linesSaid } from "./lines-said";
import { networksSaid } from "./networks-said";
import { pinsSaid } from "./pins-said";
import { railsSaid } from "./rails-said";
import { bankSentence, rowSentences } from "./rows-said";
import type { SaidRow, Word } from "./said";

const heard = memoBy<LogBlock, LogBlock>();
const PLAIN = ["pin-volts", "pin-drop", "pin-ohms"] as const;

/** The very same log where no words say what a table would. */
export function withHeard(doc: LogDocument, ctx: LogContext): LogDocument {
  const board = ctx.board?.value;
  if (!board) return doc;
  const blocks = doc.blocks.map((one) => {
    const block = heard(one.block, () => withTables(one.block, board, ctx.library), board, ctx.library);
    return block === one.block ? one : { ...one, block };
  });
  return blocks.every((one, i) => one === doc.blocks[i]) ? doc : { ...doc, blocks };
}

function withTables(block: LogBlock, board: Board, library: Library): LogBlock {
  // What is said between pieces of a long table is told by that.
  if (block.pieces.length > 1) return block;
  const sectionAt = (offset: number): Section =>
    block.sections.findLast(({ heading }) => !heading || heading.span.start <= offset) ?? { qualifiers: {} };
  const groups = new Map<string, { section: Section; rows: SaidRow[] }>();
  let number = 0;
  let last = -1;
  for (const sentence of sentencesOf(block)) {
    const section = sectionAt(sentence.at);
    const above = block.tables.filter(({ span }) => span.end <= sentence.at).length;
    if (above !== last) {
      number += 1;
      last = above;
    }
    for (const row of saidIn(sentence, section, block, board, library)) {
      const key = [number, section.heading?.span.start, row.procedure].join(" ");
      const group = groups.get(key) ?? { section, rows: [] };
      groups.set(key, group);
      group.rows.push(row);
    }
  }
  for (const { source, section } of unread(block)) {
    number += 1;
    const spoken = [
      ...rowSentences(source),
      ...[bankSentence(source, section.heading?.text ?? "")].filter((one) => one !== undefined),
    ];
    const placed = spoken.flatMap((sentence) => {
      const row = source.rows.find(({ span }) => span.start === sentence.at)?.span ?? source.span;
      return saidIn(sentence, section, block, board, library, true).map((one) => moved(one, row));
    });
    placed.push(...junctionsAcross(source, board));
    for (const row of placed) {
      const key = [number, row.procedure].join(" ");
      const group = groups.get(key) ?? { section, rows: [] };
      groups.set(key, group);
      group.rows.push(row);
    }
  }
  for (const [key, { rows }] of groups)
    if (rows.some(isHeld) && !bringsAnother(rows) && rows.every(isHeld)) groups.delete(key);
  const tables = [...groups.values()].flatMap(({ section, rows }) => tableOf(rows, section, library) ?? []);
  if (tables.length === 0) return block;
  const all = [...block.tables, ...tables].sort((a, b) => a.span.start - b.span.start);
  const own: LogBlock = { ...block, tables: all, pieces: [] };
  return Object.assign(own, { pieces: [{ start: 0, block: own }] });
}

const isHeld = ({ cells }: SaidRow): boolean => cells.cell !== undefined;

const isPlaced = ({ subject: { note: _note, ...place } }: Reading): boolean => Object.keys(place).length > 0;

/** Tables that no kind claims, and those of which not one reading has a place. */
function unread({ proseTables, tables }: LogBlock): readonly ProseTable[] {
  return [
    ...proseTables,
    ...tables.flatMap(({ readings, rows, pieces, source, section, kind }) =>
      !pieces && !readings.some(isPlaced) && kind.holds === "readings" && rows.length > 0
        ? [{ source, section }]
        : [],
    ),
  ];
}

/** Every word of it at its row. */
const moved = ({ procedure, cells }: SaidRow, span: Span): SaidRow => ({
  procedure,
  cells: Object.fromEntries(Object.entries(cells).map(([key, word]) => [key, { ...word, span }])),
});

interface Meant {
  readonly matrix: Matrix;
  readonly procedure: string;
}

const LAMPS = /\b(?:lamps?|lights?|bulbs?|lit|dark)\b/i;
const SWITCHES =
  /\b(?:switch(?:es)?|keys?|buttons?|by hand|pressed|held|balls?|ghosts?|phantoms?|in the machine|diode lead)\b/i;

/** The matrix that the words are of: of the heading's kind, else of the only kind that they can mean. */
function matrixMeant({ procedure }: Section, words: string, board: Board): Meant | undefined {
  const own = procedure && kindOf(procedure.id);
  if (own && own.matrix === undefined && own.place !== "columns") return undefined;
  const kind = own?.matrix ?? (LAMPS.test(words) ? "lamp" : SWITCHES.test(words) ? "switch" : undefined);
  const [only, second] = [...board.matrices.values()].filter((one) => one.kind === kind);
  return only && !second && kind ? { matrix: only, procedure: `${kind}-matrix` } : undefined;
}

function saidIn(
  sentence: Sentence,
  section: Section,
  block: LogBlock,
  board: Board,
  library: Library,
  isOfTable = false,
): SaidRow[] {
  const { procedure, heading, ref } = section;
  const id = procedure?.id;
  const plain = PLAIN.find((one) => kindOfPlaced(one) === id);
  const headingText = heading?.text ?? "";
  const isOhms = plain === "pin-ohms" || /\b(?:ohms?|resistance)\b|\u03a9/i.test(headingText);
  const meant = matrixMeant(section, `${headingText} ${sentence.text}`, board);
  const hasTable = block.tables.some((table) => table.section === section);
  return [
    ...pinsSaid(sentence, { board, library, plain, heading: headingText, ref: ref?.text }),
    ...railsSaid(sentence, board, isOhms),
    ...junctionsSaid(sentence, board),
    ...endsSaid(sentence, board, library),
    ...banksSaid(sentence, board),
    ...networksSaid(sentence, board, ref?.text),
    ...(meant && (isOfTable || !hasTable) ? linesSaid(sentence, meant.matrix, meant.procedure) : []),
    ...(meant?.matrix.kind === "switch" ? heldSaid(sentence, meant.matrix, meant.procedure) : []),
  ];
}

/** The rows as a table of their procedure would have them. */
function tableOf(rows: readonly SaidRow[], section: Section, library: Library): LogTable | undefined {
  const [first] = rows;
  const procedure = first && library.procedure(first.procedure);
  if (!procedure) return undefined;
  const keys = [...new Set(rows.flatMap(({ cells }) => Object.keys(cells)))];
  const specs = keys.map((key) => specOf(procedure, key));
  const spans = rows.flatMap(({ cells }) => Object.values(cells).map(({ span }) => span));
  const start = Math.min(...spans.map((one) => one.start));
  const span = { start, end: Math.max(...spans.map((one) => one.end)) };
  const cell = (word: Word | undefined, at: number): Cell => {
    const own = word?.span ?? { start: at, end: at };
    return { span: own, outer: own, text: word?.text ?? "", extra: false };
  };
  const header: Row = {
    span: { start, end: start },
    cells: specs.map((spec) => cell({ text: spec?.headers[0] ?? "", span: { start, end: start } }, start)),
    missing: 0,
  };
  const table: Table = {
    span,
    header,
    delimiter: { span: header.span, cells: [] },
    columnCount: keys.length,
    rows: rows.map(({ cells }): Row => {
      const own = Object.values(cells).map((word) => word.span);
      const at = Math.min(...own.map((one) => one.start));
      return {
        span: { start: at, end: Math.max(...own.map((one) => one.end)) },
        cells: keys.map((key) => cell(cells[key], at)),
        missing: 0,
      };
    }),
  };
  const columns = header.cells.map((one, i): TableColumn => defined({ header: one, spec: specs[i] }));
  // What the heading names is the part of no rail and no crossing.
  const { ref: _ref, part: _part, ...bare } = section;
  return readTable({ table, section: bare, procedure, columns }, library);
}

const specOf = ({ columns }: Procedure, key: string) =>
  columns.find(({ measure }) => measure === key) ?? columns.find(({ role }) => role === key);
