import { memo } from "../../base/memo";
import type { Library } from "../../knowledge/library";
import { type InBlock, inBlocksBy } from "../in-blocks";
import type { LocatedBlock, LogBlock, LogDocument, LogTable } from "../model";
import { placedSpan } from "../table-pieces";
import { linksStated } from "./links";
import { matricesStated } from "./matrices";
import { partKey, partsOverColumns, partsStated } from "./parts";
import { railsStated } from "./rails";
import type { LocatedStatement, Statement } from "./statement";

/** What a block says of the board. */
export interface BlockStatements {
  /** In the order of the block; spans of the block. */
  readonly all: readonly LocatedStatement[];
  /** The same for blocks that say the same, wherever it stands in them. */
  readonly key: string;
}

const NOTHING: BlockStatements = { all: [], key: "" };

/** All that a block says of its board, and a key for it. Read once for a block's text and a library. */
export const statementsOf = memo((block: LogBlock, library: Library): BlockStatements => {
  const all = block.pieces.length === 1 ? statedIn(block, library) : statedInPieces(block, library);
  return all.length === 0 ? NOTHING : { all, key: JSON.stringify(all.map(withoutPlace)) };
});

const inEveryBlock = inBlocksBy((block, library: Library) => {
  const said = statementsOf(block, library);
  return said.all.length === 0 ? undefined : said;
});

/** What the blocks of a log say of its board, in their order, without those that say nothing. */
export const statementsOfLog = (doc: LogDocument): readonly InBlock<BlockStatements>[] =>
  inEveryBlock(doc, doc.library);

const statedIn = memo((block: LogBlock, library: Library): readonly LocatedStatement[] =>
  [
    ...partsStated(block, library),
    ...railsStated(block),
    ...linksStated(block, library),
    ...matricesStated(block),
  ].sort((a, b) => a.span.start - b.span.start),
);

/** Parts and rails are said once in a block, in whichever of its pieces they are said first. */
function statedInPieces({ pieces, tables }: LogBlock, library: Library): readonly LocatedStatement[] {
  // What the header of a long table says is said in front of its rows.
  const begins = new Map<LocatedBlock | undefined, LogTable>();
  for (const table of tables) if (table.pieces) begins.set(table.pieces[0], table);
  const said = new Set<string>();
  return pieces
    .flatMap((piece) => {
      const long = begins.get(piece);
      const own = statedIn(piece.block, library).map((statement) => ({
        ...statement,
        span: placedSpan(statement.span, piece.start),
      }));
      return long ? [...partsOverColumns(long, library), ...own] : own;
    })
    .filter((statement) => {
      const key = keyOf(statement);
      if (key === undefined) return true;
      return !said.has(key) && said.add(key);
    })
    .sort((a, b) => a.span.start - b.span.start);
}

/** The same for statements of which a block makes one; undefined for one that it makes as often as it stands there. */
function keyOf(statement: Statement): string | undefined {
  switch (statement.kind) {
    case "part":
      return partKey(statement);
    case "rail":
      return `rail ${statement.name}`;
    default:
      return undefined;
  }
}

/** A statement as plain data that says nothing of where it stands. */
export function withoutPlace({ span: _span, ...statement }: LocatedStatement): Statement {
  return statement;
}
