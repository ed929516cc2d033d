import { isChip, isDiode, isPin, MOSTLY } from "../content/look";
import { isPair } from "./continuity";
import type { KindRecord } from "./kind";

const WAY = /^(?:fwd|forwards?|one way|this way|rev|reversed?|backwards?|other way|the other way)\b/;

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
  // Diodes both ways round were read on another range, whatever stands over them.
  refuses: ({ ref, pin, rail, hasPins, ohms, volts, headers }) =>
    (!hasPins &&
      volts.length > 0 &&
      (ref?.share(isDiode) ?? 0) >= MOSTLY &&
      headers.filter((word) => WAY.test(word)).length > 1) ||
    (rail !== undefined && !ref && ohms.length > 0) ||
    (hasPins && ohms.length > 0 && (pin?.share(isPin) ?? 1) >= MOSTLY && (ref?.share(isChip) ?? 1) >= MOSTLY),
} satisfies KindRecord;
