// What a log found at a crossing of a matrix, the latest word on it.

import { crossingKey } from "../../compute/matrix/shape";
import type { Board } from "../../knowledge/types";
import type { LogDocument } from "../../log/document";
import { latestOf } from "../../log/timeline/latest";
import { matrixLogs } from "../matrix/from-log";
import type { NamedInput } from "./inputs";

const WORDS = {
  works: "works",
  dead: "dead",
  stuck: "stuck closed",
  intermittent: "comes and goes",
  "closes-others": "closes others",
} as const;

/** Gives the latest result at an input's crossing in a word; undefined where none was recorded. */
export function resultsAt(doc: LogDocument, board: Board): (input: NamedInput) => string | undefined {
  const logs = matrixLogs(doc, board);
  return ({ matrix, cell }) => {
    const log = logs.find((each) => each.matrix === matrix);
    const all = (log?.tables ?? []).flatMap(({ phase, entries }) =>
      entries.flatMap((entry) =>
        "recorded" in entry && crossingKey(entry.recorded) === crossingKey(cell)
          ? [{ phase, state: entry.recorded.result.state }]
          : [],
      ),
    );
    const last = latestOf(
      all,
      () => cell,
      ({ phase }) => phase,
    ).at(-1);
    return last && WORDS[last.state];
  };
}
