import { specFor } from "../headers";
import type { KindRecord, ToldByColumns } from "./kind";

export default {
  id: "supply-rails",
  holds: "readings",
  place: "rail",
  judgedBy: "supply",
  observedAs: "rail",
  // What a board file expects of a rail are the rail's own limits.
  acrossJobs: "limits",
  covers: "rails",
  insteadOf: { procedures: ["logic-levels"], claims: namesRails },
  newLog: { each: ["unloaded", "loaded"], columns: ["rail", "dc", "ripple", "note"] },
} satisfies KindRecord;

/** "Voltages" are those of rails, or of pins: a column that only rails have tells. */
export function namesRails({ own, other, words }: ToldByColumns): boolean {
  return words.some((word) => specFor(own, word)?.role === "rail" && specFor(other, word) === undefined);
}
