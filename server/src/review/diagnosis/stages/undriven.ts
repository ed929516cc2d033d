// A transistor that passes a supply's current, and whose base is not driven: it does as it is told, and what should drive it is
// before it.

import type { SignFinding } from "../../../compute/diagnosis/types";
import { partValue } from "../../../compute/part-value";
import { siValue } from "../../../judge/uncertainty";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board, Device, Net } from "../../../knowledge/types";
import type { Observation } from "../observation";
import { netsWith, STAGE, type Voltages, voltsAt } from "./around";

/** Of its voltage: a rail below the first is not made, below the second is dead. A resistor up to so many ohms only limits the current. Common practice, no source. */
const UNMADE = { share: 0.6, dead: 0.2, ohms: 220 } as const;

/** None where the rail is up, or where the base is driven. */
export function undrivenPass(ref: string, device: Device, around: Voltages): Observation[] {
  const { board, volts } = around;
  const index = boardIndex(board);
  const pinOf = (name: RegExp) => [...device.pins.values()].find((one) => name.test(one.name))?.number;
  const [b, e, c] = [pinOf(/^B$/i), pinOf(/^E$/i), pinOf(/^C$/i)];
  if (b === undefined || e === undefined || c === undefined) return [];
  const isPnp = device.families.some((family) => /^pnp/i.test(family));
  if (!isPnp && !device.families.some((family) => /^npn/i.test(family))) return [];
  const [base, emitter, collector] = [b, e, c].map((pin) => index.net(ref, pin));
  const [fed, made] = isPnp ? [emitter, collector] : [collector, emitter];
  const read = base && volts.get(base.name);
  const rail = made && railBehind(made, board);
  if (!base || !emitter || !fed || !read || !made || !rail || rail.net === fed.name) return [];
  const [vb, ve, vf, out] = [base, emitter, fed, made].map((net) => voltsAt(net, around, ref));
  const nominal = siValue(rail.nominal, "V");
  if (vb === undefined || ve === undefined || vf === undefined || out === undefined || !nominal) return [];
  const isUnmade = volts.has(made.name) && Math.abs(out) < UNMADE.share * Math.abs(nominal);
  const isFed = volts.has(fed.name) && Math.abs(vf) > Math.abs(out) + STAGE.headroom && vf * nominal > 0;
  const over = (isPnp ? -1 : 1) * (vb - ve);
  if (!isUnmade || !isFed || over >= STAGE.on) return [];
  return [
    {
      key: `undriven ${ref}`.toUpperCase(),
      what: `the base of ${ref}`,
      table: read.reading.table,
      span: read.reading.cell.span,
      refs: [ref.toUpperCase()],
      net: base.name,
      finding: {
        kind: "sign",
        sign: "undriven",
        ref,
        pin: b,
        state: isPnp ? "high" : "low",
        rail: rail.name,
        ...(Math.abs(out) < UNMADE.dead * Math.abs(nominal) ? { dead: true as const } : {}),
        of: `the base of ${ref}`,
        says: `The base of ${ref} is not driven, with ${vf} V there for ${rail.name}.`,
      } satisfies SignFinding,
    },
  ];
}

/** The rail that the net is, or that lies behind a resistor which only limits the current. */
function railBehind(made: Net, board: Board) {
  const index = boardIndex(board);
  const nets = [
    made,
    ...made.pins.flatMap(({ ref }) => {
      const ohms = /^R\d/i.test(ref) ? partValue(index.part(ref), "resistance")?.nominal : undefined;
      return ohms !== undefined && ohms <= UNMADE.ohms ? netsWith(ref, board) : [];
    }),
  ];
  const name = nets.flatMap((net) => index.railOf(net) ?? [])[0];
  return name === undefined ? undefined : board.rails.get(name);
}
