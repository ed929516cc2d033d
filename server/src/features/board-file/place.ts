// Where a board file is put that is not there yet: where the others are, else in a folder of their own.

export interface BoardPlaceQuestion {
  readonly id: string;
  /** Uri of the log it is made for; one that was never saved lies nowhere. */
  readonly log: string;
  /** Uris of the folders that are open. */
  readonly folders: Iterable<string>;
  /** Uris of the files that are there. */
  readonly files: Iterable<string>;
}

const ENDING = ".board.yaml";

/** Undefined where no folder is open: then nothing would find it there. */
export function boardFilePlace({ id, log, folders, files }: BoardPlaceQuestion): string | undefined {
  const all = [...folders].map((uri) => uri.replace(/\/?$/, "/"));
  const own = all.filter((uri) => log.startsWith(uri)).sort((a, b) => b.length - a.length)[0] ?? all[0];
  if (own === undefined) return undefined;
  const there = [...files];
  const boards = there.filter((uri) => uri.endsWith(ENDING) && uri.startsWith(own));
  const folder = mostOf(boards.map(folderOf)) ?? `${own}boards/`;
  const taken = new Set(there.map((uri) => uri.toLowerCase()));
  const name = (n: number): string => `${folder}${encodeURIComponent(n === 1 ? id : `${id}-${n}`)}${ENDING}`;
  let n = 1;
  while (taken.has(name(n).toLowerCase())) n++;
  return name(n);
}

const folderOf = (uri: string): string => uri.slice(0, uri.lastIndexOf("/") + 1);

function mostOf(folders: readonly string[]): string | undefined {
  const counts = new Map<string, number>();
  for (const folder of folders) counts.set(folder, (counts.get(folder) ?? 0) + 1);
  return [...counts].sort(([a, one], [b, other]) => other - one || (a < b ? -1 : 1))[0]?.[0];
}
