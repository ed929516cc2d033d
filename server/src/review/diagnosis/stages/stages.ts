// Voltages around a part, as the diagnosis takes them together: two ends of a fuse that differ, a diode with too much across it, a
// regulator whose output stands where its input does.

import { defined } from "../../../base/defined";
import type { SignFinding } from "../../../compute/diagnosis/types";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { railAt } from "../../../judge/rail-name";
import { partTestPoint, pinName, testPointOf } from "../../../judge/test-point";
import { siValue } from "../../../judge/uncertainty";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board, Device, Net } from "../../../knowledge/types";
import type { LogBlock, Reading } from "../../../log/model";
import type { Observation } from "../observation";
import { offSupplies, type Volt } from "../supplies/off-supply";
import type { RailVolts } from "../supplies/rails-read";
import { isPeakToPeak } from "../words/header-over";
import { isPowerOff } from "../words/power-off";
import { comparatorStage, couplerStage } from "./analog";
import { isAllThere, netsWith, STAGE, stageSeen, type Voltages, voltsAt } from "./around";
import { cellCutOff } from "./cell-cut-off";
import { clampedLines } from "./clamped-line";
import { conditionsIn } from "./conditions";
import { couplingStage } from "./coupling";
import { dividersObserved } from "./divider";
import { looseLines, looseNetworks } from "./pulled-lines";
import { zenerStage } from "./reference";
import { series, withoutCurrent } from "./series";
import { timerStage } from "./timer";
import { transistorStage } from "./transistor";
import { undrivenPass } from "./undriven";

/** @param rails what rails read elsewhere in the log that are off their voltage */
export function stagesObserved(block: LogBlock, ctx: LogContext, rails?: RailVolts): Observation[] {
  const found = new Map<string, Observation>();
  for (const takes of conditionsIn(block))
    for (const one of stagesAmong(block, ctx, takes, rails)) if (!found.has(one.key)) found.set(one.key, one);
  return [...found.values(), ...cellCutOff(block, ctx)];
}

function stagesAmong(
  block: LogBlock,
  ctx: LogContext,
  takes: (reading: Reading) => boolean,
  rails: RailVolts | undefined,
): Observation[] {
  const board = ctx.board?.value;
  if (!board) return [];
  const volts = new Map<string, Volt>();
  const all = new Map<string, Volt[]>();
  const known = (name: string, volt: Volt): void => {
    all.set(name, [...(all.get(name) ?? []), volt]);
    volts.set(name, volt);
  };
  for (const table of block.tables) {
    const isOfRails = table.kind.observedAs === "rail" || table.kind.observedAs === "limited-supply";
    if (table.kind.observedAs !== "pin-powered" && !isOfRails) continue;
    for (const reading of table.readings) {
      if (reading.spec.quantity !== "voltage" || reading.measure === "ripple" || !takes(reading)) continue;
      const net =
        testPointOf(reading.subject, ctx)?.net ??
        (isOfRails ? board.nets.get(railAt(reading.subject, board)?.net ?? "") : undefined);
      const extent = extentOf(reading.value);
      const isSwing =
        isPeakToPeak(reading) ||
        (reading.value.kind === "quantity" &&
          reading.value.quantity.qualifier !== undefined &&
          reading.value.quantity.qualifier !== "dc");
      if (
        !isSwing &&
        net &&
        extent &&
        extent.low === extent.high &&
        isAllThere(reading) &&
        !isPowerOff(reading)
      )
        known(
          net.name,
          defined({ ref: testPointOf(reading.subject, ctx)?.part?.ref, volts: extent.low, reading }),
        );
    }
  }
  const split = [...all].flatMap(([name, reads]) => apart(name, reads, board, ctx));
  const off = offSupplies(all, ctx);
  if (volts.size < 2) return [...split, ...off];
  const around = { board, volts, all, ctx, rails };
  // What hangs off its supply does nothing right, whatever else is read around it.
  const astray = new Set(off.flatMap(({ refs: own }) => own));
  const refs = new Set(
    [...volts.keys()].flatMap((name) => board.nets.get(name)?.pins.map(({ ref }) => ref) ?? []),
  );
  return [
    ...split,
    ...off,
    ...dividersObserved(around),
    ...looseLines(around),
    ...looseNetworks(around),
    ...clampedLines(around),
    ...withoutCurrent(around),
    ...[...refs].flatMap((ref) => {
      if (astray.has(ref.toUpperCase())) return [];
      const { device } = partTestPoint(ref, board, ctx.library);
      if (device?.kind === "transistor")
        return [...transistorStage(ref, device, around), ...undrivenPass(ref, device, around)];
      if (device?.kind === "regulator") return regulator(ref, device, around);
      if (device?.kind === "diode" && device.pins.size === 2)
        return zenerStage(ref, device, around) ?? diode(ref, device, around);
      if (device?.kind === "analog")
        return [...comparatorStage(ref, device, around), ...timerStage(ref, device, around)];
      if (device?.families.includes("optocoupler")) return couplerStage(ref, device, around);
      if (/^C\d/i.test(ref)) return couplingStage(ref, around);
      if (/^K\d/i.test(ref)) return relay(ref, around);
      if (/^RN?\d/i.test(ref)) return series(ref, around);
      if (/^RV\d/i.test(ref)) return potentiometer(ref, around);
      return /^F\d/i.test(ref) ? fuse(ref, around) : [];
    }),
  ];
}

