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
} satisfies KindRecord;
