import { CHIPS, type KindRecord } from "./kind";

export default {
  id: "chip-test",
  inJob: 200,
  holds: "readings",
  place: "part",
  outOfCircuit: true,
  judgedBy: "tester",
  observedAs: "tested",
  // One chip was tested, and not what another board has in its place.
  acrossJobs: "nothing",
  // It was not under the load of its place.
  provesNothing: true,
  mostlyOf: CHIPS,
  results: [
    ["fail", "the tester refuses it, every time"],
    ["pass", "not disproved; it may still fail warm or at speed"],
    ["intermittent", "comes and goes"],
    ["-", "not tested"],
  ],
  newLog: {
    // Which chips are worth pulling only the readings tell.
    fits: () => false,
    columns: ["ref", "part", "result", "note"],
  },
  byContent: ({ ref, results, hasPins, words, headers }) =>
    ref &&
    !hasPins &&
    results.length > 0 &&
    /\b(?:tester|out of circuit|ic test|chip test|tested out|pulled and tested)\b/.test(
      [words, ...headers].join(" "),
    )
      ? 2
      : 0,
} satisfies KindRecord;
