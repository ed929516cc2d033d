import type { KindRecord } from "./kind";

export default {
  id: "memory-test",
  inJob: 180,
  holds: "memory",
  place: "part",
  judgedBy: "expected",
  observedAs: "memory",
  acrossJobs: "expected",
  covers: "memory",
  mostlyOf: { devices: ["memory"] },
  newLog: {
    fits: ({ memory }) => memory.length > 0,
    columns: ["ref", "result", "note"],
    rows: ({ known }) => (known?.memory ?? []).map(({ ref }) => ({ ref })),
  },
} satisfies KindRecord;
