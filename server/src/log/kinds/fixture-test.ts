import type { KindRecord } from "./kind";

export default {
  id: "fixture-test",
  inJob: 190,
  holds: "readings",
  place: "item",
  judgedBy: "code",
  observedAs: "code",
  // What failed here was this board.
  acrossJobs: "nothing",
  // A program without a code reaches what it tests, slowly and cold.
  speaksOfItems: "against",
  results: [
    ["ok", "it came to its end without a code; not disproved"],
    ["fail", "it stopped without a code"],
    ["-", "not run"],
  ],
  newLog: {
    fits: ({ codes }) => (codes?.size ?? 0) > 0,
    columns: ["item", "result", "note"],
  },
} satisfies KindRecord;
