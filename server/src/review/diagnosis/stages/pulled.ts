// Nodes that nothing but a resistor decides under power: a line with inputs, a button, an output that lets go. Where such
// a node does not stand at its resistor's other end, the resistor is open or something holds it that should not.

import { defined } from "../../../base/defined";
import type { SignFinding } from "../../../compute/diagnosis/types";
import { gateFunction, possibleOutputs } from "../../../compute/logic/gates";
import type { Judgement } from "../../../judge";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { partTestPoint, pinName, type TestPoint, testPointOf } from "../../../judge/test-point";
import { siValue } from "../../../judge/uncertainty";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board, Device, Net, PinRef } from "../../../knowledge/types";
import type { LogBlock, Reading } from "../../../log/model";
import { offWhile } from "../../../log/said-above";
import type { LogicState } from "../../../quantity/words";
import { otherEndOf } from "../lines/ends";
import { stateAt } from "../lines/levels";
import type { Observation } from "../observation";
import { comparatorsOf, couplersOf, isDark, toldTo } from "./analog";
import { isAllThere, type Voltages } from "./around";

/** Volts; common practice, no source. */
const PULLED = {
  /** What a resistor pulls a logic line up to, at least, where that was read. */
  up: 3,
  /** A closed contact to ground leaves less. */
  contact: 0.2,
  /** An output or a contact that pulls leaves less; what hangs in between is leakage into an input. */
  driven: 0.45,
  /** What an input of bipolar logic lifts a node to that nothing else is on. */
  lifts: [1.05, 1.75],
  /** More than this at a base, and the junction holds the node. */
  junction: 0.5,
} as const;

/** Pins at which a resistor and a capacitor set a time, and whose chip pulls them down for a moment only. */
const TIMES = /^\d?(?:RC|R\/?CEXT|RX\/?CX|R_?C_?X|RXCX|THR\w*|TRIG\w*)$/i;

interface Seen extends PinRef {
  readonly state: LogicState | "between";
  readonly volts?: number;
  readonly reading: Reading;
}

interface Around {
  /** Headers without their plugs, in capitals. */
  readonly unplugged: ReadonlySet<string>;
  readonly board: Board;
  readonly ctx: LogContext;
  readonly nets: ReadonlyMap<string, readonly Seen[]>;
}

/** One observation a node, and the outputs that let it go. */
export function pulledObserved(
  block: LogBlock,
  judgements: ReadonlyMap<Reading, Judgement>,
  ctx: LogContext,
): Observation[] {
  const board = ctx.board?.value;
  if (!board) return [];
  const nets = new Map<string, Seen[]>();
  const unplugged = new Set<string>();
  for (const table of block.tables) {
    if (table.kind.observedAs !== "pin-powered") continue;
    for (const { ref } of offWhile(block, table, table.section.apart))
      if (ref !== undefined) unplugged.add(ref.toUpperCase());
    for (const reading of table.readings) {
      const place = testPointOf(reading.subject, ctx);
      const seen = place && seenAt(reading, place);
      if (seen && place.net) nets.set(place.net.name, [...(nets.get(place.net.name) ?? []), seen]);
    }
  }
  const around = { board, ctx, nets, unplugged };
  return [...nets].flatMap(([name, reads]): Observation[] => {
    const net = board.nets.get(name);
    const [first] = reads;
    // A level that its chip's family rules out says less than what alone could bring the node there.
    const isSaid = reads.some(({ reading }) => {
      const { verdict, reference } = judgements.get(reading) ?? {};
      return verdict === "out-of-limits" && reference?.kind === "board";
    });
    if (!net || !first || isSaid || !reads.every(({ state }) => state === "low" || state === "between"))
      return [];
    const index = boardIndex(board);
    if (index.isGround(net) || index.railOf(net) !== undefined) return [];
    const pulls = net.pins.filter((pin) => pullsUp(pin, net, around));
    if (pulls.length === 0) return [];
    if (net.pins.some((pin) => !pulls.includes(pin) && mayHold(pin, net, first, around))) return [];
    return toldOf(net, reads, pulls, feedsTtl(net, around));
  });
}

function seenAt(reading: Reading, place: TestPoint): Seen | undefined {
  const pin = pinName(place);
  const state = stateAt(reading, place);
  if (!place.part || pin === undefined || state === undefined || !isAllThere(reading)) return undefined;
  const extent = reading.spec.quantity === "voltage" ? extentOf(reading.value) : undefined;
  return defined({ ref: place.part.ref, pin, state, volts: extent?.low, reading });
}

