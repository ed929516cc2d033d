// The log's model. Everything in a block is placed by offsets from the block's start, so that a block whose
// text did not change keeps its model, and all that was computed from it, wherever it moves in the document.
import type { Library } from "../knowledge/library";
import type { BoardOfSet, FrontMatter } from "../knowledge/load-front-matter";
import type { Loaded } from "../knowledge/loaded";
import type { ColumnRole, ColumnSpec, Procedure } from "../knowledge/types";
import type { CellValue } from "../quantity/cell-value";
import type { AlmostTable } from "../syntax/almost-tables";
import type { SyntaxBlock } from "../syntax/block";
import type { ParsedDocument } from "../syntax/blocks";
import type { Comment } from "../syntax/comments";
import type { Heading } from "../syntax/headings";
import type { Cell, Table } from "../syntax/tables";
import type { Span } from "../text/span";
import type { CellText } from "./cell-text";
import type { Disconnection } from "./disconnections";
import type { TableKind } from "./kinds/kind";

export type { CellText } from "./cell-text";

export interface Qualifiers {
  readonly repair?: "before" | "after";
  readonly power?: "unpowered" | "powered";
  readonly load?: "unloaded" | "loaded";
}

/** What a reading is about, by the role of the cells that say so: { ref: U14, pin: 3 }. */
export type Subject = { readonly [role in ColumnRole]?: CellText };

/** One cell that holds a measured value, tested state or result, with the row's names for where it was taken. */
export interface Reading {
  readonly table: LogTable;
  /** Row in the table, from 0. */
  readonly row: number;
  readonly subject: Subject;
  readonly spec: ColumnSpec;
  /** What is measured: the column's `measure`, or its role where it has none. */
  readonly measure: string;
  readonly value: CellValue;
  readonly cell: Cell;
  /** What its note or its heading says was off while it was taken; absent where they say nothing of it. */
  readonly apart?: readonly Disconnection[];
}

/** A column as it is headed, and what it is to the procedure. */
export interface TableColumn {
  readonly header: Cell;
  /** Absent where the header word is not one the procedure knows. */
  readonly spec?: ColumnSpec;
  /** Unit given in the header, overriding the procedure's. */
  readonly unit?: string;
}

/** A table that a procedure has claimed, by its heading or its content. Spans count from the start of its block. */
export interface LogTable {
  readonly source: Table;
  readonly span: Span;
  readonly section: Section;
  readonly procedure: Procedure;
  readonly kind: TableKind;
  readonly shape: "long" | "wide";
  /** Its rows and columns are not those that are written: pins or rails stand across the top. */
  readonly isTurned?: true;
  readonly columns: readonly TableColumn[];
  readonly readings: readonly Reading[];
  /** Cells with a role of their own that are not readings (actions, parts, items), row by row. */
  readonly rows: readonly LogRow[];
  /** Of a long table the same some rows at a time; absent where it is read as a whole. */
  readonly pieces?: readonly LocatedPiece[];
  /** The very reading of `readings` with that number, where not all of a long table are wanted. */
  readonly readingAt?: (index: number) => Reading;
  /** Set of a table that is such a piece: there are rows before and behind it that it knows nothing of. */
  readonly isPiece?: true;
}

/**
 * Some rows of a long table, as a block that holds nothing else: the very same object for as long as their text, what they
 * take over from the rows above, and how the table is read stay the same. It may stand in several places at once.
 */
export interface LocatedPiece {
  /** Offset in the block that the table stands in; all spans of the piece count from there, but those of its columns and its section, and of what its rows take over from them (`from-head.ts`). */
  readonly start: number;
  /** The number of its first row in the whole table. */
  readonly firstRow: number;
  readonly block: LogBlock;
  readonly table: LogTable;
}

/** A row by its named cells. Its number counts from 0. */
export interface LogRow {
  readonly index: number;
  readonly span: Span;
  /** Every named cell of the row, identity cells inherited from above included. */
  readonly cells: Subject;
}

/** A heading and what stands under it up to the next heading. */
export interface Section {
  readonly heading?: Heading;
  readonly procedure?: Procedure;
  /** A heading that it stands under names the procedure, and its own does not. */
  readonly isProcedureOfOuter?: true;
  readonly qualifiers: Qualifiers;
  /** Designator named in the heading itself: "Diode check U14". */
  readonly ref?: CellText;
  /** The number on that part, where the heading says it: "Diode check U14 (74LS04)". */
  readonly part?: CellText;
  /** The part of a heading that it stands under, where its tables need not be of it. */
  readonly outerPart?: { readonly ref: CellText; readonly part?: CellText };
  /** What the headings that it stands under say, the nearest first, without the title. */
  readonly outerWords?: readonly string[];
  /** The number that every part of it has, where the heading says so of several: "U30 and U31, both 74LS161". */
  readonly partOfAll?: CellText;
  /** All designators of a heading that names several, so that none of them stands for its rows. */
  readonly refs?: readonly CellText[];
  /** What the heading says was off its net: "Diode check with U12 out of its socket". */
  readonly apart?: readonly Disconnection[];
}

/** A table that no procedure claims, kept for the checks that ask why. */
export interface ProseTable {
  readonly source: Table;
  readonly section: Section;
}

export interface Suppression {
  readonly code: string;
  readonly span: Span;
}

/** What one block of the text says: its sections, its tables and what looks like one. Spans count from its start. */
export interface LogBlock {
  readonly source: SyntaxBlock;
  readonly sections: readonly Section[];
  readonly tables: readonly LogTable[];
  readonly proseTables: readonly ProseTable[];
  readonly almostTables: readonly { readonly source: AlmostTable; readonly section: Section }[];
  readonly suppressions: readonly Suppression[];
  readonly comments: readonly Comment[];
  /**
   * The block in pieces, in order, each of which can be looked at by itself where what is looked for is told by single rows;
   * starts count from the block's. A block without a long table is one piece, itself.
   */
  readonly pieces: readonly LocatedBlock[];
}

/** A block at its place in the document. */
export interface LocatedBlock {
  readonly start: number;
  readonly block: LogBlock;
}

/** One immutable snapshot of a log: text, front matter and the model of every block at its place. */
export interface LogDocument {
  readonly uri: string;
  readonly text: string;
  readonly parsed: ParsedDocument;
  readonly frontMatter: Loaded<FrontMatter>;
  readonly blocks: readonly LocatedBlock[];
  /** What its words were read with: which tables a heading claims, what is a part's number. */
  readonly library: Library;
  /** Set where only the sections of one board of a set are in it; the text is that of the whole log. */
  readonly ofSet?: BoardOfSet;
}

/** A table with the block it stands in. */
export interface LocatedTable extends LocatedBlock {
  readonly table: LogTable;
}
