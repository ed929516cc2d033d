// What the findings of a log hang on, for whoever keeps findings: the command line and the server keep them by the same.
import { once } from "../base/once";
import type { LogSummary } from "../log/summary";
import { textHash } from "./text-hash";

/** All that the findings of a folder's logs hang on. */
export interface WhatFindingsHangOn {
  /** Stands for what bears on every log: all knowledge files, the settings. */
  readonly base: string;
  /** By uri the hash of each log's text; undefined for Markdown that is none. */
  readonly hashes: ReadonlyMap<string, string | undefined>;
  /** The boards that a log names. */
  boardsNamed(uri: string): readonly string[];
  /** What the other logs say of the board of this one: plain data. */
  related(uri: string): unknown;
}

/** Markdown that is no log hangs on nothing but itself. */
const NO_LOG = "no log";

/**
 * By uri what stands for all that the log's findings hang on besides the images that it names: they are the same for as long
 * as it is. Undefined for a file of which nothing is known.
 */
export function findingStamps({
  base,
  hashes,
  boardsNamed,
  related,
}: WhatFindingsHangOn): (uri: string) => string | undefined {
  const baseHash = once(() => textHash(base));
  const boards = once(() => boardHashes(hashes, boardsNamed));
  return (uri) => {
    const own = hashes.get(uri);
    if (own === undefined) return hashes.has(uri) ? NO_LOG : undefined;
    const others = boardsNamed(uri).map((board) => boards().get(board) ?? "");
    return textHash(JSON.stringify([baseHash(), own, others, related(uri) ?? null]));
  };
}

/** For each board what all of its logs say: its limits and all that is known of it come of them. */
function boardHashes(
  hashes: WhatFindingsHangOn["hashes"],
  boardsNamed: WhatFindingsHangOn["boardsNamed"],
): Map<string, string> {
  const all = new Map<string, string[]>();
  for (const [uri, hash] of hashes) {
    if (hash === undefined) continue;
    for (const board of boardsNamed(uri)) {
      const list = all.get(board);
      if (list) list.push(hash);
      else all.set(board, [hash]);
    }
  }
  return new Map([...all].map(([board, list]) => [board, textHash(list.sort().join(" "))]));
}

/** The boards that a log names, by their ids; none of what is no log. */
export const boardsNamedIn = (log: LogSummary | undefined): readonly string[] =>
  log?.boards ?? (log?.board === undefined ? [] : [log.board]);

/** A picture or memory image, which may change without the log that names it. */
const NAMES_FILES = /!\[|\.(?:bin|rom|img|dat|e?prom|dump|raw|png|jpe?g|gif|webp|svg)\b/i;

/** False where a file beside the log may bear on its findings: then they hang on more than a stamp tells. */
export const namesNoFile = (text: string): boolean => !NAMES_FILES.test(text);