/** An input of bipolar logic stands on it: with nothing else there it lifts the node itself. */
const feedsTtl = ({ pins }: Net, around: Around): boolean =>
  pins.some(({ ref, pin }) => {
    const { device, family } = partTestPoint(ref, around.board, around.ctx.library);
    return (
      device?.pins.get(pin)?.direction === "input" && family !== undefined && TTL.has(family.id.toUpperCase())
    );
  });

const TTL: ReadonlySet<string> = new Set(["TTL", "LS", "S", "ALS", "F", "L", "H"]);

/** Places of one net that bear each other out. */
const ALONG = 3;

function toldOf(net: Net, reads: readonly Seen[], pulls: readonly PinRef[], isTtl: boolean): Observation[] {
  const [first] = reads;
  if (!first) return [];
  const isAlong = new Set(reads.map(({ ref }) => ref)).size >= ALONG;
  const [by] = pulls;
  const place = `${first.ref} pin ${first.pin}`;
  const { reading, state } = first;
  const isVolts = reading.spec.quantity === "voltage";
  const of = `${isVolts ? "the voltage" : "the state"} at ${place}`;
  const at = isVolts ? `reads ${reading.value.typed}` : "stands low";
  return [
    {
      key: `pulled ${net.name}`.toUpperCase(),
      what: of,
      table: reading.table,
      span: reading.cell.span,
      refs: [first.ref.toUpperCase()],
      net: net.name,
      finding: {
        kind: "sign",
        sign: isAlong ? "pulled-all-along" : "pulled",
        ref: first.ref,
        pin: first.pin,
        state:
          isTtl &&
          first.volts !== undefined &&
          first.volts >= PULLED.lifts[0] &&
          first.volts <= PULLED.lifts[1]
            ? "floating"
            : state === "between" || (first.volts ?? 0) > PULLED.driven
              ? "between"
              : "low",
        nets: [net.name],
        pins: pulls,
        of,
        says: `${place} ${at}, and nothing seen there should keep it from where ${by?.ref} pulls it.`,
      } satisfies SignFinding,
    },
  ];
}

const deviceOf = (ref: string, { board, ctx }: Around): Device | undefined =>
  partTestPoint(ref, board, ctx.library).device;

/** A resistor to a supply, or to a node that was read as one. */
function pullsUp({ ref, pin }: PinRef, net: Net, around: Around): boolean {
  if (!/^RN?\d/i.test(ref)) return false;
  const end = otherEndOf({ ref, pin }, net, around.board);
  if (!end || boardIndex(around.board).isGround(end)) return false;
  const rail = boardIndex(around.board).railOf(end);
  const nominal = rail === undefined ? undefined : siValue(around.board.rails.get(rail)?.nominal ?? "", "V");
  const reads = around.nets.get(end.name) ?? [];
  const isUp = ({ volts }: Seen): boolean => volts !== undefined && volts >= PULLED.up;
  // A rail that was read right at one pin is up, whatever another pin of it reads.
  if (reads.length > 0) return nominal === undefined ? reads.every(isUp) : reads.some(isUp);
  return (nominal !== undefined && nominal >= PULLED.up) || isUpElsewhere(ref, pin, end, around);
}

/** Another element that hangs on the same end was read high, or lifts a junction: that end is up. */
const isUpElsewhere = (ref: string, pin: string, end: Net, { board, nets }: Around): boolean =>
  /^RN\d/i.test(ref) &&
  [...board.nets.values()].some(
    (net) =>
      net.pins.some(
        (one) => one.ref === ref && one.pin !== pin && one.pin !== "1" && otherEndOf(one, net, board) === end,
      ) &&
      (nets.get(net.name) ?? []).some(
        ({ state, volts }) => state === "high" || (volts !== undefined && volts >= PULLED.junction),
      ),
  );

