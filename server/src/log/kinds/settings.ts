import type { KindRecord } from "./kind";

export default {
  id: "settings",
  inJob: 20,
  holds: "settings",
  place: "switch",
  judgedBy: "expected",
  observedAs: "nothing",
  acrossJobs: "expected",
  covers: "settings",
  mostlyOf: { designator: /^SW\d/i },
  newLog: { fits: ({ switchBanks }) => switchBanks.size > 0 },
} satisfies KindRecord;
