import { isChip, isPin, MOSTLY } from "../content/look";
import { isPair } from "./continuity";
import type { KindRecord } from "./kind";

export default {
  id: "resistance",
  inJob: 70,
  holds: "readings",
  place: "part",
  judgedBy: "passive",
  observedAs: "part",
  acrossJobs: "told",
  placed: ["part-ohms"],
  mostlyOf: { designator: /^RN?\d/i },
  insteadOf: { procedures: ["continuity"], claims: ({ other, words }) => !isPair(other, words) },
  byContent: ({ ref, ohms, hasPins }) =>
    ref && !hasPins && ohms.length > 0 && ref.share((text) => /^RN?\d/i.test(text)) >= MOSTLY ? 2 : 0,
  refuses: ({ ref, pin, rail, hasPins, ohms }) =>
    (rail !== undefined && !ref && ohms.length > 0) ||
    (hasPins && ohms.length > 0 && (pin?.share(isPin) ?? 1) >= MOSTLY && (ref?.share(isChip) ?? 1) >= MOSTLY),
} satisfies KindRecord;
