// One line that fails, gone along from net to net: what drives it, what lies in series, what hangs on it. What was seen to move, to
// conduct or to stand still on the way says where on it.
import type { Net } from "../../../knowledge/types";
import { drivesAt, needs, otherEnds, type PinAt, pinRoleOf } from "../around";
import type { BoardModel, PartModel } from "../board-model";
import type { Member } from "../conflict";
import type { ReadNets } from "../read-nets";
import { jointSuspect, partSuspect, trackSuspect } from "../suspects";
import type { SignFinding } from "../types";
import { working } from "../working";

const LINE = {
  chip: 0.5,
  small: 0.6,
  joint: 0.6,
  header: 0.1,
  track: 0.3,
  behind: 0.4,
  pull: 0.25,
  /** What drives a node that was seen to be right. */
  works: 0.1,
  /** What stands before a node that does as it should, and what follows one that does not as it is told. */
  before: 0.1,
  /** A transistor that was seen to be on. */
  on: 0.02,
  /** Several lamps on one line do not go dark by one of them. */
  oneOfLamps: 0.03,
  told: 0.15,
  /** An input of the section that drives the line. */
  input: 0.4,
} as const;
/** A part of many lines loses this one alone only now and then. */
export const ofMany = (weight: number, part: PartModel): number =>
  weight * Math.min(1, 10 / Math.max(1, part.signalPins.length));

/** Its other end is a supply: it pulls, and nothing goes through it. */
const isTied = (model: BoardModel, part: PartModel, pin: string): boolean =>
  otherEnds(part, pin).every(({ net }) => model.isSupply(net));

/** What on the board may keep the line of these nets from doing what it should. */
export function alongLine(model: BoardModel, finding: SignFinding, read: ReadNets): readonly Member[] {
  const seen = new Set<Net>();
  const lineNets = (finding.nets ?? []).flatMap((name) => model.board.nets.get(name) ?? []);
  const own = new Set(lineNets);
  const cleared = working(model, read, finding.state !== "high");
  const before = beforeWorking(model, cleared);
  const told = toldBy(model, own, cleared, read);
  const along = (net: Net, whole: number, stage: number): Member[] => {
    // Nets of the line itself are gone along each by itself.
    if (seen.has(net) || model.isSupply(net) || (stage > 0 && own.has(net))) return [];
    seen.add(net);
    const share = whole * (before.has(net) ? LINE.before : told.has(net) ? LINE.told : 1);
    const members: Member[] = [{ suspect: trackSuspect(net.name), weight: LINE.track * share }];
    // What feeds many lines through a fuse joins them no more than their rail does.
    const fuse = stage > 0 ? model.fuseOf(net) : undefined;
    if (fuse) return [...members, { suspect: partSuspect(fuse.part.ref), weight: LINE.small * share }];
    const lamps = model.onNet(net).filter(({ kind }) => kind === "lamp").length;
    for (const { ref, pin } of net.pins) {
      const part = model.part(ref);
      if (!part) continue;
      const name = part.part.ref;
      const weight =
        part.kind === "connector"
          ? LINE.header
          : (part.kind === "resistor" || part.kind === "resistor-network") && isTied(model, part, pin)
            ? LINE.pull
            : part.kind === "lamp" && lamps > 1
              ? LINE.oneOfLamps
              : part.signalPins.length <= 3
                ? LINE.small
                : LINE.chip;
      const role = pinRoleOf(part, pin);
      const drives = role === "collector" || role === "base" || drivesAt(model.part, net, part, pin);
      const follows = told.size > 0 && role === "takes" && isStill(net, read);
      const isOn = role === "collector" && finding.state !== "high" && read.conducting.has(net.name);
      const left = isOn ? LINE.on : drives && cleared.has(net) ? LINE.works : follows ? LINE.told : 1;
      members.push({ suspect: partSuspect(name), weight: ofMany(weight, part) * share * left });
      members.push({
        suspect: jointSuspect(name, pin),
        weight: LINE.joint * share * (stage === 0 ? 1 : left),
      });
      if (stage > 3) continue;
      for (const next of through(model, part, pin))
        members.push(...along(next, whole * (follows ? 1 : left) * 0.85, stage + 1));
      // An input of a decoder takes more than one of its lines with it, and what is behind it more still.
      for (const { net: input, pin: at } of inputsOf(model, part, pin)) {
        members.push({ suspect: trackSuspect(input.name), weight: LINE.track * LINE.input * share * left });
        members.push({ suspect: jointSuspect(name, at), weight: LINE.joint * LINE.input * share * left });
        for (const other of input.pins) {
          const driver = model.part(other.ref);
          if (!driver || driver === part || pinRoleOf(driver, other.pin) !== "drives") continue;
          const driverRef = driver.part.ref;
          members.push({
            suspect: partSuspect(driverRef),
            weight: ofMany(LINE.chip, driver) * LINE.input * share * left,
          });
          members.push({
            suspect: jointSuspect(driverRef, other.pin),
            weight: LINE.joint * LINE.input * share * left,
          });
        }
      }
    }
    return members;
  };
  return lineNets.flatMap((net) => along(net, 1, 0));
}

