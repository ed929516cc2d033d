// The board of one log, kept for as long as neither its file nor what is said of it changes.
import { memo, memoEach } from "../base/memo";
import type { Known } from "../judge/context";
import { emptyBoard, fileless, layOver } from "../judge/stated/lay-over";
import type { AttributedStatement, SharedStatements, Stated } from "../judge/stated/types";
import type { Library } from "../knowledge/library";
import type { Board } from "../knowledge/types";
import type { LogDocument } from "../log/document";
import { type BlockStatements, statementsOfLog } from "../log/stated/of-block";

export interface LogBoard {
  readonly board: Known<Board>;
  readonly stated: Stated | undefined;
  /** What all logs of the board have in common: by it their readings are compared. Absent where it has no name. */
  readonly common: Known<Board> | undefined;
  readonly basis: Basis;
}

/** What logs say of a board that no file describes: those besides the one that asks, and all of them as on disk. */
export interface SharedWords {
  readonly others: SharedStatements | undefined;
  readonly all: SharedStatements | undefined;
}

interface Basis extends SharedWords {
  readonly library: Library;
  readonly file: Known<Board> | undefined;
  readonly id: string | undefined;
  readonly own: readonly BlockStatements[];
}

/** What a board without a file is called here; its log knows its name (`boardTitle`). */
const NAMELESS = "this board";

/**
 * The board as it is judged against; by another name it is the very same board where no file describes it and the same is
 * said of it. Undefined where neither a file nor any log says anything of the board.
 * @param before boards that the log had; one of them is given again where nothing else was said
 */
export function boardOfLog(
  doc: LogDocument,
  id: string | undefined,
  file: Known<Board> | undefined,
  { others, all }: SharedWords,
  before: readonly LogBoard[],
): LogBoard | undefined {
  const { uri, library } = doc;
  const own = statementsOfLog(doc).map(({ found }) => found);
  if (!file && !others && own.length === 0) return undefined;
  const basis: Basis = { library, file, others, all, id, own };
  const known = before.find((one) => sameBasis(one.basis, basis));
  const common = commonBoard(id, file, all, library);
  if (known) return known.basis.id === id ? known : { ...known, common, basis };
  const base = file ?? fileless(uri, emptyBoard("", NAMELESS));
  const ownSaid = own.flatMap(({ all }): AttributedStatement[] =>
    all.map(({ span: _span, ...statement }) => ({ statement, by: { by: "log" } })),
  );
  if (ownSaid.length === 0 && file && common) return { board: common, stated: undefined, common, basis };
  const jobs = others ? [...others.logs].filter((log) => log !== uri).length : 0;
  const laid = layOver(base, [...(others?.said ?? []), ...ownSaid], library, {
    hasFile: file !== undefined,
    jobs,
  });
  const { stated } = laid;
  const isNews =
    [stated.parts, stated.rails, stated.pins, stated.matrices].some(({ size }) => size > 0) ||
    [...laid.board.value.rails.values()].some(({ rippleIsUsual }) => rippleIsUsual);
  // A log that says no more than its board file has the very board of all others.
  if (file && common && !isNews) return { board: common, stated: undefined, common, basis };
  return { ...laid, common, basis };
}

function sameBasis(a: Basis, b: Basis): boolean {
  return (
    a.library === b.library &&
    a.file === b.file &&
    a.others === b.others &&
    a.all === b.all &&
    a.own.length === b.own.length &&
    a.own.every((said, i) => said === b.own[i] || said.key === b.own[i]?.key)
  );
}

/** What all logs of a board share, the same object for as long as none of it changes. */
export function commonBoard(
  id: string | undefined,
  file: Known<Board> | undefined,
  all: SharedStatements | undefined,
  library: Library,
): Known<Board> | undefined {
  if (file) return commonOf(file, library);
  if (!id) return undefined;
  return all ? commonOfLogs(all, library, id) : unsaid(library, id);
}

/** A board of which no log says more than its name: what is read of it can still be compared by the places' names. */
const unsaid = memoEach((_library: Library, id: string): Known<Board> => fileless("", emptyBoard(id, id)));

/** A board file with the pins that follow from it. */
const commonOf = memo(
  (file: Known<Board>, library: Library): Known<Board> =>
    layOver(file, [], library, { hasFile: true, jobs: 0 }).board,
);

const commonOfLogs = memo((shared: SharedStatements, library: Library, id: string): Known<Board> => {
  const [uri = ""] = shared.logs;
  const base = fileless(uri, emptyBoard(id, id));
  return layOver(base, shared.said, library, { hasFile: false, jobs: 0 }).board;
});
