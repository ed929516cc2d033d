// How long a one-shot stays up, against how long it should: its capacitor or its resistor, where the board has no reset of it.

import { defined } from "../../../base/defined";
import type { SignFinding } from "../../../compute/diagnosis/types";
import type { LogContext } from "../../../judge/context";
import { single } from "../../../judge/measured";
import { pinName, testPointOf } from "../../../judge/test-point";
import type { Reading } from "../../../log/model";
import { parseCell } from "../../../quantity/parse-cell";
import type { Observation } from "../observation";

/** Of what it should be, times that are as they should: a resistor of 5 % and a capacitor of 20 %, and who wrote it. Common practice, no source. */
const RIGHT = { least: 0.6, most: 1.7 } as const;

/** Undefined where the row does not say how long it should be. */
export function widthObserved(reading: Reading, ctx: LogContext): Observation | undefined {
  const { subject, table, cell, value, spec } = reading;
  const place = testPointOf(subject, ctx);
  const pin = place && pinName(place);
  const measured = single(value);
  const meant = subject.expected && parseCell(subject.expected.text, { kind: "quantity", unit: "s" });
  if (spec.quantity !== "time" || !place?.device || pin === undefined) return undefined;
  if (measured === undefined || meant?.kind !== "quantity" || !(meant.quantity.value > 0)) return undefined;
  const share = measured / meant.quantity.value;
  const { ref } = place;
  const of = `the time of ${ref} pin ${pin}`;
  const isRight = share >= RIGHT.least && share <= RIGHT.most;
  return defined({
    key: `${table.procedure.id} ${ref}.${pin} width`.toUpperCase(),
    what: of,
    table,
    span: cell.span,
    refs: [ref.toUpperCase()],
    finding: isRight
      ? undefined
      : ({
          kind: "sign",
          sign: "clock-off",
          ref,
          pin,
          state: share < 1 ? "high" : "low",
          of,
          says: `${ref} pin ${pin} stays ${value.typed}, and should ${subject.expected?.text}.`,
        } satisfies SignFinding),
  });
}
