// Everything of the workspace that has a name: jobs, owners, boards, parts, nets and symptoms, found by a few letters of it.

import type { Steps } from "../../base/steps";
import type { Knowledge, Known } from "../../judge/context";
import type { Board } from "../../knowledge/types";
import type { LogSummary } from "../../log/summary";
import { circuitTitle, partTitle } from "../shared/describe";
import { fuzzy } from "./fuzzy";

/** Something of the workspace that can be found by its name. */
export interface NamedThing {
  readonly kind: "job" | "owner" | "board" | "part" | "net" | "symptom";
  /** What is shown and searched: "U14 74LS14 hex inverter". */
  readonly name: string;
  /** Whose it is, shown behind the name. */
  readonly container: string;
  readonly uri: string;
  /** Keys that lead to it in its board file; absent for a job and its owner: their log's first heading. */
  readonly path?: readonly string[];
}

/** More than these nobody reads through; another letter finds the rest. */
export const MOST = 150;

/**
 * The things whose name has the letters of the query in order, the best first. Without a query jobs and boards only.
 */
export function* thingsNamed(
  query: string,
  knowledge: Knowledge,
  logs: ReadonlyMap<string, LogSummary>,
): Steps<readonly NamedThing[]> {
  const found: { readonly thing: NamedThing; readonly score: number }[] = [];
  let seen = 0;
  for (const thing of named(knowledge, logs, query.trim() !== "")) {
    if (++seen % 500 === 0) yield;
    const score = fuzzy(query, thing.name, thing.container);
    if (score !== undefined) found.push({ thing, score });
  }
  return found
    .sort((a, b) => b.score - a.score || byName(a.thing, b.thing))
    .slice(0, MOST)
    .map(({ thing }) => thing);
}

const byName = (a: NamedThing, b: NamedThing): number =>
  a.name.localeCompare(b.name, "en", { numeric: true });

function* named(
  knowledge: Knowledge,
  logs: ReadonlyMap<string, LogSummary>,
  all: boolean,
): Generator<NamedThing> {
  for (const log of logs.values()) {
    yield job(log);
    if (all) yield* ownerOf(log);
  }
  for (const board of knowledge.boards.values()) {
    const { id, title } = board.value;
    yield {
      kind: "board",
      name: title,
      container: title === id ? "board" : id,
      uri: board.uri,
      path: ["id"],
    };
    if (all) yield* ofBoard(board, knowledge);
  }
}

function job({ uri, job: number, title, board, stage }: LogSummary): NamedThing {
  const words = title ?? decodeURIComponent(uri.slice(uri.lastIndexOf("/") + 1));
  return {
    kind: "job",
    name: number === undefined || words.includes(number) ? words : `${number} ${words}`,
    container: [board, stage].filter(Boolean).join(", "),
    uri,
  };
}

/** Leads to the log of the job, like the job's own name. */
function* ownerOf(log: LogSummary): Generator<NamedThing> {
  const { owner, uri } = log;
  if (owner === undefined || owner.trim() === "") return;
  const { name, container } = job(log);
  yield { kind: "owner", name: owner.trim(), container: [name, container].filter(Boolean).join(", "), uri };
}

function* ofBoard({ uri, value: board }: Known<Board>, { library }: Knowledge): Generator<NamedThing> {
  for (const part of board.parts.values()) {
    const device = part.device === undefined ? undefined : library.device(part.device)?.device;
    const circuit = circuitTitle(part, board);
    yield {
      kind: "part",
      name: `${part.ref} ${partTitle(part, device)}`.trim(),
      container: [board.title, circuit].filter(Boolean).join(", "),
      uri,
      path: ["parts", part.ref],
    };
  }
  for (const symptom of board.symptoms.values())
    yield {
      kind: "symptom",
      name: symptom.title,
      container: `${board.title}, ${symptom.id}`,
      uri,
      path: ["symptoms", symptom.id],
    };
  for (const net of board.nets.values())
    yield { kind: "net", name: net.name, container: board.title, uri, path: ["nets", net.name] };
}
