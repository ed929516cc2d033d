// The line of a coil at its supply with the plug off: nothing is there to lift it but its clamp diode, which then conducts both ways.

import { partTestPoint } from "../../../judge/test-point";
import { siValue } from "../../../judge/uncertainty";
import { boardIndex } from "../../../knowledge/board-index";
import type { Net, PinRef } from "../../../knowledge/types";
import type { Observation } from "../observation";
import { stageSeen, type Voltages, voltsAt } from "./around";

/** Of the supply, and volts at least; common practice, no source. */
const LIFTED = { share: 0.8, volts: 8 } as const;

/** One observation a line. */
export function clampedLines(around: Voltages): Observation[] {
  return [...around.all].flatMap(([name, reads]): Observation[] => {
    const net = around.board.nets.get(name);
    const [read] = reads;
    if (!net || !read) return [];
    const off = new Set((read.reading.apart ?? []).map(({ ref }) => ref?.toUpperCase()));
    const clamp = clampOf(net, off, around);
    if (!clamp) return [];
    // Behind a relay or a fuse it has no name of its own, and is the highest there is.
    const rails = [...around.board.rails.values()].map(({ nominal }) => siValue(nominal, "V") ?? 0);
    const supply = voltsAt(clamp.to, around) ?? Math.max(0, ...rails);
    if (supply < LIFTED.volts || read.volts < LIFTED.share * supply) return [];
    const { ref } = clamp.by;
    const words = `${name} reads ${read.reading.value.typed} with its plug off; only ${ref} can lift it.`;
    return [stageSeen(read, ref, [ref], words)];
  });
}

/** The only way up from a collector whose load is unplugged. */
function clampOf(
  { pins }: Net,
  off: ReadonlySet<string | undefined>,
  { board, ctx }: Voltages,
): { readonly by: PinRef; readonly to: Net } | undefined {
  const index = boardIndex(board);
  let clamp: { by: PinRef; to: Net } | undefined;
  let isDriven = false;
  let isOff = false;
  for (const at of pins) {
    const { device, part } = partTestPoint(at.ref, board, ctx.library);
    if (off.has(at.ref.toUpperCase())) isOff = true;
    else if (device?.kind === "transistor") isDriven = true;
    else if (device?.kind === "diode" && part) {
      const ends = [...board.nets.values()].filter(
        (net) => net.pins.some((one) => one.ref === at.ref && one.pin !== at.pin) && !index.isGround(net),
      );
      const [to] = ends;
      if (clamp || !to) return undefined;
      clamp = { by: at, to };
    } else if (!/^TP\d/i.test(at.ref)) return undefined;
  }
  return isDriven && isOff ? clamp : undefined;
}
