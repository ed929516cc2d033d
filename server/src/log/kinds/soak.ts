import type { KindRecord } from "./kind";

export default {
  id: "soak",
  inJob: 290,
  holds: "readings",
  place: "time",
  judgedBy: "soak",
  observedAs: "rail",
  // Its rows are one place at several times.
  acrossJobs: "nothing",
  covers: "soak",
  newLog: { fits: () => false, columns: ["elapsed", "rail", "dc", "result", "note"] },
} satisfies KindRecord;
