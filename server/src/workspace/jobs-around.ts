// What the workspace's jobs tell of a log, as it stands in the editor where it is open there, else on disk.
import type { Steps } from "../base/steps";
import { boardHistory, referenceJobs, returnedJobs } from "../judge/baseline/history";
import type { Knowledge, Known } from "../judge/context";
import type { ReadBefore } from "../judge/reference-job/proposal";
import type { Board } from "../knowledge/types";
import { byUri } from "../log/job-index";
import { eachBoard, type LogSummary, summarise } from "../log/summary";
import type { RelatedJobs } from "../review/comeback";
import { type ShopNumbers, shopNumbers } from "../review/numbers";
import { compareValues } from "../review/numbers/order";
import type { JobsMemory } from "./jobs-memory";
import type { KnowledgeStore } from "./knowledge-store";
import { commonBoard } from "./log-board";
import type { LogViews } from "./log-views";
import type { Viewed } from "./open-logs";
import { metersOf } from "./references";

/** What is left of a uri without its scheme, its host and what stands behind the path. */
const pathOf = (uri: string): string => uri.replace(/^[a-z][\w+.-]*:(?:\/\/[^/?#]*)?|[?#].*$/gi, "");

/** Answers what other jobs mean for a log; it keeps nothing of its own. */
export class JobsAround {
  readonly #memory: JobsMemory;
  readonly #views: LogViews;
  readonly #knowledge: KnowledgeStore;

  constructor(memory: JobsMemory, views: LogViews, knowledge: KnowledgeStore) {
    this.#memory = memory;
    this.#views = views;
    this.#knowledge = knowledge;
  }

  /** Every log of the workspace, summed up, by uri. */
  all(): ReadonlyMap<string, LogSummary> {
    const jobs = new Map(this.#memory.memory.logs);
    const onDisk = new Map([...jobs.keys()].map((uri) => [pathOf(uri), uri]));
    for (const uri of this.#views.open.uris()) {
      // What an editor shows beside a file, its older text or what an edit would make of it, is no job of its own.
      if (!jobs.has(uri) && onDisk.has(pathOf(uri))) continue;
      const view = this.#views.of(uri);
      if (view) jobs.set(uri, summarise(view.doc));
      else jobs.delete(uri);
    }
    return jobs;
  }

  /** The earlier jobs that a log's readings are held against: other objects where they changed, undefined where none are. */
  heldAgainst(uri: string): readonly (object | undefined)[] {
    const open = this.#views.of(uri);
    if (open) return (open.set ?? [open]).flatMap(({ ctx }) => [ctx.baselines?.history, ctx.references?.of]);
    const summary = this.#memory.memory.logs.get(uri);
    return (summary ? eachBoard([summary]) : []).flatMap(({ board }) =>
      board === undefined ? [] : this.#heldAgainst(board, this.#knowledge.snapshot()),
    );
  }

  /** The same for every board, in one order for as long as the board files stay the same; in steps. */
  *allHeldAgainst(): Steps<readonly (object | undefined)[]> {
    const knowledge = this.#knowledge.snapshot();
    yield;
    const named = eachBoard(this.#memory.memory.logs.values()).flatMap(({ board }) => board ?? []);
    const all: (object | undefined)[] = [];
    for (const id of new Set([...knowledge.boards.keys(), ...named])) {
      yield* this.#memory.prepareShared(id, knowledge.library);
      all.push(...this.#heldAgainst(id, knowledge));
      yield;
    }
    return all;
  }

  /** What all logs of a board have read, as they stand in the editor where they are open; undefined without a board file. */
  readBefore(id: string): (ReadBefore & { readonly file: Known<Board> }) | undefined {
    const knowledge = this.#knowledge.snapshot();
    const file = knowledge.boards.get(id);
    const board = file && this.#commonBoard(id, knowledge)?.value;
    if (!file || !board) return undefined;
    const { library } = knowledge;
    const all = this.all();
    const logs = referenceJobs(all, id);
    return {
      file,
      returned: boardHistory(returnedJobs(all, id), board, library),
      references: { history: boardHistory(logs, board, library), meters: metersOf(logs, knowledge) },
    };
  }

  /** What the files and all logs know of a board. */
  boardOf(id: string): Board | undefined {
    return this.#commonBoard(id, this.#knowledge.snapshot())?.value;
  }

  /** What the jobs that count add up to. @param logs all of them */
  numbers(
    counts: (uri: string) => boolean = () => true,
    logs: ReadonlyMap<string, LogSummary> = this.all(),
  ): ShopNumbers {
    const jobs = [...logs.values()].filter(({ uri }) => counts(uri));
    const counted = byUri(jobs.sort((a, b) => compareValues(a.uri, b.uri)));
    const { library } = this.#knowledge.snapshot();
    return shopNumbers({ logs: counted, library, boardOf: (id) => this.boardOf(id) });
  }

  related(uri: string): RelatedJobs | undefined {
    const view = this.#views.of(uri);
    if (view) return this.relatedTo(view);
    const summary = this.#memory.memory.logs.get(uri);
    return summary && this.#memory.related(summary);
  }

  relatedTo({ doc, front }: Pick<Viewed, "doc" | "front">): RelatedJobs | undefined {
    return this.#memory.related({ ...front, uri: doc.uri }, doc.ofSet?.name);
  }

  #heldAgainst(id: string, knowledge: Knowledge): readonly (object | undefined)[] {
    const board = this.#commonBoard(id, knowledge);
    if (!board) return [undefined, undefined];
    return [this.#memory.historyOf(board, knowledge), this.#memory.referencesOf(board, knowledge)];
  }

  #commonBoard(id: string, knowledge: Knowledge): Known<Board> | undefined {
    const shared = this.#memory.sharedOf(id, knowledge.library, undefined);
    return commonBoard(id, knowledge.boards.get(id), shared, knowledge.library);
  }
}
