import type { KindRecord } from "./kind";

export default {
  id: "parts-fitted",
  inJob: 280,
  holds: "fitted",
  place: "part",
  judgedBy: "expected",
  observedAs: "nothing",
  acrossJobs: "expected",
  newLog: { columns: ["part", "quantity", "ref", "note"] },
} satisfies KindRecord;