/** Twice the highest rail of the board, and no less than a logic board has. */
const most = ({ rails }: Board): number =>
  2 * Math.max(12, ...[...rails.values()].map(({ nominal }) => Math.abs(siValue(nominal, "V") ?? 0)));

/** Two pins of one signal net at different voltages in one table: the copper between them is open. */
function apart(name: string, reads: readonly Volt[], board: Board, ctx: LogContext): Observation[] {
  const [first] = reads;
  const net = board.nets.get(name);
  const index = boardIndex(board);
  if (!first || !net || index.isGround(net) || index.railOf(net) !== undefined) return [];
  const pinOf = ({ reading }: Volt) => {
    const place = testPointOf(reading.subject, ctx);
    const pin = place && pinName(place);
    return place && pin !== undefined ? [{ ref: place.ref, pin }] : [];
  };
  // What no rail of the board could make is a slip of the pen, or of a range.
  const beside = reads.filter(
    ({ reading, volts }) => reading.table === first.reading.table && Math.abs(volts) < most(board),
  );
  const other = beside.find(({ volts }) => Math.abs(volts - first.volts) > STAGE.apart);
  if (!other) return [];
  // Of three and more the one that stands alone is cut off from the rest.
  const like = (one: Volt): Volt[] =>
    beside.filter(({ volts }) => Math.abs(volts - one.volts) < STAGE.apart / 2);
  const [ofFirst, ofOther] = [like(first), like(other)];
  const isTold = ofFirst.length !== ofOther.length;
  const [few, many] = ofFirst.length < ofOther.length ? [ofFirst, ofOther] : [ofOther, ofFirst];
  const pins = isTold ? few.flatMap(pinOf) : [...pinOf(other), ...pinOf(first)];
  const others = isTold ? many.flatMap(pinOf) : [];
  if (pins.length + others.length < 2) return [];
  const places = [...pins, ...others].map(({ ref, pin }) => `${ref} pin ${pin}`).join(" and ");
  return [
    {
      key: `apart ${name}`.toUpperCase(),
      what: `the voltages on ${name}`,
      table: other.reading.table,
      span: other.reading.cell.span,
      refs: pins.map(({ ref }) => ref.toUpperCase()),
      finding: {
        kind: "sign",
        sign: "volts-apart",
        nets: [name],
        pins,
        ...(others.length > 0 ? { others } : {}),
        of: `the voltages on ${name}`,
        says: `${places} are on ${name} and stand ${Math.abs(other.volts - first.volts).toFixed(1)} V apart.`,
      } satisfies SignFinding,
    },
  ];
}

function fuse(ref: string, around: Voltages): Observation[] {
  const [a, b] = netsWith(ref, around.board);
  const [first, second] = [voltsAt(a, around), voltsAt(b, around)];
  const [readA, readB] = [a, b].map((net) => around.volts.get(net?.name ?? ""));
  const at = readA ?? readB;
  if (first === undefined || second === undefined || !at || Math.abs(first - second) < STAGE.across)
    return [];
  // What a rail that nothing regulates should read by name is no reading of it.
  const isBoth = readA !== undefined && readB !== undefined;
  if (!isBoth && at.volts > STAGE.blown * Math.max(Math.abs(first), Math.abs(second))) return [];
  return [stageSeen(at, ref, [ref], `The two ends of ${ref} read differently.`)];
}

