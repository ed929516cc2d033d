import type { KindRecord } from "./kind";

export default {
  id: "resistance-to-ground",
  holds: "readings",
  place: "rail",
  judgedBy: "ground",
  observedAs: "rail-to-ground",
  acrossJobs: "expected",
  newLog: { columns: ["rail", "resistance", "note"] },
} satisfies KindRecord;
