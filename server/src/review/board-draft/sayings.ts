// What logs say of their board, each thing with the place where it was said.

import type { AttributedStatement } from "../../judge/stated/types";
import type { FrontMatter } from "../../knowledge/load-front-matter";
import type { LogDocument } from "../../log/document";
import { lineNumberAt } from "../../log/lines";
import { statementsOfLog } from "../../log/stated/of-block";
import type { Statement } from "../../log/stated/statement";

/** A log as it stands, with the front-matter fields that could be read. */
export interface DraftLog {
  readonly doc: LogDocument;
  readonly front: Partial<FrontMatter>;
}

export interface DraftSaying<T extends Statement = Statement> {
  readonly statement: T;
  readonly log: DraftLog;
  /** "log 2026-014, line 31". */
  readonly from: string;
}

/** The last job first: what was read last is nearest to how the boards are now. */
export const logsInOrder = (logs: readonly DraftLog[]): DraftLog[] =>
  [...logs].sort(
    (a, b) => compare(b.front.received ?? "", a.front.received ?? "") || compare(a.doc.uri, b.doc.uri),
  );

/** Not by locale: what is written must not hang on the machine. */
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** All statements of the logs, log by log, each log's in its order. */
export function sayingsOf(logs: readonly DraftLog[]): DraftSaying[] {
  return logs.flatMap((log) =>
    statementsOfLog(log.doc).flatMap(({ start, found }) =>
      found.all.map(({ span, ...statement }) => ({
        statement,
        log,
        from: logLineSource(log, start + span.start),
      })),
    ),
  );
}

export const ofKind = <K extends Statement["kind"]>(
  sayings: readonly DraftSaying[],
  kind: K,
): DraftSaying<Extract<Statement, { kind: K }>>[] =>
  sayings.filter(
    (saying): saying is DraftSaying<Extract<Statement, { kind: K }>> => saying.statement.kind === kind,
  );

/** The place of an offset of the log, as it stands behind what was learned there. */
export const logLineSource = (log: DraftLog, offset: number): string =>
  `log ${nameOf(log)}, line ${lineNumberAt(log.doc, offset)}`;

function nameOf({ doc, front }: DraftLog): string {
  if (front.job) return front.job;
  const name = doc.uri.slice(doc.uri.lastIndexOf("/") + 1);
  try {
    return decodeURIComponent(name);
  } catch {
    return name;
  }
}

/** As the functions that lay statements over a board take them. */
export const asSaid = ({ statement }: DraftSaying): AttributedStatement => ({ statement, by: { by: "log" } });
