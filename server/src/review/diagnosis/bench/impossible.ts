// A figure that no meter shows at such a place: a slip of the pen or of the point. It says nothing of the board, so that it
// is told only where nothing else was found.

import type { Judgement } from "../../../judge";
import { extentOf } from "../../../judge/compare";
import { testPointName } from "../../../judge/test-point";
import type { Reading } from "../../../log/model";
import type { Observation } from "../observation";

/** One for each impossible reading of a pin or a part, but those at `told` offsets in the block. */
export function* impossibleReadings(
  judgements: ReadonlyMap<Reading, Judgement>,
  told: ReadonlySet<number>,
): Iterable<Observation> {
  for (const [reading, { verdict, code, place }] of judgements) {
    const { cell, table, value } = reading;
    // Too high for its range; a sign, a unit and a pin that is none are told by themselves.
    const isTooHigh = code === "impossible-value" && (extentOf(value)?.low ?? 0) > 0;
    if (verdict !== "impossible" || !isTooHigh || !place || told.has(cell.span.start)) continue;
    const at = testPointName(place);
    yield {
      key: `slip ${table.procedure.id} ${at}`.toUpperCase(),
      what: `the reading of ${at}`,
      table,
      span: cell.span,
      refs: [],
      spare: true,
      finding: {
        kind: "table",
        refs: [place.ref],
        of: `the reading of ${at}`,
        mistake: "a slip of the pen, or of the point",
        says: `${at} reads ${value.typed}, which nothing on a board shows there.`,
        again: `Read ${at} again`,
      },
    };
  }
}
