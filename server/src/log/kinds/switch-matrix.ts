import { hasMatrix, type KindRecord } from "./kind";

export default {
  id: "switch-matrix",
  holds: "readings",
  place: "crossing",
  judgedBy: "expected",
  observedAs: "nothing",
  acrossJobs: "expected",
  covers: "matrix",
  matrix: "switch",
  newLog: { fits: hasMatrix("switch") },
} satisfies KindRecord;