/** Whether what has this pin may rightly keep the node from its resistor's other end. */
function mayHold({ ref, pin }: PinRef, net: Net, seen: Seen, around: Around): boolean {
  const { board } = around;
  const index = boardIndex(board);
  const device = deviceOf(ref, around);
  const known = device?.pins.get(pin);
  const isBetween = seen.state === "between";
  if (device && known) {
    if (device.kind === "transistor") return holds(device, { ref, pin }, seen, around);
    if (device.kind === "diode") return leads(ref, pin, net, around);
    // A port that reads a switch drives nothing there.
    const reads =
      known.direction === "input" ||
      (known.direction === "bidirectional" && (hasSwitch(net) || isDriven(net, ref, around)));
    if (reads) return false;
    const coupler = couplersOf(device).find(({ out }) => out === pin);
    if (coupler) return !isDark(ref, coupler, voltages(around));
    // A time is set there: its chip lets the pin go again, and an output that only pulls leaves no line in between.
    if (TIMES.test(known.name) || (isBetween && known.direction === "open-collector")) return false;
    return known.direction !== "open-collector" || !letsGo(device, { ref, pin }, around);
  }
  if (/^(?:TP|C)\d/i.test(ref)) return false;
  if (/^D\d/i.test(ref)) return leads(ref, pin, net, around);
  if (/^SW\d/i.test(ref))
    // A switch of a bank may be on; then there is next to nothing across it.
    return board.switchBanks.has(ref) && !isBetween && (seen.volts ?? 0) < PULLED.contact;
  if (/^J\d/i.test(ref)) return !isBetween && !around.unplugged.has(ref.toUpperCase());
  if (/^RN?\d/i.test(ref)) {
    const end = otherEndOf({ ref, pin }, net, board);
    // Read high, it pulls up as well.
    const reads = end && around.nets.get(end.name);
    return !reads?.every(({ state }) => state === "high");
  }
  return true;

  function leads(diode: string, at: string, from: Net, { board: all }: Around): boolean {
    const end = otherEndOf({ ref: diode, pin: at }, from, all);
    return !end || !(index.isGround(end) || index.railOf(end) !== undefined);
  }
}

/** Something else is there to drive it, so that a port is there to read. */
const isDriven = ({ pins }: Net, ref: string, around: Around): boolean =>
  pins.some((one) => {
    const device = one.ref === ref ? undefined : deviceOf(one.ref, around);
    const direction = device?.pins.get(one.pin)?.direction;
    return (
      direction === "output" ||
      direction === "open-collector" ||
      (device !== undefined && couplersOf(device).some(({ out }) => out === one.pin))
    );
  });

/** The same readings as voltages by net. */
const voltages = ({ board, ctx, nets }: Around): Voltages => {
  const all = new Map(
    [...nets].map(([name, reads]) => [
      name,
      reads.flatMap(({ ref, volts, reading }) => (volts === undefined ? [] : [{ ref, volts, reading }])),
    ]),
  );
  const volts = new Map(
    [...all].flatMap(([name, reads]) => reads.slice(-1).map((one) => [name, one] as const)),
  );
  return { board, ctx, all, volts };
};

const hasSwitch = ({ pins }: Net): boolean => pins.some(({ ref }) => /^SW\d/i.test(ref));

/** A junction at its base, or a transistor that is not known to be off. */
function holds(device: Device, { ref, pin }: PinRef, seen: Seen, around: Around): boolean {
  const name = device.pins.get(pin)?.name ?? "";
  // Two junctions in a row hold a node above what a probe calls low.
  const isDarlington = device.families.some((family) => /darlington/i.test(family));
  if (/^B$/i.test(name))
    return seen.volts === undefined ? !isDarlington : seen.volts >= PULLED.junction * (isDarlington ? 2 : 1);
  const index = boardIndex(around.board);
  const netOf = (wanted: RegExp): Net | undefined => {
    const own = [...device.pins.values()].find((one) => wanted.test(one.name));
    return own && index.net(ref, own.number);
  };
  const [base, emitter] = [netOf(/^B$/i), netOf(/^E$/i)];
  const reads = base ? (around.nets.get(base.name) ?? []) : [];
  const isNpn = device.families.some((family) => /^npn/i.test(family));
  const isOff =
    isNpn && emitter !== undefined && index.isGround(emitter) && reads.length > 0
      ? reads.every(
          ({ volts, state }) => state === "pulsing" || (volts !== undefined && volts < PULLED.junction),
        )
      : false;
  return !isOff;
}

/** Its inputs were read, and ask for a high. */
function letsGo(device: Device, { ref, pin }: PinRef, around: Around): boolean {
  const comparator = comparatorsOf(device).find(({ out }) => out === pin);
  if (comparator) return toldTo(ref, comparator, voltages(around)) === "let go";
  const { board, nets } = around;
  const gate = device.gates.find(({ outputs }) => outputs.includes(pin));
  const what = gate && gateFunction(gate.function);
  if (!gate || !what) return false;
  const inputs = gate.inputs.map((input) => {
    const net = boardIndex(board).net(ref, input);
    const state = (net && nets.get(net.name))?.find((one) => one.state !== "between")?.state;
    return state === "high" || state === "low" ? state : "unknown";
  });
  const outputs = possibleOutputs(what, inputs, "ttl");
  return inputs.every((state) => state !== "unknown") && outputs.length === 1 && outputs[0] === "high";
}
