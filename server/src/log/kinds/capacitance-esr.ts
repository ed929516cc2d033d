import type { KindRecord } from "./kind";

export default {
  id: "capacitance-esr",
  holds: "readings",
  place: "part",
  judgedBy: "passive",
  observedAs: "part",
  acrossJobs: "told",
  mostlyOf: { designator: /^C\d/i },
} satisfies KindRecord;
