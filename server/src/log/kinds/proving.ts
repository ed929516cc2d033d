import type { KindRecord } from "./kind";

export default {
  id: "proving",
  inJob: 310,
  holds: "proving",
  place: "item",
  judgedBy: "expected",
  observedAs: "nothing",
  acrossJobs: "expected",
  newLog: {
    columns: ["date", "item", "result", "note"],
    rows: ({ known }) => (known?.proving ?? []).map(({ title }) => ({ item: title })),
  },
} satisfies KindRecord;
