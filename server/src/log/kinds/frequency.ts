import type { KindRecord } from "./kind";

export default {
  id: "frequency",
  inJob: 140,
  holds: "readings",
  place: "pin",
  judgedBy: "clock",
  observedAs: "pin-powered",
  acrossJobs: "expected",
  newLog: {
    fits: ({ clocks }) => clocks.length > 0,
    columns: ["ref", "pin", "frequency", "note"],
    rows: ({ known }) => (known?.clocks ?? []).map(({ ref, pin }) => ({ ref, pin })),
  },
} satisfies KindRecord;
