import { CHIPS, type KindRecord } from "./kind";

export default {
  id: "heat-and-tap",
  inJob: 220,
  holds: "readings",
  place: "part",
  judgedBy: "stress",
  observedAs: "stress",
  // Where this board's fault comes and goes.
  acrossJobs: "nothing",
  // A fault that did not come may come yet.
  provesNothing: true,
  mostlyOf: CHIPS,
  results: [
    ["fault comes", "it was not there before"],
    ["fault goes", "it was there before"],
    ["no change", "not disproved"],
    ["-", "not tried"],
  ],
  newLog: {
    fits: () => false,
    columns: ["ref", "item", "result", "note"],
  },
} satisfies KindRecord;
