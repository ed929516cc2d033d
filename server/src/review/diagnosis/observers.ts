// What each kind of table tells the diagnosis. What is impossible or cannot be read says nothing about the board and is
// left out; spans are of the block.

import type { Judgement } from "../../judge";
import type { LogContext } from "../../judge/context";
import type { Apart } from "../../log/apart";
import type { ObservedAs } from "../../log/kinds/kind";
import type { LogTable, Reading } from "../../log/model";
import { memoryObservations } from "./from-log-memory";
import { chipTested, ofPart, seen } from "./from-log-parts";
import { atPin, atPowerPin } from "./from-log-pins";
import { railFinding } from "./from-log-rails";
import type { Observation } from "./observation";

/** What is known around a table. */
export interface Around {
  readonly ctx: LogContext;
  readonly judgements: ReadonlyMap<Reading, Judgement>;
  /** What the work before it left off. */
  readonly before: readonly Apart[];
}

type Observer = (table: LogTable, around: Around) => Iterable<Observation>;
type OfReading = (reading: Reading, judgement: Judgement, around: Around) => Observation | undefined;

export const OBSERVERS: Readonly<Record<ObservedAs, Observer>> = {
  junctions: judged((reading, judgement, { ctx }) => ofPart(reading, judgement, ctx, "junctions")),
  look: each((reading, _, { ctx }) => seen(reading, ctx)),
  memory: (table, { ctx }) => memoryObservations(table, ctx),
  nothing: () => [],
  part: judged((reading, judgement, { ctx }) => ofPart(reading, judgement, ctx)),
  "pin-powered": judged((reading, judgement, { ctx, before }) =>
    atPin(reading, judgement, false, ctx, before),
  ),
  "pin-unpowered": judged((reading, judgement, { ctx, before }) =>
    atPin(reading, judgement, true, ctx, before),
  ),
  "power-pin": judged(atPowerPin),
  rail: judged((reading, judgement, { ctx }) =>
    isOfPin(reading, judgement)
      ? besidesRails(reading, judgement, ctx)
      : railFinding(reading, judgement, ctx),
  ),
  "rail-to-ground": judged((reading, judgement, { ctx, before }) =>
    isOfPin(reading, judgement)
      ? atPin(reading, judgement, true, ctx, before)
      : railFinding(reading, judgement, ctx),
  ),
  tested: judged((reading, judgement, { ctx }) => chipTested(reading, judgement, ctx)),
};

function each(observe: OfReading): Observer {
  return function* (table, around) {
    for (const reading of table.readings) {
      const judgement = around.judgements.get(reading);
      const one = judgement && observe(reading, judgement, around);
      if (one) yield one;
    }
  };
}

/** Only of readings that something was said of. */
function judged(observe: OfReading): Observer {
  return each((reading, judgement, around) =>
    judgement.verdict === "out-of-limits" ||
    judgement.verdict === "suspect" ||
    judgement.verdict === "within-limits"
      ? observe(reading, judgement, around)
      : undefined,
  );
}

/** A pin read among the rails: that of a regulator, or one whose resistance to ground was measured. */
const isOfPin = ({ subject }: Reading, { place }: Judgement): boolean =>
  place?.pin !== undefined && !subject.rail;

function besidesRails(reading: Reading, judgement: Judgement, ctx: LogContext): Observation | undefined {
  if (judgement.place?.pin?.direction === "output") return ofPart(reading, judgement, ctx);
  return atPowerPin(reading, judgement) ?? railFinding(reading, judgement, ctx);
}
