// Voltages around a transistor that cannot go together: a base that conducts and a collector that does not follow, a base that its
// drive does not reach, a collector that stands at its emitter though the base is off.

import type { SignFinding } from "../../../compute/diagnosis/types";
import { partTestPoint } from "../../../judge/test-point";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board, Device, Net } from "../../../knowledge/types";
import type { Observation } from "../observation";
import type { Volt } from "../supplies/off-supply";
import { netsWith, STAGE, stageSeen, type Voltages, voltsAt } from "./around";

/** None, or the one thing that does not fit. */
export function transistorStage(ref: string, device: Device, around: Voltages): Observation[] {
  const { board, volts, ctx } = around;
  const index = boardIndex(board);
  const netOf = (names: RegExp): Net | undefined => {
    const pin = [...device.pins.values()].find(({ name }) => names.test(name));
    return pin && index.net(ref, pin.number);
  };
  if (!device.families.some((family) => /^(?:npn|pnp)/i.test(family))) return [];
  const [base, emitter, collector] = [netOf(/^B$/i), netOf(/^E$/i), netOf(/^C$/i)];
  const [vb, ve, vc] = [base, emitter, collector].map((net) => voltsAt(net, around, ref));
  const at = volts.get(base?.name ?? "") ?? volts.get(collector?.name ?? "");
  if (!base || vb === undefined || ve === undefined || !at || !volts.has(base.name)) return [];
  const way = device.families.some((family) => /^pnp/i.test(family)) ? -1 : 1;
  const most = device.families.some((family) => /darlington/i.test(family))
    ? STAGE.mostDarlington
    : STAGE.most;
  const over = way * (vb - ve);
  if (over > most)
    return [
      stageSeen(at, ref, [ref], `The base of ${ref} stands too far from its emitter to be a junction.`),
    ];
  const isLoad = collector && !index.isGround(collector) && index.railOf(collector) === undefined;
  const isSupplied = emitter && (index.isGround(emitter) || index.railOf(emitter) !== undefined);
  if (
    over >= STAGE.on &&
    vc !== undefined &&
    isLoad &&
    // In a regulator the emitter stands at its reference, and the collector where the load wants it.
    isSupplied &&
    volts.has(collector.name) &&
    Math.abs(vc - ve) > STAGE.pulled
  )
    return [stageSeen(at, ref, [ref], `${ref} has a base that conducts, and its collector does not follow.`)];
  if (over < STAGE.off && isSupplied) {
    for (const { drive, by } of drivesOf(base, board)) {
      const vd = voltsAt(drive, around);
      if (vd === undefined || !volts.has(drive.name) || way * (vd - ve) < STAGE.drive) continue;
      const part = partTestPoint(by, board, ctx.library).part;
      if (part)
        return [stageSeen(at, by, [by, ref], `What drives ${ref} through ${by} does not reach its base.`)];
    }
  }
  // A collector stands at a supply by the transistor alone: what it feeds leads elsewhere.
  if (
    over < STAGE.off &&
    emitter &&
    index.railOf(emitter) !== undefined &&
    isLoad &&
    vc !== undefined &&
    volts.has(collector.name) &&
    Math.min(Math.abs(vc - ve), Math.abs(vc - vb)) < STAGE.joined &&
    !isPulledTo(collector, emitter, board)
  )
    return [stageSeen(at, ref, [ref], `${ref} should be off, and its collector is at its emitter.`)];
  // Driven far the wrong way it cannot conduct, and its two ends are one all the same.
  if (
    over < -STAGE.drive &&
    vc !== undefined &&
    emitter &&
    collector &&
    volts.has(emitter.name) &&
    volts.has(collector.name) &&
    Math.abs(ve) > STAGE.drive &&
    Math.abs(vc - ve) < STAGE.joined &&
    !isPulledTo(collector, emitter, board)
  )
    return [
      stageSeen(at, ref, [ref], `${ref} is driven off, and its collector reads what its emitter does.`),
    ];
  if (way === 1 && isThrough(collector, emitter, [vb, ve, vc], around))
    return [
      stageSeen(at, ref, [ref], `${ref} reads what its collector does, and its base does not ask for that.`),
    ];
  if (
    way === 1 &&
    over < STAGE.off &&
    emitter &&
    index.isGround(emitter) &&
    isLoad &&
    vc !== undefined &&
    volts.has(collector.name) &&
    vc < STAGE.joined &&
    (isLifted(collector, around) || hasSisterUp(ref, device, collector, emitter, around))
  )
    return [stageSeen(at, ref, [ref], `${ref} should be off, and its collector is at its emitter.`)];
  // Whether its load was there nobody can tell.
  const own = [...device.pins.values()].find(({ name }) => /^C$/i.test(name));
  const isSunk = way === 1 && over < STAGE.off && emitter && index.isGround(emitter) && vc !== undefined;
  if (
    isSunk &&
    isLoad &&
    own &&
    volts.has(collector.name) &&
    vc < STAGE.joined &&
    isClamped(collector, board)
  )
    return [
      {
        ...stageSeen(at, ref, [ref], ""),
        net: collector.name,
        finding: {
          kind: "sign",
          sign: "level",
          ref,
          pin: own.number,
          state: "low",
          of: `the collector of ${ref}`,
          says: `${ref} should be off, and its collector stands low; with its load there it is not.`,
        } satisfies SignFinding,
      },
    ];
  const isOn = over >= STAGE.on && vc !== undefined && Math.abs(vc - ve) < STAGE.joined;
  return isOn && isLoad && own && volts.has(collector.name) ? [conducts(at, ref, own.number)] : [];
}

