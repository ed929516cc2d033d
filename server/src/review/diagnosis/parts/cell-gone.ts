// A cell that running words say is off the board: its look is no suspect any more.

import type { LogDocument } from "../../../log/document";
import type { LocatedObservation } from "../observation";
import { sentencesOf } from "../words/sentences";

/** By its designator. */
export const isCell = (ref: string): boolean => /^(?:BT|BAT|B)\d/i.test(ref);

/** What is yet to be done, or was not. */
const NOT_DONE = /\b(?:to be|to come|will|must|should|not|never|before|once|if|when|needs?|still in)\b|\?/i;
/** "BT1 cut out", "took the cell off", "the battery has been removed". */
const cellGone = (ref: string): RegExp =>
  new RegExp(
    `\\b(?:${ref}|cell|battery|accu)\\b[^.;,]{0,24}\\b(?:cut|taken|took|clipped|snipped|came|comes)\\s+(?:out|off|away)\\b|\\b(?:${ref}|cell|battery|accu)\\b[^.;,]{0,24}\\b(?:removed|desoldered|unsoldered|thrown (?:out|away))\\b|\\b(?:cut|took|taken|snipped|clipped|removed|desoldered|unsoldered)\\s+(?:out\\s+|off\\s+)?(?:the\\s+|that\\s+)?(?:old\\s+|leaking\\s+|leaked\\s+|dead\\s+)?(?:${ref}|cell|battery|accu)\\b`,
    "i",
  );

/** "Cell off, vinegar, two days to dry": what was done to it, and nothing else in the clause. */
const cellOff = (ref: string): RegExp =>
  new RegExp(
    `(?:^|[.;:,]\\s*|\\band\\s+|\\bwith\\s+)(?:the\\s+)?(?:old\\s+)?(?:${ref}|cell|battery|accu)\\s+(?:is\\s+|was\\s+)?(?:off|out|gone)\\s*(?:[,;.]|$|and\\b)`,
    "i",
  );

/** "Took it out", after a sentence about it. */
const IT_GONE =
  /^\s*(?:I\s+)?(?:took|cut|snipped|clipped|desoldered|unsoldered|removed|threw)\s+it\b(?!\s+(?:back|in)\b)|^\s*it\s+(?:is|was|went|came)\s+(?:out|off|removed|gone)\b/i;
const isOfCell = (ref: string, text: string): boolean =>
  new RegExp(`\\b(?:${ref}|cell|battery|accu)\\b`, "i").test(text);

/** Without the look of a cell that running words say is off the board; what it left behind has findings of its own. */
export function withoutCellsGone(
  all: readonly LocatedObservation[],
  doc: LogDocument,
): readonly LocatedObservation[] {
  const looks = all.filter(({ look, finding, refs }) => look && finding && refs.some(isCell));
  if (looks.length === 0) return all;
  const said = doc.blocks.flatMap(({ block }) => sentencesOf(block)).map(({ text }) => text);
  const gone = new Set(
    looks.filter(({ refs: [ref = ""] }) =>
      said.some(
        (text, i) =>
          !NOT_DONE.test(text) &&
          (cellGone(ref).test(text) ||
            cellOff(ref).test(text.trim()) ||
            (IT_GONE.test(text) && isOfCell(ref, said[i - 1] ?? ""))),
      ),
    ),
  );
  return all.map((one) => {
    if (!gone.has(one)) return one;
    const { finding: _, ...rest } = one;
    return rest;
  });
}
