// What the program and its threads tell each other: plain data that a thread may be sent.
import type { OwnSettings } from "../../checks/check";
import type { Sums } from "../../workspace/shared-sums";
import type { FileProblem, Group } from "../targets";
import type { PackedResults } from "./packed-results";

/** What every thread needs to begin with. */
export interface Opening {
  readonly group: Group;
  readonly severity: OwnSettings["severity"];
  readonly chosen: ReadonlyMap<string, ReadonlyMap<string, number>>;
  readonly cwd: string;
}

export type Task =
  /** Of the group's Markdown files, by their places in `Desk.markdown()`. */
  | { readonly kind: "sum"; readonly at: readonly number[] }
  | { readonly kind: "recall"; readonly sums: readonly Sums[] }
  /** Of the group's files, by their places in it. */
  | { readonly kind: "check"; readonly at: readonly number[] };

export interface Replies {
  readonly sum: Sums;
  readonly recall: undefined;
  /** With the knowledge files that could not be read. */
  readonly check: { readonly files: PackedResults; readonly unread: readonly FileProblem[] };
}

/** A thread that works on what it is asked, one task after another. */
export interface Thread {
  /** @throws Error where the thread broke down */
  ask<K extends Task["kind"]>(task: Extract<Task, { kind: K }>): Promise<Replies[K]>;
  end(): Promise<void>;
}

/** Starts a thread; how many are worth it is known where they come from. */
export interface Threads {
  readonly most: number;
  start(opening: Opening): Thread;
}
