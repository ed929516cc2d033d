import { isGrid } from "../content/grid";
import { hasMatrix, type KindRecord } from "./kind";

export default {
  id: "switch-matrix",
  inJob: 230,
  holds: "readings",
  place: "crossing",
  judgedBy: "expected",
  observedAs: "nothing",
  acrossJobs: "expected",
  covers: "matrix",
  matrix: "switch",
  boardSheet: { order: 4 },
  newLog: { fits: hasMatrix("switch") },
  byContent: (told) =>
    isGrid(told) && /\b(?:switch(?:es)?|keys?|keyboard|buttons?|contacts?|inputs?)\b/.test(told.words)
      ? 2
      : 0,
} satisfies KindRecord;
