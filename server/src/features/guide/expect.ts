// What a reading that is still to be taken should show. Its row may not be there yet: nothing is read again for it.
import { defined } from "../../base/defined";
import { windowText } from "../../judge/compare";
import type { LogContext } from "../../judge/context";
import { expectedText, expectedWindow } from "../../judge/expected-text";
import { pinReference, pinWindow } from "../../judge/pin-window";
import { partTestPoint, pinTestPoint } from "../../judge/test-point";
import type { LogTable, Reading } from "../../log/model";

export interface ExpectedWords {
  /** The limits alone, "0.4 V to 0.7 V": what there is time for with a probe in the hand. */
  readonly window?: string;
  /** A sentence with its source. */
  readonly expect?: string;
}

const EMPTY = { kind: "empty", typed: "" } as const;

export const expectedOf = (reading: Reading, ctx: LogContext): ExpectedWords => {
  const open = { ...reading, value: EMPTY };
  return defined({ window: expectedWindow(open, ctx), expect: expectedText(open, ctx) });
};

/** In a new row of the table. */
export function expectedIn(table: LogTable, ref: string, pin: string, ctx: LogContext): ExpectedWords {
  const spec = table.columns.find((column) => column.spec?.role === "reading")?.spec;
  const [cell] = table.source.header.cells;
  if (!spec || !cell) return {};
  const named = (text: string) => ({ text, span: cell.span });
  const subject = { ref: named(ref), pin: named(pin) };
  const row = table.rows.length;
  return expectedOf(
    { table, row, subject, spec, measure: spec.measure ?? spec.role, cell, value: EMPTY },
    ctx,
  );
}

/** On the diode range, where no table says so yet. */
export function expectedUnpowered(ref: string, pin: string, ctx: LogContext): ExpectedWords {
  const board = ctx.board?.value;
  const place = pinTestPoint(partTestPoint(ref, board, ctx.library), pin, board);
  const reference = pinReference(place, ctx);
  return defined({ window: reference && windowText(reference), expect: pinWindow(place, ctx) });
}
