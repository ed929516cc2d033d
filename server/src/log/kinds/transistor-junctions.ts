import { isDiode, MOSTLY } from "../content/look";
import type { KindRecord } from "./kind";

/** "B-E", "Vbe", "base to collector". */
const PAIR =
  /^v?(?:[bce] ?(?:[-/]|to)? ?[bce]|(?:base|collector|emitter)[- ](?:to )?(?:base|collector|emitter))$/;

export default {
  id: "transistor-junctions",
  inJob: 60,
  holds: "readings",
  place: "part",
  judgedBy: "junction",
  observedAs: "junctions",
  acrossJobs: "expected",
  mostlyOf: { devices: ["transistor"] },
  byContent: ({ headers, ref, hasPins, volts }) => {
    if (ref && headers.filter((word) => PAIR.test(word)).length >= 2) return 3;
    return ref && !hasPins && volts.length > 0 && ref.share(isDiode) >= MOSTLY ? 2 : 0;
  },
  refuses: ({ hasPins, pin, headers, volts }) =>
    hasPins && pin !== undefined && volts.length > 0 && !headers.some((word) => PAIR.test(word)),
} satisfies KindRecord;
