import { isPair } from "./continuity";
import type { KindRecord } from "./kind";

export default {
  id: "resistance",
  holds: "readings",
  place: "part",
  judgedBy: "passive",
  observedAs: "part",
  acrossJobs: "told",
  mostlyOf: { designator: /^RN?\d/i },
  insteadOf: { procedures: ["continuity"], claims: ({ other, words }) => !isPair(other, words) },
} satisfies KindRecord;
