import { memo } from "../../base/memo";
import type { Library } from "../../knowledge/library";
import type { LogBlock } from "../model";
import { linksStated } from "./links";
import { matricesStated } from "./matrices";
import { partsStated } from "./parts";
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
  const all = [
    ...partsStated(block, library),
    ...railsStated(block),
    ...linksStated(block, library),
    ...matricesStated(block),
  ].sort((a, b) => a.span.start - b.span.start);
  return all.length === 0 ? NOTHING : { all, key: JSON.stringify(all.map(withoutPlace)) };
});

/** A statement as plain data that says nothing of where it stands. */
export function withoutPlace({ span: _span, ...statement }: LocatedStatement): Statement {
  return statement;
}