/** What follows its base stands below that; above it, and at the supply it comes from, it is shorted through. */
function isThrough(
  collector: Net | undefined,
  emitter: Net | undefined,
  [vb, ve, vc]: readonly (number | undefined)[],
  { board, volts }: Voltages,
): boolean {
  const index = boardIndex(board);
  return (
    collector !== undefined &&
    emitter !== undefined &&
    !index.isGround(emitter) &&
    volts.has(emitter.name) &&
    volts.has(collector.name) &&
    vb !== undefined &&
    ve !== undefined &&
    vc !== undefined &&
    vc > STAGE.drive &&
    ve > vb + STAGE.off &&
    vc - ve < STAGE.across
  );
}

/** A coil on the board holds the collector up while the transistor is off, or a header whose coils were there. */
function isLifted(collector: Net, { board, volts, ctx }: Voltages): boolean {
  const index = boardIndex(board);
  const isSupply = (net: Net): boolean => index.railOf(net) !== undefined;
  return collector.pins.some(({ ref }) => {
    if (/^(?:K|L|LP|DS)\d/i.test(ref))
      return netsWith(ref, board).some((net) => net !== collector && isSupply(net));
    // A sister at the same header stands high: the loads are plugged in.
    return (
      /^(?:J|P|CN|CON)\d/i.test(ref) &&
      netsWith(ref, board).some(
        (net) =>
          net !== collector &&
          !isSupply(net) &&
          (volts.get(net.name)?.volts ?? 0) > STAGE.drive &&
          net.pins.some((at) => partTestPoint(at.ref, board, ctx.library).device?.kind === "transistor"),
      )
    );
  });
}

/** A diode to a supply across what it switches, and a header to that. */
const isClamped = ({ pins }: Net, board: Board): boolean =>
  pins.some(({ ref }) => /^(?:J|P|CN|CON)\d/i.test(ref)) &&
  pins.some(
    ({ ref }) => /^D\d/i.test(ref) && netsWith(ref, board).every((net) => !boardIndex(board).isGround(net)),
  );

/** Another of its type, at the same supply and off as well, stands up with its load. */
function hasSisterUp(
  ref: string,
  device: Device,
  collector: Net,
  emitter: Net,
  { board, volts, ctx }: Voltages,
): boolean {
  const index = boardIndex(board);
  const pinOf = (name: string) =>
    [...device.pins.values()].find((pin) => pin.name.toUpperCase() === name)?.number;
  const [b, c, e] = ["B", "C", "E"].map(pinOf);
  if (b === undefined || c === undefined || e === undefined) return false;
  // The same kinds of parts hang on both.
  const shape = ({ pins }: Net): string =>
    pins
      .map((at) => at.ref.replace(/\d.*/, ""))
      .sort()
      .join(" ");
  return [...board.parts.values()].some((other) => {
    if (other.ref === ref || partTestPoint(other.ref, board, ctx.library).device !== device) return false;
    const [base, up, down] = [b, c, e].map((pin) => index.net(other.ref, pin));
    const [vb, vc] = [volts.get(base?.name ?? "")?.volts, volts.get(up?.name ?? "")?.volts];
    return (
      down === emitter &&
      up !== undefined &&
      shape(up) === shape(collector) &&
      vb !== undefined &&
      vb < STAGE.off &&
      vc !== undefined &&
      vc > STAGE.drive
    );
  });
}

/** It does what it is told: what it should switch on is wrong behind it. */
const conducts = ({ reading }: Volt, ref: string, pin: string): Observation => ({
  key: `stage ${ref}`.toUpperCase(),
  what: `the voltages at ${ref}`,
  table: reading.table,
  span: reading.cell.span,
  refs: [ref.toUpperCase()],
  conducts: { ref, pin },
});

/** A part of two leads lies between the two. */
const isPulledTo = (collector: Net, emitter: Net, board: Board): boolean =>
  collector.pins.some(({ ref }) => {
    const nets = netsWith(ref, board);
    return nets.length === 2 && nets.includes(emitter);
  });

/** Nets on the other side of the resistors at a base; those to ground and to a rail only hold it off. */
function drivesOf(base: Net, board: Board): { readonly drive: Net; readonly by: string }[] {
  const index = boardIndex(board);
  return base.pins.flatMap(({ ref }) => {
    if (!/^R\d/i.test(ref)) return [];
    const other = netsWith(ref, board).find((net) => net !== base);
    return !other || index.isGround(other) || index.railOf(other) !== undefined
      ? []
      : [{ drive: other, by: ref }];
  });
}
