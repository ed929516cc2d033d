// A part's own reading that is a slip as likely as not: it is read once more before anything is done about it.
import type { Candidate } from ".";
import type { Conflict } from "./conflict";
import type { Settling } from "./settle";

/** Share from which a slip is worth a second look, and minutes of that. Common practice, no source. */
const LIKELY = 0.4;
const MINUTES_AGAIN = 0.25;
/** A fault reads the second time as it did the first. */
const AGAIN = 0.95;

/** One for each reading of a part by itself that the explanations make a slip of. */
export function slipSettlings(conflicts: readonly Conflict[], candidates: readonly Candidate[]): Settling[] {
  return conflicts.flatMap(({ findings: [finding, second], members }): Settling[] => {
    if (finding?.kind !== "part" || second || finding.surface || /inspection$/.test(finding.of)) return [];
    const slip = members.find(({ suspect }) => suspect.kind === "misreading")?.suspect.id;
    const share = candidates
      .filter(({ suspects }) => suspects.some(({ id }) => id === slip))
      .reduce((sum, { probability }) => sum + probability, 0);
    if (share < LIKELY) return [];
    return [
      {
        kind: "read-again",
        ref: finding.ref,
        live: false,
        first: true,
        minutes: MINUTES_AGAIN,
        action: `Read ${finding.of} again, with the range and the point looked at`,
        wrong: "the same as before",
        shows: new Map(
          members.flatMap(({ suspect }) => (suspect.kind === "misreading" ? [] : [[suspect.id, AGAIN]])),
        ),
      },
    ];
  });
}
