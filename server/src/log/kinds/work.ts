import type { KindRecord } from "./kind";

export default {
  id: "work",
  inJob: 270,
  holds: "work",
  place: "part",
  judgedBy: "expected",
  observedAs: "nothing",
  acrossJobs: "expected",
  newLog: { columns: ["date", "ref", "action", "part", "note"] },
} satisfies KindRecord;
