// Where a new log is put and what its file is called, by where the others are and what they are called.
import type { LogSummary } from "../../log/summary";

export interface LogPlace {
  /** Ends in "/"; undefined where nothing in the workspace tells. */
  readonly folder?: string;
  /** A file name that no file of the folder has. */
  readonly name: string;
  /** False where the folder is only a proposal. */
  readonly sure: boolean;
}

export interface PlaceQuestion {
  readonly job?: string;
  readonly board?: string;
  readonly received?: string;
  /** Uri of the board's file. */
  readonly boardUri?: string;
  /** The folder that was asked for; its uri may lack the "/" at its end. */
  readonly folder?: string;
  readonly logs: Iterable<LogSummary>;
  /** Uris of the files that are there. */
  readonly files: Iterable<string>;
}

/** A folder and a file name that is free in it, both after the pattern of the logs that are there. */
export function logPathFor(question: PlaceQuestion): LogPlace {
  // One that was never saved lies nowhere.
  const logs = [...question.logs].filter(({ uri }) => !uri.startsWith("untitled:"));
  const found = folderFor(question, logs);
  const stem = fileStem(question, logs);
  const there = new Set([...question.files].map((uri) => uri.toLowerCase()));
  const isFree = (name: string) =>
    found.folder === undefined || !there.has(uriIn(found.folder, name).toLowerCase());
  let name = `${stem}.md`;
  for (let n = 2; !isFree(name); n++) name = `${stem}-${n}.md`;
  return { ...found, name };
}

/** The uri of a file in a folder whose uri ends in "/". */
export const uriIn = (folder: string, name: string): string => folder + encodeURIComponent(name);

function folderFor(
  { folder, board, boardUri }: PlaceQuestion,
  logs: readonly LogSummary[],
): Pick<LogPlace, "folder" | "sure"> {
  if (folder !== undefined) return { folder: folder.replace(/\/?$/, "/"), sure: true };
  const own = foldersOf(logs.filter((log) => board !== undefined && log.board === board));
  const all = foldersOf(logs);
  const likely = own[0] ?? all[0];
  if (likely !== undefined) return { folder: likely, sure: (own.length > 0 ? own : all).length === 1 };
  if (boardUri === undefined) return { sure: false };
  const boards = folderOf(boardUri);
  return { folder: /\/boards\/$/i.test(boards) ? boards.replace(/[^/]+\/$/, "logs/") : boards, sure: false };
}

/** The folders of these logs, the one that holds most of them first. */
function foldersOf(logs: readonly LogSummary[]): string[] {
  const counts = new Map<string, number>();
  for (const { uri } of logs) counts.set(folderOf(uri), (counts.get(folderOf(uri)) ?? 0) + 1);
  return [...counts].sort(([, a], [, b]) => b - a).map(([folder]) => folder);
}

const folderOf = (uri: string): string => uri.slice(0, uri.lastIndexOf("/") + 1);

/** What surrounds the job's number in the names of logs: mostly a word for the board behind it. */
function fileStem({ job, board, received }: PlaceQuestion, logs: readonly LogSummary[]): string {
  const number = job ?? received ?? "log";
  const named = logs.flatMap((log) => {
    const stem = stemOf(log.uri);
    const at = log.job === undefined ? -1 : stem.indexOf(safeName(log.job));
    return at < 0
      ? []
      : [{ log, around: [stem.slice(0, at), stem.slice(at + safeName(log.job ?? "").length)] }];
  });
  const same = named.findLast(({ log }) => board !== undefined && log.board === board);
  if (same) return safeName(same.around.join(number));
  if (board === undefined) return safeName(number);
  const last = board.split(/[-_.]/).at(-1) ?? board;
  // Where logs are called by the last word of their board's id, this one is as well.
  const short = named.some(({ log, around }) => {
    const word = log.board?.split(/[-_.]/).at(-1);
    return word !== undefined && word !== log.board && around[1] === `-${word}`;
  });
  return safeName(`${number}-${short ? last : board}`);
}

function stemOf(uri: string): string {
  const name = uri.slice(uri.lastIndexOf("/") + 1).replace(/\.\w+$/, "");
  try {
    return decodeURIComponent(name);
  } catch {
    return name;
  }
}

const LONGEST = 80;

/** Letters, digits, dots, dashes and underscores: a name that every file system takes. */
function safeName(text: string): string {
  const plain = text
    .normalize("NFC")
    .replace(/[^\p{L}\p{N}._-]+/gu, "-")
    .slice(0, LONGEST)
    .replace(/^[-.]+|[-.]+$/g, "");
  return plain === "" || /^(?:con|prn|aux|nul|com\d|lpt\d)(?:\.|$)/i.test(plain)
    ? `log${plain && `-${plain}`}`
    : plain;
}
