// A part of two leads with a signal at one of them and none at the other, which nothing shunts to a supply: it does not pass it.

import { defined } from "../../../base/defined";
import type { SignFinding } from "../../../compute/diagnosis/types";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board, Device, Net } from "../../../knowledge/types";
import { otherEndOf } from "../lines/ends";
import type { LocatedObservation } from "../observation";
import { couplersOf } from "./analog";

/** Of what goes in, peak to peak: less behind a part that should hand it on is as good as nothing. Common practice, no source. */
const FAINT = { share: 0.04, least: 0.2 } as const;

/** One finding a part, at the end where nothing moves. */
export function notPassed(
  all: readonly LocatedObservation[],
  board: Board,
  deviceOf: (part: string) => Device | undefined,
): LocatedObservation[] {
  const index = boardIndex(board);
  const moving = new Set<string>();
  const still = new Map<string, LocatedObservation>();
  const stood = new Map<string, LocatedObservation>();
  const swings = new Map<string, number>();
  for (const { swing } of all) {
    const net = swing && index.net(swing.ref, swing.pin);
    if (net) swings.set(net.name, Math.max(swing.volts, swings.get(net.name) ?? 0));
  }
  // What is left of a signal behind what should hand it on, which has all of it on its other side.
  const isFaint = (net: Net): boolean => {
    const swing = swings.get(net.name);
    return (
      swing !== undefined &&
      net.pins.some(({ ref, pin }) => {
        const end = /^[CR]\d/i.test(ref) ? otherEndOf({ ref, pin }, net, board) : undefined;
        const before = end && !index.isGround(end) ? (swings.get(end.name) ?? 0) : 0;
        return before > FAINT.least && swing < FAINT.share * before;
      })
    );
  };
  for (const one of all) {
    const { level, finding, swing } = one;
    const at = level ?? swing;
    const net = at && index.net(at.ref, at.pin);
    if (net && isFaint(net) && isPassive(net)) {
      still.set(net.name, one);
      continue;
    }
    if (net && level?.state === "pulsing") moving.add(net.name);
    const dead =
      finding?.kind === "sign" && finding.sign === "clock-dead"
        ? index.net(finding.ref ?? "", finding.pin ?? "")
        : undefined;
    if (dead) still.set(dead.name, one);
    if (!net || dead || finding || !level || level.right) continue;
    if (level.state === "low" && isPassive(net)) still.set(net.name, one);
    // A base that stands while what drives it moves, and a collector that does while its base moves.
    else if (level.state === "low" || level.state === "high") stood.set(net.name, one);
  }
  const atTransistors = [...stood].flatMap(([name, one]): LocatedObservation[] => {
    const net = board.nets.get(name);
    return net && !moving.has(name) ? byTransistor(net, one, moving, board, deviceOf) : [];
  });
  const passed = [...still].flatMap(([name, one]): LocatedObservation[] => {
    const net = board.nets.get(name);
    if (!net || moving.has(name) || isShunted(net, board)) return [];
    return net.pins.flatMap(({ ref, pin }): LocatedObservation[] => {
      const ends = /^RV\d/i.test(ref)
        ? [...board.nets.values()].filter((one) => one !== net && one.pins.some((other) => other.ref === ref))
        : /^[RC]N?\d/i.test(ref)
          ? [otherEndOf({ ref, pin }, net, board)]
          : [];
      const end = ends.find((one) => one && moving.has(one.name));
      if (!end) return [];
      return [
        defined({
          ...one,
          key: `through ${ref}`.toUpperCase(),
          what: `the signal through ${ref}`,
          refs: [ref.toUpperCase()],
          finding: {
            kind: "sign",
            sign: "stage",
            refs: [ref],
            of: `the signal through ${ref}`,
            says: `${end.name} moves and ${name} does not, and ${ref} lies between them.`,
          } satisfies SignFinding,
        }),
      ];
    });
  });
  return [...atTransistors, ...passed, ...notAmplified(all, moving, board, deviceOf)];
}

