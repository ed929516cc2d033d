// A reset that is right from cold and far too short where the power was off only for a moment: the capacitor charges as it
// should, so it is sound, and nothing empties it.

import type { Board } from "../../../knowledge/types";
import type { Reading } from "../../../log/model";
import type { LocatedObservation } from "../observation";

const SHORT =
  /\b(?:(?:off|out) for (?:a |one |two |three |\d+ ?)(?:moment|s|sec|seconds?)|(?:quick|short|warm|brief)(?:ly)?|blink|flick|restart(?:ed)?|at once|straight (?:on|back))\b/i;

/** By the words over the table or beside the reading, the power had been off only for a moment. */
export const isRestart = ({ table, subject }: Reading): boolean =>
  SHORT.test(table.section.heading?.text ?? "") || SHORT.test(subject.note?.text ?? "");

/** The observations, with a delay that is too short only on a restart taken for what it is. */
export function notEmptied(all: readonly LocatedObservation[], board: Board): readonly LocatedObservation[] {
  const right = all.filter(({ reset }) => reset?.isRight && !reset.isRestart);
  return all.map((one): LocatedObservation => {
    const { finding, reset, phase } = one;
    const early = finding?.kind === "sign" && finding.sign === "reset-delay" && finding.state === "low";
    if (!early || !reset?.isRestart) return one;
    const isCold = right.some((other) => other.reset?.ref === reset.ref && other.phase === phase);
    const at = board.resets.find(({ ref }) => ref === reset.ref);
    if (!isCold || at?.resistor === undefined) return one;
    return {
      ...one,
      finding: {
        ...finding,
        sign: "reset-not-emptied",
        says: `Reset at ${reset.ref} is right from cold and too short when the power was off for a moment: its capacitor is not emptied.`,
      },
    };
  });
}
