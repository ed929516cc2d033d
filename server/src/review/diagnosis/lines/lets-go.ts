// An output that only pulls, and that its inputs tell to let go: where nothing else could pull its line down, and the line of the
// gate beside it is up, it pulls all the same.

import { gateFunction, possibleOutputs } from "../../../compute/logic/gates";
import { inputTechnology } from "../../../compute/logic/technology";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { type StateRead, statesByRef } from "../../../judge/nets/block-nets";
import { partTestPoint, type TestPoint, testPointOf } from "../../../judge/test-point";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board, Gate, Net, PinDirection } from "../../../knowledge/types";
import type { LogBlock } from "../../../log/model";
import type { Observation } from "../observation";

/** One observation for each such output. */
export function pullsAllTheSame(block: LogBlock, ctx: LogContext): Observation[] {
  const board = ctx.board?.value;
  if (!board) return [];
  return [...statesByRef(block, ctx).values()].flatMap(({ place, states }) => {
    const released = (place.device?.gates ?? []).flatMap((gate) => {
      const output = releasedBy(gate, place, states);
      const read = output === undefined ? undefined : loadedState(block, place.ref, output, ctx);
      return output !== undefined && read ? [{ gate, output, read }] : [];
    });
    // The loads have their supply, as the one that did let go shows.
    if (!released.some(({ read }) => read.state === "high")) return [];
    return released.flatMap(({ gate, output, read }): Observation[] => {
      const net = boardIndex(board).net(place.ref, output);
      if (read.state !== "low" || !net || !isOnlyPull(net, place.ref, board, ctx)) return [];
      const of = `${place.ref} pin ${output}`;
      return [
        {
          key: `gate ${place.ref} ${gate.name}`.toUpperCase(),
          what: `${place.ref} gate ${gate.name}`,
          table: read.reading.table,
          span: read.reading.cell.span,
          refs: [place.ref.toUpperCase()],
          net: net.name,
          finding: {
            kind: "sign",
            sign: "contradiction",
            refs: [place.ref],
            of: `${place.ref}'s output at pin ${output}`,
            says: `${of} reads ${read.reading.value.typed} though its inputs tell it to let go, and its sister's line is up.`,
          },
        },
      ];
    });
  });
}

/** The output of a gate that pulls or lets go, where all of its inputs were read and let it go. */
function releasedBy(
  { function: named, inputs, outputs }: Gate,
  { device, family }: TestPoint,
  states: ReadonlyMap<string, StateRead>,
): string | undefined {
  const fn = gateFunction(named);
  const [output] = outputs;
  if (!fn || output === undefined || device?.pins.get(output)?.direction !== "open-collector")
    return undefined;
  const read = inputs.map((pin) => states.get(pin)?.state ?? ("unknown" as const));
  const can = possibleOutputs(fn, read, inputTechnology(family?.id));
  return can.length === 1 && can[0] === "high" ? output : undefined;
}

/** Volts that an output stands at while it carries its load, at most, and from which it let go; common practice, no source. */
const LOADED = { on: 1.1, off: 2.4 } as const;

/** What such an output was read at, which is no level of logic. */
function loadedState(block: LogBlock, ref: string, pin: string, ctx: LogContext) {
  for (const table of block.tables) {
    if (!table.kind.gates) continue;
    for (const reading of table.readings) {
      const place = testPointOf(reading.subject, ctx);
      if (place?.ref !== ref || place.pin?.number !== pin || reading.spec.quantity !== "voltage") continue;
      const extent = extentOf(reading.value);
      if (!extent || extent.low < 0) continue;
      if (extent.high <= LOADED.on) return { state: "low" as const, reading };
      if (extent.low >= LOADED.off) return { state: "high" as const, reading };
    }
  }
  return undefined;
}

const PULLS: ReadonlySet<PinDirection> = new Set([
  "output",
  "open-collector",
  "open-emitter",
  "three-state",
  "bidirectional",
]);

/** Nothing but this chip could take the line down: no other output, and no transistor. */
const isOnlyPull = (net: Net, own: string, board: Board, ctx: LogContext): boolean =>
  net.pins.every(({ ref, pin }) => {
    if (ref === own) return true;
    const { device } = partTestPoint(ref, board, ctx.library);
    const direction = device?.pins.get(pin)?.direction;
    return device?.kind !== "transistor" && !(direction && PULLS.has(direction));
  });
