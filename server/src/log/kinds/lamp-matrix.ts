import { hasMatrix, type KindRecord } from "./kind";

export default {
  id: "lamp-matrix",
  holds: "readings",
  place: "crossing",
  judgedBy: "expected",
  observedAs: "nothing",
  acrossJobs: "expected",
  covers: "matrix",
  matrix: "lamp",
  newLog: { fits: hasMatrix("lamp") },
} satisfies KindRecord;
