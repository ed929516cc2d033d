import type { KindRecord } from "./kind";

export default {
  id: "coil-resistance",
  inJob: 100,
  holds: "readings",
  place: "part",
  judgedBy: "coil",
  // Coils hang on the board and are no part of it, but their diodes may be.
  observedAs: "coil",
  acrossJobs: "expected",
  inMachine: true,
  covers: "coils",
  newLog: {
    fits: ({ coils }) => coils.length > 0,
    columns: ["ref", "item", "resistance", "note"],
    rows: ({ known }) => (known?.coils ?? []).map(({ driver, title }) => ({ ref: driver, item: title })),
  },
} satisfies KindRecord;
