// A capacitor between two nodes, of which one has no direct voltage but by it: a voltage there has come through.

import { partTestPoint } from "../../../judge/test-point";
import { boardIndex } from "../../../knowledge/board-index";
import type { Net } from "../../../knowledge/types";
import { otherEndOf } from "../lines/ends";
import type { Observation } from "../observation";
import { netsWith, STAGE, stageSeen, type Voltages, voltsAt } from "./around";

/** None, or the one thing that does not fit. */
export function couplingStage(ref: string, around: Voltages): Observation[] {
  const { board, volts } = around;
  const index = boardIndex(board);
  const nets = netsWith(ref, board);
  if (nets.length !== 2 || nets.some((net) => index.isGround(net) || index.railOf(net) !== undefined))
    return [];
  for (const [near, far] of [nets, [...nets].reverse()] as [Net, Net][]) {
    const [vn, vf] = [near, far].map((net) => (volts.has(net.name) ? voltsAt(net, around) : undefined));
    const at = volts.get(far.name);
    if (vn === undefined || vf === undefined || !at || !isLeftAlone(ref, far, around)) continue;
    if (Math.abs(vf) < STAGE.through || Math.abs(vf - vn) > STAGE.throughShare * Math.abs(vn)) continue;
    const what = `${far.name} reads ${at.reading.value.typed}, as ${near.name} does behind ${ref}: ${ref} lets it through.`;
    return [stageSeen(at, ref, [ref], what)];
  }
  return [];
}

/** Besides the capacitor there are plugs, inputs and resistors to ground, none of which makes a voltage. */
function isLeftAlone(own: string, net: Net, { board, ctx }: Voltages): boolean {
  const index = boardIndex(board);
  return net.pins.every((at) => {
    if (at.ref === own || /^(?:J|P|TP|LS|SP)\d/i.test(at.ref)) return true;
    if (/^RV?\d/i.test(at.ref)) {
      const ends = [...board.nets.values()].filter(
        (other) => other !== net && other.pins.some(({ ref }) => ref === at.ref),
      );
      const end = otherEndOf(at, net, board);
      return end ? index.isGround(end) : ends.some((other) => index.isGround(other));
    }
    const { device } = partTestPoint(at.ref, board, ctx.library);
    return device?.kind === "analog" && device.pins.get(at.pin)?.direction === "input";
  });
}
