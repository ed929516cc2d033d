import { CHIPS, type KindRecord } from "./kind";

export default {
  id: "logic-states",
  holds: "readings",
  place: "pin",
  judgedBy: "state",
  observedAs: "power-pin",
  acrossJobs: "expected",
  alongNets: "states",
  gates: true,
  mostlyOf: CHIPS,
} satisfies KindRecord;
