import { holdsFigures, saysUnitOf } from "../content/look";
import type { KindRecord } from "./kind";

export default {
  id: "resistance-to-ground",
  inJob: 40,
  holds: "readings",
  place: "rail",
  judgedBy: "ground",
  observedAs: "rail-to-ground",
  acrossJobs: "expected",
  placed: ["rail-ohms", "pin-ohms"],
  // Before power.
  boardSheet: { order: 1 },
  newLog: { columns: ["rail", "resistance", "note"] },
  claims: (column) =>
    holdsFigures(column) &&
    (column.dimension === "resistance" ||
      (/^r$/.test(column.word) && column.share(saysUnitOf("resistance")) >= 0.3) ||
      /\b(?:ohms?|resistance|r to (?:gnd|ground)|r ?gnd)\b/.test(column.word)),
  byContent: ({ hasPins, rail, ohms, words, headers }) =>
    (hasPins || rail) && ohms.length > 0
      ? /\b(?:ground|gnd|short|shorts|ohms?|resistance)\b/.test([words, ...headers].join(" "))
        ? 3
        : 1
      : 0,
} satisfies KindRecord;