/** The series resistor of a base that stands while its drive moves, or the transistor whose collector stands while its base moves. */
function byTransistor(
  net: Net,
  one: LocatedObservation,
  moving: ReadonlySet<string>,
  board: Board,
  deviceOf: (part: string) => Device | undefined,
): LocatedObservation[] {
  const index = boardIndex(board);
  const transistors = net.pins.flatMap(({ ref, pin }) => {
    const device = deviceOf(board.parts.get(ref)?.device ?? "");
    const name = device?.kind === "transistor" ? (device.pins.get(pin)?.name ?? "") : "";
    return device && name !== "" ? [{ ref, device, name }] : [];
  });
  const base = transistors.find(({ name }) => /^B$/i.test(name));
  const emitter = [...(base?.device.pins.values() ?? [])].find(({ name }) => /^E$/i.test(name));
  const foot = base && emitter && index.net(base.ref, emitter.number);
  // A diode that keeps the base from going the other way lies across the junction.
  const clamps = net.pins.flatMap((at) =>
    foot && /^D\d/i.test(at.ref) && otherEndOf(at, net, board) === foot ? at.ref : [],
  );
  // What else stands on it, such as a gate, may hold it.
  const isAlone = net.pins.every(({ ref }) => /^(?:R|Q|TR|TP)\d/i.test(ref) || clamps.includes(ref));
  const told = (refs: readonly string[], says: string): LocatedObservation =>
    defined({
      ...one,
      key: `through ${refs[0]}`.toUpperCase(),
      what: `the signal through ${refs[0]}`,
      refs: refs.map((ref) => ref.toUpperCase()),
      finding: {
        kind: "sign",
        sign: "stage",
        refs,
        of: `the signal through ${refs[0]}`,
        says,
      } satisfies SignFinding,
    });
  if (base && isAlone)
    return net.pins.flatMap((at) => {
      const end = /^R\d/i.test(at.ref) ? otherEndOf(at, net, board) : undefined;
      return end && moving.has(end.name)
        ? [
            told(
              [at.ref, base.ref],
              `${end.name} moves and the base of ${base.ref} does not, and ${at.ref} lies between them.`,
            ),
          ]
        : [];
    });
  const drivers = net.pins.filter(({ ref }) => /^(?:U|IC|Q|TR)\d/i.test(ref));
  const collectors = transistors.filter(({ name }) => /^C$/i.test(name));
  const [only] = collectors;
  if (!only || collectors.length > 1) return [];
  const isDriven = drivers.some(({ ref, pin }) => {
    const direction = deviceOf(board.parts.get(ref)?.device ?? "")?.pins.get(pin)?.direction;
    return ref !== only.ref && direction !== "input";
  });
  const pin = [...only.device.pins.values()].find(({ name }) => /^B$/i.test(name));
  const own = pin && index.net(only.ref, pin.number);
  // Where it is pulled to by others while it is off; the other way its load may be gone as well.
  const isPnp = only.device.families.some((family) => /^pnp/i.test(family));
  const isLetGo = one.level?.state === (isPnp ? "low" : "high");
  return own && moving.has(own.name) && !isDriven && isLetGo
    ? [told([only.ref], `The base of ${only.ref} moves, and its collector does not.`)]
    : [];
}

/** An amplifier, or an optocoupler, with a signal at an input and none at its output; one finding a part. */
function notAmplified(
  all: readonly LocatedObservation[],
  moving: ReadonlySet<string>,
  board: Board,
  deviceOf: (part: string) => Device | undefined,
): LocatedObservation[] {
  const index = boardIndex(board);
  const found = new Map<string, LocatedObservation>();
  for (const one of all) {
    const { level } = one;
    if (!level || (level.state !== "low" && level.state !== "high")) continue;
    const device = deviceOf(board.parts.get(level.ref)?.device ?? "");
    const out = device?.pins.get(level.pin);
    const isMoving = (pin: string): boolean => moving.has(index.net(level.ref, pin)?.name ?? "");
    if (!device || !out || isMoving(level.pin)) continue;
    const isCoupler = couplersOf(device).some(
      (section) => section.out === level.pin && (isMoving(section.anode) || isMoving(section.cathode)),
    );
    const isAmplifier =
      device.kind === "analog" &&
      out.direction === "output" &&
      /OUT$/i.test(out.name) &&
      [...device.pins.values()].some(
        ({ number, name, direction, unit }) =>
          direction === "input" && /IN/i.test(name) && unit === out.unit && isMoving(number),
      );
    if (!isCoupler && !isAmplifier) continue;
    found.set(
      level.ref,
      defined({
        ...one,
        key: `through ${level.ref}`.toUpperCase(),
        what: `the signal through ${level.ref}`,
        refs: [level.ref.toUpperCase()],
        finding: {
          kind: "sign",
          sign: "stage",
          refs: [level.ref],
          of: `the signal through ${level.ref}`,
          says: `A signal goes into ${level.ref} and none comes out.`,
        } satisfies SignFinding,
      }),
    );
  }
  return [...found.values()];
}

/** Nothing on the net but leads, a header and what takes it: no junction clamps what comes through. */
const isPassive = ({ pins }: Net): boolean =>
  pins.every(({ ref }) => /^(?:R|RV|RN|C|J|P|TP|L|FB|U|IC)\d/i.test(ref)) &&
  pins.some(({ ref }) => /^C\d/i.test(ref)) &&
  pins.filter(({ ref }) => /^(?:U|IC)\d/i.test(ref)).length <= 1;

/** A capacitor to ground or a supply may take what moves there. */
const isShunted = (net: Net, board: Board): boolean =>
  net.pins.some(({ ref, pin }) => {
    const end = /^C\d/i.test(ref) ? otherEndOf({ ref, pin }, net, board) : undefined;
    return (
      end !== undefined && (boardIndex(board).isGround(end) || boardIndex(board).railOf(end) !== undefined)
    );
  });
