import type { Procedure } from "../../knowledge/types";
import { specFor } from "../headers";
import type { KindRecord } from "./kind";

export default {
  id: "continuity",
  holds: "readings",
  place: "ends",
  judgedBy: "expected",
  observedAs: "nothing",
  // A connection has two ends.
  acrossJobs: "nothing",
  insteadOf: { procedures: ["resistance"], claims: ({ own, words }) => isPair(own, words) },
  byContent: ({ headers }) =>
    headers.includes("from") && headers.includes("to") && headers.length > 2 ? 1 : 0,
} satisfies KindRecord;

/** Whether a resistance is that of a part or that between two pins: a pair has a column for each end. */
export function isPair(pair: Procedure, words: readonly string[]): boolean {
  const roles = words.map((word) => specFor(pair, word)?.role);
  return roles.includes("from") && roles.includes("to");
}
