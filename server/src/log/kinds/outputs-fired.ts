import type { KindRecord } from "./kind";

export default {
  id: "outputs-fired",
  inJob: 260,
  holds: "readings",
  place: "item",
  judgedBy: "trial",
  observedAs: "driver",
  // What was tried are the driver, its wiring and its load together.
  acrossJobs: "nothing",
  rowsAlone: true,
  covers: "coils",
  fires: true,
  mostlyOf: { designator: /^(?:Q|U|IC|T)\d/i },
  results: [
    ["fires", "pulls in or lights, and lets go; not disproved"],
    ["weak", "does it, but not as it should"],
    ["dead", "does nothing"],
    ["locked on", "stays on: switch off at once"],
    ["-", "not fired"],
  ],
  newLog: {
    // A board file names its coils where it drives any.
    fits: ({ coils }) => coils.length > 0,
    columns: ["item", "ref", "result", "note"],
  },
} satisfies KindRecord;
