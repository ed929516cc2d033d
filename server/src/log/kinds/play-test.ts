import type { KindRecord } from "./kind";

export default {
  id: "play-test",
  inJob: 300,
  holds: "readings",
  place: "item",
  judgedBy: "trial",
  // The machine around it takes part.
  observedAs: "nothing",
  acrossJobs: "nothing",
  rowsAlone: true,
  speaksOfItems: "both",
  results: [
    ["ok", "played without a fault; not disproved"],
    ["fail", "the fault came, as the note says"],
    ["intermittent", "comes and goes"],
    ["-", "not played"],
  ],
  newLog: {
    fits: () => false,
    columns: ["date", "item", "result", "note"],
  },
} satisfies KindRecord;
