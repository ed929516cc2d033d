import { isGrid } from "../content/grid";
import { hasMatrix, type KindRecord } from "./kind";

export default {
  id: "lamp-matrix",
  inJob: 240,
  holds: "readings",
  place: "crossing",
  judgedBy: "expected",
  observedAs: "nothing",
  acrossJobs: "expected",
  covers: "matrix",
  matrix: "lamp",
  boardSheet: { order: 5 },
  newLog: { fits: hasMatrix("lamp") },
  byContent: (told) =>
    isGrid(told) &&
    (/\b(?:lamps?|lights?|bulbs?|leds?|illumination)\b/.test(told.words) ||
      told.look.columns
        .slice(1)
        .some(({ texts }) => texts.some((text) => /^(?:lit|dark|unlit)$/i.test(text))))
      ? 2
      : 0,
} satisfies KindRecord;
