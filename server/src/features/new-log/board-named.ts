// Which board a new log is of, as somebody says it: the id or title of a board that is known, or words that are new.
import { defined } from "../../base/defined";
import type { Knowledge, Known } from "../../judge/context";
import { emptyBoard, fileless, layOver } from "../../judge/stated/lay-over";
import type { AttributedStatement } from "../../judge/stated/types";
import { idOf } from "../../knowledge/board-file";
import type { Library } from "../../knowledge/library";
import type { Board } from "../../knowledge/types";
import { eachBoard, type LogSummary } from "../../log/summary";
import { nearest, nearestName } from "../../text/nearest";

/** The board that was said, by what is known of it; `file` and `known` are absent for a new one. */
export interface NamedBoard {
  /** What stands behind `board:`. */
  readonly id: string;
  /** In words. */
  readonly title: string;
  readonly file?: Known<Board>;
  /** What its file says; without one, what the logs of such boards say together. */
  readonly known?: Board;
  /** A board that is known and called nearly so: this one is new, or named in logs alone and maybe by a slip. */
  readonly near?: { readonly id: string; readonly title: string };
}

export interface BoardsAround {
  readonly boards: Knowledge["boards"];
  readonly library: Library;
  readonly logs: readonly LogSummary[];
}

/** The board that typed words mean, by id or title, else a new one of that name. Undefined for blank words. */
export function boardFromWords(typed: string, around: BoardsAround): NamedBoard | undefined {
  const words = typed.trim().replace(/\s+/g, " ");
  if (words === "") return undefined;
  const all = boardsAround(around);
  // Words that were made into an id once are that board's again: of "Größe 3/4" the id alone no longer tells.
  const made = idOf(words.toLowerCase());
  const own =
    all.find(({ id, title }) => isCalled(words, id) || isCalled(words, title)) ??
    (made === NO_LETTERS ? undefined : all.find(({ id }) => id === made));
  if (own) return own;
  const id = freeId(words, new Set(all.map((board) => board.id)));
  const close = nearest(words, [...all.map((board) => board.id), ...all.map((board) => board.title)]);
  const near = all.find((board) => board.id === close || board.title === close);
  return defined({
    id,
    title: words === id ? inWords(id) : words,
    near: near ? { id: near.id, title: near.title } : undefined,
  });
}

/** Boards of which there is a file, then those that only logs name. */
export function boardsAround({ boards, library, logs }: BoardsAround): NamedBoard[] {
  const filed = [...boards.values()].map((file): NamedBoard => {
    const { id, title } = file.value;
    return { id, title, file, known: file.value };
  });
  const ids = new Set(eachBoard(logs).flatMap(({ board }) => (board && !boards.has(board) ? [board] : [])));
  const logged = [...ids].map((id): NamedBoard => {
    const title = inWords(id);
    const known = boardOfLogs(id, title, logs, library);
    const meant = boards.get(nearestName(id, boards.keys()) ?? "")?.value;
    const near = meant && { id: meant.id, title: meant.title };
    return defined({ id, title, known, near });
  });
  return [...filed, ...logged];
}

function boardOfLogs(
  id: string,
  title: string,
  logs: readonly LogSummary[],
  library: Library,
): Board | undefined {
  const own = logs.filter(({ board }) => board === id);
  const said = own.flatMap(({ uri, job, stated }): AttributedStatement[] =>
    stated.map((statement) => ({ statement, by: { by: "job", uri, job: job ?? "" } })),
  );
  if (said.length === 0) return undefined;
  const nothing = fileless("", emptyBoard(id, title));
  return layOver(nothing, said, library, { hasFile: false, jobs: own.length }).board.value;
}

/** "Regatta controller" of "regatta-controller". */
function inWords(id: string): string {
  const words = id.replace(/[-_]+/g, " ").trim();
  return words.charAt(0).toUpperCase() + words.slice(1);
}

const plain = (text: string): string => text.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, "-");
const isCalled = (words: string, name: string): boolean => plain(words) === plain(name);

/** The id of all words without a letter that one may have. */
const NO_LETTERS = idOf("");

/** Words without a letter that an id may have are all called "board", and are then counted. */
function freeId(words: string, taken: ReadonlySet<string>): string {
  const id = idOf(words.toLowerCase());
  let free = id;
  for (let n = 2; taken.has(free); n++) free = `${id}-${n}`;
  return free;
}
