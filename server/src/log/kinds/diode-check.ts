import { CHIPS, type KindRecord } from "./kind";

export default {
  id: "diode-check",
  holds: "readings",
  place: "pin",
  judgedBy: "diode",
  observedAs: "pin-unpowered",
  acrossJobs: "expected",
  alongNets: "drops",
  firstOfChip: true,
  mostlyOf: CHIPS,
  newLog: {},
} satisfies KindRecord;