/** More volts across a diode in the direction in which it conducts than any junction drops: it is open. */
function diode(ref: string, device: Device, around: Voltages): Observation[] {
  const index = boardIndex(around.board);
  const at = (name: RegExp): Net | undefined => {
    const pin = [...device.pins.values()].find((one) => name.test(one.name));
    return pin && index.net(ref, pin.number);
  };
  const [anode, cathode] = [at(/^A$|anode/i), at(/^[KC]$|cathode/i)];
  const [va, vk] = [anode, cathode].map((net) => voltsAt(net, around, ref));
  const read = around.volts.get(cathode?.name ?? "") ?? around.volts.get(anode?.name ?? "");
  // A store behind it that fills slowly draws its far end down for a while: read at the diode itself, it is the diode.
  const isOwn = [anode, cathode].some((net) =>
    around.all.get(net?.name ?? "")?.some((one) => one.ref === ref),
  );
  const least = isOwn ? STAGE.forward : STAGE.far;
  if (va === undefined || vk === undefined || !read || va - vk < least) return [];
  return [stageSeen(read, ref, [ref], `${ref} has ${(va - vk).toFixed(1)} V across it the way it conducts.`)];
}

/** A coil with its voltage across it, and a contact with two ends that differ; pins in pairs, as relays are drawn. */
function relay(ref: string, around: Voltages): Observation[] {
  const { board } = around;
  const index = boardIndex(board);
  const pairs = [
    ["1", "2"],
    ["3", "4"],
  ] as const;
  const drops = pairs.map((pins) => {
    const [a, b] = pins.map((pin) => {
      const net = index.net(ref, pin);
      // A rail stands where it should as long as nobody says otherwise.
      const isKnown = net && (around.volts.has(net.name) || index.railOf(net) !== undefined);
      return isKnown ? voltsAt(net, around, ref) : undefined;
    });
    return a === undefined || b === undefined ? undefined : Math.abs(a - b);
  });
  const at = around.volts.get(index.net(ref, "4")?.name ?? "");
  if (!at || index.net(ref, "5") || drops.some((drop) => drop === undefined || drop < STAGE.coil)) return [];
  return [stageSeen(at, ref, [ref], `The coil of ${ref} has its voltage, and its contact does not close.`)];
}

/** A wiper that stands outside what its two ends stand at touches neither. */
function potentiometer(ref: string, around: Voltages): Observation[] {
  const index = boardIndex(around.board);
  const at = ["1", "2", "3"].map((pin) => index.net(ref, pin));
  const [one, wiper, other] = at.map((net) => voltsAt(net, around, ref));
  const read = around.volts.get(at[1]?.name ?? "");
  if (one === undefined || wiper === undefined || other === undefined || !read) return [];
  const [low, high] = [Math.min(one, other), Math.max(one, other)];
  const slack = STAGE.slack + STAGE.slackShare * Math.max(Math.abs(low), Math.abs(high));
  if (wiper >= low - slack && wiper <= high + slack) return [];
  return [stageSeen(read, ref, [ref], `The wiper of ${ref} reads outside what its two ends read.`)];
}

/** Its output stands where its input does, above what it is made for: it is shorted through. */
function regulator(ref: string, device: Device, { board, volts }: Voltages): Observation[] {
  const index = boardIndex(board);
  const at = (direction: string): Net | undefined => {
    const pin = [...device.pins.values()].find((one) => one.direction === direction);
    return pin && index.net(ref, pin.number);
  };
  const output = at("output");
  const input = ["supply", "supply-negative", "input"].map(at).find((net) => net && volts.has(net.name));
  const [vin, vout] = [volts.get(input?.name ?? ""), volts.get(output?.name ?? "")];
  const rail = output && index.railOf(output);
  const nominal = rail === undefined ? undefined : siValue(board.rails.get(rail)?.nominal ?? "", "V");
  if (!vin || !vout || nominal === undefined) return [];
  const isThrough =
    vout.volts / nominal > STAGE.tooHigh && Math.abs(vin.volts - vout.volts) < STAGE.across / 2;
  const isFed = vin.volts / nominal > 0 && Math.abs(vin.volts) > Math.abs(nominal) + STAGE.headroom;
  if (!isThrough && isFed && vout.volts / nominal < STAGE.tooLow) {
    // Or what hangs on its output draws it down.
    const loads = (output?.pins ?? []).flatMap((pin) => (/^[CD]\d/i.test(pin.ref) ? pin.ref : []));
    const what = `${ref} has ${vin.reading.value.typed} at its input and ${vout.reading.value.typed} at its output.`;
    return [stageSeen(vout, ref, [ref, ...new Set(loads)], what)];
  }
  if (!isThrough) return [];
  // Or what lies across it, such as the diode that protects it.
  const across = (output?.pins ?? []).flatMap((pin) =>
    pin.ref !== ref && input?.pins.some((other) => other.ref === pin.ref) ? pin.ref : [],
  );
  const refs = [ref, ...new Set(across)];
  return [stageSeen(vout, ref, refs, `The output of ${ref} stands where its input does.`)];
}
