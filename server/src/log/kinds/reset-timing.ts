import type { KindRecord } from "./kind";

const TIMES = /\b(?:delay|time|width|period|m?s|sec(?:onds?)?|\u00b5s)\b/;
const HAS_TIME = /\d\s*(?:m?s|\u00b5s|us|sec)\b/;

export default {
  id: "reset-timing",
  inJob: 150,
  holds: "readings",
  place: "pin",
  judgedBy: "reset",
  observedAs: "pin-powered",
  acrossJobs: "expected",
  covers: "resets",
  // Figures at one pin after the other along the way of a reset are levels, unless somebody says that they are times.
  refuses: ({ hasPins, volts, headers, rows, look }) =>
    hasPins &&
    rows >= 3 &&
    volts.length > 0 &&
    !headers.some((word) => TIMES.test(word)) &&
    !look.columns.some(({ texts }) => texts.some((text) => HAS_TIME.test(text))),
  newLog: {
    fits: ({ resets }) => resets.length > 0,
    columns: ["ref", "pin", "delay", "note"],
    rows: ({ known }) => (known?.resets ?? []).map(({ ref, pin }) => ({ ref, pin })),
  },
} satisfies KindRecord;
