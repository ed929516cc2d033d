import type { KindRecord } from "./kind";

export default {
  id: "transistor-junctions",
  holds: "readings",
  place: "part",
  judgedBy: "junction",
  observedAs: "junctions",
  acrossJobs: "expected",
  mostlyOf: { devices: ["transistor"] },
} satisfies KindRecord;
