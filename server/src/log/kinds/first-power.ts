import type { KindRecord } from "./kind";

export default {
  id: "first-power",
  inJob: 120,
  holds: "readings",
  place: "rail",
  judgedBy: "limited-supply",
  observedAs: "limited-supply",
  // It is of the moment: with what was unplugged, and as far as the voltage was raised.
  acrossJobs: "nothing",
  // What stays up has done no work yet.
  provesNothing: true,
  results: [
    ["stays up", "the supply holds its voltage below the limit"],
    ["shut down", "it tripped, folded back or stayed at its limit"],
    ["-", "not tried"],
  ],
  newLog: {
    // Only who switches on knows from what.
    fits: () => false,
    columns: ["rail", "limit", "load", "dc", "item", "result", "note"],
  },
  byContent: ({ rail, words, headers }) =>
    rail &&
    headers.some((word) => /\blimit\b/.test(word)) &&
    /\b(?:current|amps|drawn|draws)\b/.test([words, ...headers].join(" "))
      ? 3
      : 0,
} satisfies KindRecord;
