import type { KindRecord } from "./kind";

export default {
  id: "display",
  inJob: 250,
  holds: "readings",
  place: "item",
  judgedBy: "expected",
  observedAs: "display",
  acrossJobs: "expected",
  newLog: { fits: ({ circuits }) => circuits.has("display"), columns: ["item", "result", "note"] },
  byContent: ({ headers, results, hasPins }) =>
    !hasPins && results.length > 0 && headers.some((word) => /^(?:digits?|segments?)$/.test(word)) ? 2 : 0,
} satisfies KindRecord;
