import { specFor } from "../headers";
import type { ColumnClues, KindRecord } from "./kind";

export default {
  id: "parts-on-board",
  inJob: 30,
  holds: "parts",
  place: "part",
  judgedBy: "expected",
  observedAs: "nothing",
  acrossJobs: "expected",
  insteadOf: { procedures: ["parts-fitted"], claims: isList },
  newLog: { untold: true, columns: ["ref", "part", "circuit", "note"] },
  byContent: ({ ref, device, pin, volts, ohms, states, headers, words }) =>
    ref &&
    device &&
    !pin &&
    [...volts, ...ohms, ...states].length === 0 &&
    !/\b(?:fitted|replaced|new|ordered|order|buy|bought|used|swapped|changed|spare|stock|qty|quantity|price|supplier)\b/.test(
      [words, ...headers].join(" "),
    )
      ? 1
      : 0,
} satisfies KindRecord;

/** A list of what is on the board, though its heading could be that of what was fitted: it counts and dates nothing. */
function isList({ heading, words, other }: ColumnClues): boolean {
  if (!/^[^\p{L}]*(?:parts(?: list)?|components|materials)[^\p{L}]*$/iu.test(heading ?? "")) return false;
  return !words.some((word) => {
    const role = specFor(other, word)?.role;
    return (
      role === "quantity" || role === "date" || role === "check" || /fitted|new|supplier|source/.test(word)
    );
  });
}
