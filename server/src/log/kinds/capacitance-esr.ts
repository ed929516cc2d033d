import { MOSTLY } from "../content/look";
import type { KindRecord } from "./kind";

export default {
  id: "capacitance-esr",
  inJob: 80,
  holds: "readings",
  place: "part",
  judgedBy: "passive",
  observedAs: "part",
  acrossJobs: "told",
  mostlyOf: { designator: /^C\d/i },
  byContent: ({ ref, farads, headers }) =>
    ref &&
    ref.share((text) => /^C\d/i.test(text)) >= MOSTLY &&
    (farads.length > 0 || headers.some((word) => /\besr\b/.test(word)))
      ? 2
      : 0,
} satisfies KindRecord;
