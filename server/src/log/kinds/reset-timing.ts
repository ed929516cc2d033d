import type { KindRecord } from "./kind";

export default {
  id: "reset-timing",
  inJob: 150,
  holds: "readings",
  place: "pin",
  judgedBy: "reset",
  observedAs: "pin-powered",
  acrossJobs: "expected",
  covers: "resets",
  newLog: {
    fits: ({ resets }) => resets.length > 0,
    columns: ["ref", "pin", "delay", "note"],
    rows: ({ known }) => (known?.resets ?? []).map(({ ref, pin }) => ({ ref, pin })),
  },
} satisfies KindRecord;
