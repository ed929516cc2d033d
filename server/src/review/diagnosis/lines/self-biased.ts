// An inverter whose own resistor joins its output to its input: where nothing swings, both stand at its threshold, which is no
// level and yet right. Oscillators and amplifiers made of logic do.

import type { LogContext } from "../../../judge/context";
import { partTestPoint } from "../../../judge/test-point";
import { boardIndex } from "../../../knowledge/board-index";
import type { Net } from "../../../knowledge/types";
import { otherEndOf } from "./ends";

/** The chip of which a section is biased so, with this net at its input or its output; undefined where there is none. */
export function biasedBy(net: Net, { board, library }: LogContext): string | undefined {
  if (!board) return undefined;
  const index = boardIndex(board.value);
  for (const at of net.pins) {
    const end = /^R\d/i.test(at.ref) ? otherEndOf(at, net, board.value) : undefined;
    if (!end) continue;
    for (const { ref, pin } of net.pins) {
      const gates = partTestPoint(ref, board.value, library).device?.gates ?? [];
      const isAcross = gates.some(
        ({ function: what, inputs, outputs }) =>
          /^(?:NOT|INV|NAND|NOR)/i.test(what) &&
          ((inputs.includes(pin) && outputs.some((out) => index.net(ref, out) === end)) ||
            (outputs.includes(pin) && inputs.some((input) => index.net(ref, input) === end))),
      );
      if (isAcross) return ref;
    }
  }
  return undefined;
}
