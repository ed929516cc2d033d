import { documentCheck } from "./check";

/** Reported by the runner where another check throws; never runs by itself. */
export default documentCheck({
  code: "check-failed",
  title: "A check that broke down",
  severity: "information",
  scope: "document",
  why: "A fault in Mendlog itself. The findings of all other checks are complete; those of the one named are not.",
  remedy: "Please report it with the message and, if you can, the section it happened in.",
  examples: { bad: [], good: [] },
  run: () => [],
  noFix: "The fault is in the program.",
});
