// Two points by what the board says of them: along one net a meter beeps, from one net to another it does not.

import { defined } from "../base/defined";
import { CONTINUITY } from "../log/measures";
import type { Reading } from "../log/model";
import { parseCell } from "../quantity/parse-cell";
import type { Saying } from "../text/saying";
import type { LogContext } from "./context";
import { unjudged } from "./judgement-from";
import { canBeep, type EndsRead, endsRead, heardIn, isWholeBoard, mustJoin } from "./nets/ends";
import { partTestPoint, pinTestPoint, type TestPoint } from "./test-point";
import type { Judgement } from "./types";

type Ruled = Pick<Judgement, "verdict" | "code" | "side"> & { readonly says: Saying };

/** Common practice, no source. */
const LOOK_ALONG = "Measure from leg to leg along it, flexing the board gently.";

/** Undefined where the table measures something else. */
export function judgeEnds(
  reading: Reading,
  _: TestPoint | undefined,
  ctx: LogContext,
): Judgement | undefined {
  const { subject, measure } = reading;
  if (measure !== CONTINUITY || !subject.from || !subject.to) return undefined;
  const board = ctx.board?.value;
  const ends = endsRead(reading, board, ctx.library);
  const said = subject.expected?.text && ruleBySaid(reading, subject.expected.text);
  if (!board || !ends)
    return said ? { reading, ...said } : unjudged(reading, undefined, `${ofRow(reading)}: ${UNKNOWN}`);
  const at = ends.from.at ?? ends.to.at;
  const place = at && pinTestPoint(partTestPoint(at.ref, board, ctx.library), at.pin, board);
  const ruled =
    said ||
    (ends.from.net === ends.to.net
      ? alongNet(ends, reading)
      : betweenNets(ends, reading, mustJoin(ends, reading, board), {
          can: canBeep(ends, board),
          isWhole: isWholeBoard(ends, reading, board),
        }));
  return defined({ reading, place, ...ruled });
}

/** What two points that have not been tried yet should come to; undefined where no net is known for both. */
export function endsExpected(reading: Reading, { board, library }: LogContext): string | undefined {
  const ends = endsRead(reading, board?.value, library);
  if (!ends || !board) return undefined;
  const { from, to } = ends;
  if (from.net === to.net) return `It should beep: both are on ${from.net.name}.`;
  const joins = mustJoin(ends, reading, board.value);
  return joins === undefined
    ? `It should not beep: ${from.net.name} and ${to.net.name} are two nets. Parts between them can.`
    : `It should beep by way of ${joins}.`;
}

const UNKNOWN = "no net is known for both, so this is not judged. A beep can go into the board file.";

const ofRow = ({ subject }: Reading): string => `${subject.from?.text} to ${subject.to?.text}`;
const reads = ({ value }: Reading): string =>
  value.kind === "quantity" || value.kind === "range" || value.kind === "bound"
    ? `reads ${value.typed}`
    : value.kind === "short"
      ? "beeps"
      : value.kind === "open"
        ? "does not beep"
        : `reads "${value.typed}"`;

/** The row's own word of what should be there goes before the board's. */
function ruleBySaid(reading: Reading, expected: string): Ruled | undefined {
  const wanted = heardIn(parseCell(expected, { kind: "quantity", unit: "ohm", beeps: true }));
  const heard = heardIn(reading.value);
  if ((wanted !== "joined" && wanted !== "open") || !heard) return undefined;
  const of = ofRow(reading);
  if (heard === wanted)
    return {
      verdict: "within-limits",
      says: { fact: `${of} ${reads(reading)}, as this row expects.`, cause: NOT_PROVEN },
    };
  if (wanted === "joined") return opened(`${of} ${reads(reading)}; this row expects a beep.`, heard);
  return heard === "unsure"
    ? undecided(`${of} ${reads(reading)}; this row expects no beep.`)
    : heard === "some"
      ? undecided(`${of} ${reads(reading)}, so a part lies between; this row expects no beep.`)
      : bridged(`${of} ${reads(reading)}; this row expects no beep.`);
}

const NOT_PROVEN = "A crack that opens warm or bent is not disproved.";

function alongNet({ from, of, heard }: EndsRead, reading: Reading): Ruled {
  const net = from.net.name;
  switch (heard) {
    case "joined":
      return {
        verdict: "within-limits",
        says: { fact: `${of} ${reads(reading)}, as both are on ${net}.`, cause: NOT_PROVEN },
      };
    case "open":
    case "unsure":
      return opened(`${of} ${reads(reading)}; both are on ${net}.`, heard);
    default:
      return {
        verdict: "suspect",
        code: "continuity-open",
        side: "high",
        says: {
          fact: `${of} ${reads(reading)}; both are on ${net}, and a track reads below 5 Ω.`,
          cause: "A corroded via, a poor joint or a dirty contact between them.",
          step: LOOK_ALONG,
        },
      };
  }
}

interface Between {
  /** Parts between the two that a beeper hears. */
  readonly can: readonly string[];
  readonly isWhole: boolean;
}

function betweenNets(
  { from, to, of, heard }: EndsRead,
  reading: Reading,
  joins: string | undefined,
  { can, isWhole }: Between,
): Ruled {
  const nets = `${from.net.name} and ${to.net.name}`;
  if (joins !== undefined)
    return heard === "open" || heard === "unsure"
      ? opened(
          `${of} ${reads(reading)}, and ${joins} lies between.`,
          heard,
          `${joins} or a joint of it is open.`,
        )
      : { verdict: "within-limits", says: { fact: `${of} ${reads(reading)} by way of ${joins}.` } };
  switch (heard) {
    case "open":
      return {
        verdict: "within-limits",
        says: { fact: `${of} ${reads(reading)}; they are two nets, ${nets}.` },
      };
    case "joined":
      if (can.length > 0)
        return undecided(`${of} ${reads(reading)}, but ${can.join(", ")} between ${nets} can be heard.`);
      return isWhole
        ? undecided(`${of} beeps; they are supply nets, ${nets}, and a full board between them can beep.`)
        : bridged(`${of} ${reads(reading)}; they are two nets, ${nets}.`);
    default:
      return undecided(`${of} ${reads(reading)}; they are two nets, ${nets}, with a part between.`);
  }
}

const opened = (fact: string, heard: string, cause?: string): Ruled => ({
  verdict: heard === "unsure" ? "suspect" : "out-of-limits",
  code: "continuity-open",
  side: "high",
  says: {
    fact,
    cause: cause ?? "The track, a via, a joint or a socket contact between them is open.",
    step: LOOK_ALONG,
  },
});

const bridged = (fact: string): Ruled => ({
  verdict: "out-of-limits",
  code: "continuity-bridge",
  side: "low",
  says: {
    fact,
    cause: "A solder bridge, a shorted part, or a link that the board file does not have.",
    step: "With power off, read the ohms, then look between the two tracks.",
  },
});

const undecided = (fact: string): Ruled => ({
  verdict: "unjudged",
  says: { fact, step: "Write the ohms, or lift one end: that decides." },
});
