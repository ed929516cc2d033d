// Whose word the parts, rails, nets and matrices of a log's board are.
import type { Statement } from "../../log/stated/statement";

/** A log's own word, or that of the other jobs of boards of this type. */
export type SaidBy =
  | { readonly by: "log" }
  | { readonly by: "job"; readonly uri: string; readonly job: string };

/** What a log's board has from logs and not from a board file. */
export interface Stated {
  /** False where no board file stands behind the log. */
  readonly hasFile: boolean;
  /** By designator in capitals: parts whose number or value is not the board file's word. */
  readonly parts: ReadonlyMap<string, SaidBy>;
  /** By the rail's name. */
  readonly rails: ReadonlyMap<string, SaidBy>;
  /** By "REF.PIN" in capitals: pins that are on their net because somebody found them joined to it. */
  readonly pins: ReadonlyMap<string, SaidBy>;
  /** By the matrix's id. */
  readonly matrices: ReadonlyMap<string, SaidBy>;
  /** How many logs of the same board the rest is known from. */
  readonly jobs: number;
}

/** A statement with whose word it is. */
export interface AttributedStatement {
  readonly statement: Statement;
  readonly by: SaidBy;
}

/** What the logs of one board say together; the same object for as long as they say the same. */
export interface SharedStatements {
  readonly said: readonly AttributedStatement[];
  /** Uris of the logs that say something. */
  readonly logs: ReadonlySet<string>;
}

/** The parts, rails or matrices of a board with whose word those are that no file says. */
export interface Layer<T> {
  readonly all: ReadonlyMap<string, T>;
  readonly by: ReadonlyMap<string, SaidBy>;
}
