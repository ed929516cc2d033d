import { specFor } from "../headers";
import type { ColumnClues, KindRecord } from "./kind";

export default {
  id: "supply-rails",
  inJob: 130,
  holds: "readings",
  place: "rail",
  judgedBy: "supply",
  observedAs: "rail",
  // What a board file expects of a rail are the rail's own limits.
  acrossJobs: "limits",
  placed: ["rail-volts"],
  covers: "rails",
  insteadOf: { procedures: ["logic-levels"], claims: namesRails },
  boardSheet: { order: 2, said: ["unloaded", "loaded"] },
  newLog: { each: ["unloaded", "loaded"], columns: ["rail", "dc", "ripple", "note"] },
  byContent: ({ rail, volts, ohms, rows }) =>
    rail && volts.length > 0 && ohms.length === 0 && rows > 0 ? 2 : 0,
  // "Voltages" may be those of pins; "Supply rails" are what they say.
  refuses: (told) =>
    !/\b(?:suppl(?:y|ies)|rails?|psu|ripple)\b/.test(told.words) &&
    told.rail === undefined &&
    told.hasPins &&
    !told.headers.some((word) => /\b(?:rail|supply)\b/.test(word)) &&
    (told.volts.length > 0 || told.states.length > 0),
} satisfies KindRecord;

/** "Voltages" are those of rails, or of pins: a column that only rails have tells. */
export function namesRails({ own, other, words }: ColumnClues): boolean {
  return words.some((word) => specFor(own, word)?.role === "rail" && specFor(other, word) === undefined);
}
