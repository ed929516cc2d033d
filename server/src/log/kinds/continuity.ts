import type { Procedure } from "../../knowledge/types";
import { specFor } from "../headers";
import type { KindRecord } from "./kind";

export default {
  id: "continuity",
  inJob: 90,
  holds: "readings",
  place: "ends",
  judgedBy: "ends",
  observedAs: "ends",
  // A connection has two ends.
  acrossJobs: "nothing",
  // A track that is whole says nothing of what works by it.
  provesNothing: true,
  results: [
    ["beep", "the meter beeps: joined"],
    ["no beep", "open, or a part in between"],
    ["intermittent", "comes and goes with pressure, bending or heat"],
  ],
  newLog: {
    // Which points to ring out only the readings tell.
    fits: () => false,
    columns: ["from", "to", "continuity", "note"],
  },
  insteadOf: { procedures: ["resistance"], claims: ({ own, words }) => isPair(own, words) },
  byContent: ({ headers }) =>
    headers.includes("from") && headers.includes("to") && headers.length > 2 ? 1 : 0,
} satisfies KindRecord;

/** Whether a resistance is that of a part or that between two pins: a pair has a column for each end. */
export function isPair(pair: Procedure, words: readonly string[]): boolean {
  const roles = words.map((word) => specFor(pair, word)?.role);
  return roles.includes("from") && roles.includes("to");
}
