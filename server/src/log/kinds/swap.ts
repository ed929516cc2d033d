import { CHIPS, type KindRecord } from "./kind";

export default {
  id: "swap",
  inJob: 210,
  holds: "swaps",
  place: "part",
  // The part that was in circuit is the one that was tried, and the board's own was out.
  outOfCircuit: true,
  judgedBy: "swap",
  observedAs: "swapped",
  // What helped here is told by the work, and by what the symptom was.
  acrossJobs: "nothing",
  // What another part did says nothing of what the board does with its own.
  provesNothing: true,
  mostlyOf: CHIPS,
  results: [
    ["cured", "the fault is gone with the other part in"],
    ["better", "less of the fault"],
    ["same", "no change"],
    ["worse", "more of it, or another fault"],
    ["-", "not tried"],
  ],
  actions: [
    ["put back", "the board's own part is back in"],
    ["left in", "the part that was tried stays: it counts as fitted"],
  ],
  newLog: {
    // Which parts are worth a swap only the readings tell.
    fits: () => false,
    columns: ["ref", "part", "result", "action", "note"],
  },
  byContent: ({ ref, hasPins, words, headers }) =>
    ref &&
    !hasPins &&
    /\b(?:known[- ]good|swap(?:ped)?|donor|substitut\w+)\b/.test([words, ...headers].join(" ")) &&
    headers.includes("result")
      ? 2
      : 0,
} satisfies KindRecord;
