import { isGrid, isListOfCrossings } from "../content/grid";
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
  byContent: (told) => {
    const said = [told.words, ...told.headers].join(" ");
    if (!isGrid(told) && !isListOfCrossings(told)) return 0;
    // Of a matrix that says no more, switches are what is asked first; lamps are lit or dark.
    const isSaid =
      /\b(?:switch(?:es)?|keys?|keyboard|buttons?|contacts?|inputs?|matrix|by hand|pressed|closed by)\b/.test(
        said,
      );
    return isSaid && !/\b(?:lamps?|lights?|bulbs?|leds?)\b/.test(told.words) ? 2 : 0;
  },
} satisfies KindRecord;