/** Nets from which others of these are driven: all that stands on them is through to the next. */
function beforeWorking(model: BoardModel, cleared: ReadonlySet<Net>): ReadonlySet<Net> {
  const before = new Set<Net>();
  for (const net of cleared)
    for (const { ref, pin } of net.pins) {
      const part = model.part(ref);
      const role = part && pinRoleOf(part, pin);
      if (!part || (role !== "collector" && !drivesAt(model.part, net, part, pin))) continue;
      const inputs =
        role !== "collector"
          ? needs(part, pin, "steady")
          : part.pins.filter((one) => pinRoleOf(part, one.pin) === "base");
      for (const input of inputs) if (cleared.has(input.net)) before.add(input.net);
      for (const { net: base } of role === "collector" ? inputs : [])
        for (const drive of base.pins.flatMap((one) => {
          const resistor = model.part(one.ref);
          return resistor?.kind === "resistor" ? otherEnds(resistor, one.pin) : [];
        }))
          if (cleared.has(drive.net)) before.add(drive.net);
    }
  return before;
}

const isStill = ({ name }: Net, { levels, right, conducting }: ReadNets): boolean => {
  const level = levels.get(name);
  return (level === "low" || level === "high") && !right.has(name) && !conducting.has(name);
};

/** Nets of the line that follow one which stands still while what is before it moves: they do as they are told. */
function toldBy(
  model: BoardModel,
  line: ReadonlySet<Net>,
  cleared: ReadonlySet<Net>,
  read: ReadNets,
): ReadonlySet<Net> {
  const told = new Set<Net>();
  const queue = [...line].filter(
    (net) =>
      isStill(net, read) &&
      net.pins.some(({ ref, pin }) => {
        const part = model.part(ref);
        return (
          part !== undefined &&
          drivesAt(model.part, net, part, pin) &&
          needs(part, pin, "steady").some((need) => cleared.has(need.net))
        );
      }),
  );
  for (let i = 0; i < queue.length; i += 1)
    for (const { ref, pin } of queue[i]!.pins) {
      const part = model.part(ref);
      const role = part && pinRoleOf(part, pin);
      if (!part || role === "drives" || role === "may-drive" || role === "collector") continue;
      for (const next of through(model, part, pin)) {
        if (told.has(next) || queue.includes(next) || cleared.has(next)) continue;
        told.add(next);
        queue.push(next);
      }
    }
  return told;
}

/** Nets on the other side of the part: through a gate, a transistor or a series resistor. */
export function through(model: BoardModel, part: PartModel, pin: string): Net[] {
  const { device } = part;
  const signal = (pins: readonly string[]): Net[] =>
    pins.flatMap((at) => {
      const net = model.netAt(part.part.ref, at);
      return net && !model.isSupply(net) ? [net] : [];
    });
  if (
    part.kind === "transistor" ||
    ((part.kind === "resistor" || part.kind === "diode") && part.pins.length === 2)
  )
    return signal(part.pins.flatMap((one) => (one.pin === pin ? [] : one.pin)));
  if (part.kind === "resistor-network") return signal(otherEnds(part, pin).map((end) => end.pin));
  const gates = (device?.gates ?? []).flatMap(({ inputs, outputs }) =>
    inputs.includes(pin) ? outputs : outputs.includes(pin) ? inputs : [],
  );
  return signal(gates);
}

/** What a section that is no simple gate makes this output from. */
const inputsOf = (model: BoardModel, part: PartModel, pin: string): readonly PinAt[] =>
  pinRoleOf(part, pin) === "drives" && part.device?.gates.every(({ outputs }) => !outputs.includes(pin))
    ? needs(part, pin, "steady").filter(({ net }) => !model.isSupply(net))
    : [];
