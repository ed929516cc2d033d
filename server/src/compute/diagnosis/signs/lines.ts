// Lines of a matrix, all of them together, and the crossings that hang in the machine.
import type { Net } from "../../../knowledge/types";
import { needs, otherEnds, type PinAt, pinRoleOf, powerPins } from "../around";
import type { BoardModel, PartModel } from "../board-model";
import type { Member } from "../conflict";
import type { ReadNets } from "../read-nets";
import { jointSuspect, outsideSuspect, partSuspect, trackSuspect } from "../suspects";
import type { SignFinding } from "../types";
import { working } from "../working";
import { bridged } from "./opens";

const LINE = {
  chip: 0.5,
  small: 0.6,
  joint: 0.6,
  header: 0.1,
  track: 0.3,
  behind: 0.4,
  pull: 0.25,
  outside: 0.15,
  /** What drives a node that was seen to be right. */
  works: 0.1,
  /** An input of the section that drives the line. */
  input: 0.4,
} as const;
/** What most of the lines share. */
const SILENT = { chip: 0.5, power: 0.5, header: 0.4, before: 0.35, outside: 0.1 } as const;
const STUCK = { chip: 0.4, behind: 0.3, track: 0.4, header: 0.05, outside: 0.3, capacitor: 0.5 } as const;
/** Of a chip that drives both of two lines which come together. */
const BOTH_ON = 0.05;
/** Of a chip that drives two lines which stand at one voltage between the levels. */
const BOTH_OFF = 0.06;
const CROSSING = { outside: 0.9, track: 0.05, joint: 0.6 } as const;

const netsOf = (model: BoardModel, names: readonly string[] = []): Net[] =>
  names.flatMap((name) => model.board.nets.get(name) ?? []);

/** A part of many lines loses this one alone only now and then. */
const ofMany = (weight: number, part: PartModel): number =>
  weight * Math.min(1, 10 / Math.max(1, part.signalPins.length));

/** Its other end is a supply: it pulls, and nothing goes through it. */
const isTied = (model: BoardModel, part: PartModel, pin: string): boolean =>
  otherEnds(part, pin).every(({ net }) => model.isSupply(net));

function line(model: BoardModel, finding: SignFinding, read: ReadNets): readonly Member[] {
  const seen = new Set<Net>();
  const cleared = working(model, read);
  const along = (net: Net, share: number, stage: number): Member[] => {
    if (seen.has(net) || model.isSupply(net)) return [];
    seen.add(net);
    const members: Member[] = [{ suspect: trackSuspect(net.name), weight: LINE.track * share }];
    for (const { ref, pin } of net.pins) {
      const part = model.part(ref);
      if (!part) continue;
      const name = part.part.ref;
      const weight =
        part.kind === "connector"
          ? LINE.header
          : (part.kind === "resistor" || part.kind === "resistor-network") && isTied(model, part, pin)
            ? LINE.pull
            : part.signalPins.length <= 3
              ? LINE.small
              : LINE.chip;
      const role = pinRoleOf(part, pin);
      const drives = role === "drives" || role === "collector" || role === "base";
      const left = drives && cleared.has(net) ? LINE.works : 1;
      members.push({ suspect: partSuspect(name), weight: ofMany(weight, part) * share * left });
      members.push({
        suspect: jointSuspect(name, pin),
        weight: LINE.joint * share * (stage === 0 ? 1 : left),
      });
      if (stage > 3) continue;
      for (const next of through(model, part, pin))
        members.push(...along(next, share * left * 0.85, stage + 1));
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
  return [
    ...netsOf(model, finding.nets).flatMap((net) => along(net, 1, 0)),
    ...outside(finding, LINE.outside),
  ];
}

const outside = ({ outside: of }: SignFinding, weight: number): Member[] =>
  of === undefined ? [] : [{ suspect: outsideSuspect(of), weight }];

/** Nets on the other side of the part: through a gate, a transistor or a series resistor. */
function through(model: BoardModel, part: PartModel, pin: string): Net[] {
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

/** Parts by the share of the lines that go through them, two stages deep. */
function shared(model: BoardModel, lines: readonly Net[]): Map<PartModel, number> {
  const shares = new Map<PartModel, Set<Net>>();
  for (const start of lines) {
    const seen = new Set<Net>([start]);
    const queue = [start];
    for (let i = 0; i < queue.length && i < 8; i += 1) {
      for (const { ref, pin } of queue[i]!.pins) {
        const part = model.part(ref);
        if (!part) continue;
        const on = shares.get(part) ?? new Set();
        shares.set(part, on.add(start));
        for (const next of through(model, part, pin)) {
          if (seen.has(next)) continue;
          seen.add(next);
          queue.push(next);
        }
      }
    }
  }
  return new Map([...shares].map(([part, on]) => [part, on.size / lines.length]));
}

function silent(model: BoardModel, finding: SignFinding): readonly Member[] {
  const members: Member[] = [];
  for (const [part, share] of shared(model, netsOf(model, finding.nets))) {
    if (share < 0.3) continue;
    const { ref } = part.part;
    const chip = part.kind !== "resistor-network" && part.kind !== "connector";
    const weight = part.kind === "connector" ? SILENT.header : chip ? SILENT.chip : 0.05;
    members.push({ suspect: partSuspect(ref), weight: weight * Math.min(1, share * 1.5) });
    if (!chip) continue;
    const { ground, supply } = powerPins(part);
    for (const pin of [...ground, ...supply])
      members.push({ suspect: jointSuspect(ref, pin), weight: SILENT.power * Math.min(1, share * 1.5) });
    // What tells it which line to drive.
    for (const { pin } of part.signalPins) {
      if (pinRoleOf(part, pin) !== "drives") continue;
      for (const { net, pin: at } of needs(part, pin, "steady")) {
        if (model.isSupply(net)) continue;
        members.push({ suspect: trackSuspect(net.name), weight: SILENT.before * 0.3 });
        members.push({ suspect: jointSuspect(ref, at), weight: SILENT.before * 0.3 });
        for (const other of model.onNet(net))
          if (other !== part)
            members.push({ suspect: partSuspect(other.part.ref), weight: SILENT.before * share });
      }
    }
  }
  return [...members, ...outside(finding, SILENT.outside)];
}

function stuck(model: BoardModel, finding: SignFinding): readonly Member[] {
  return [
    ...netsOf(model, finding.nets).flatMap((net) => [
      { suspect: trackSuspect(net.name), weight: STUCK.track },
      ...net.pins.flatMap(({ ref, pin }): Member[] => {
        const part = model.part(ref);
        if (!part) return [];
        const weight =
          part.kind === "connector"
            ? STUCK.header
            : part.kind === "capacitor"
              ? STUCK.capacitor
              : part.kind === "resistor" || part.kind === "resistor-network"
                ? 0.02
                : ofMany(STUCK.chip, part);
        return [
          { suspect: partSuspect(part.part.ref), weight },
          ...through(model, part, pin).flatMap((next) =>
            model.onNet(next).map((other) => ({
              suspect: partSuspect(other.part.ref),
              weight: ofMany(STUCK.behind, other),
            })),
          ),
        ];
      }),
    ]),
    ...outside(finding, STUCK.outside),
  ];
}

const crossing = (model: BoardModel, finding: SignFinding): readonly Member[] => [
  ...(finding.pins ?? []).map(({ ref, pin }) => ({
    suspect: jointSuspect(ref, pin),
    weight: CROSSING.joint,
  })),
  ...outside(finding, CROSSING.outside),
  ...(finding.refs ?? []).map((ref) => ({ suspect: partSuspect(ref), weight: CROSSING.outside })),
  ...netsOf(model, finding.nets).map((net) => ({ suspect: trackSuspect(net.name), weight: CROSSING.track })),
];

/** Two lines with a name for each stage of theirs stand in turn: the first stage of both, then the next. */
const inPairs = (names: readonly string[] = []): readonly (readonly string[])[] =>
  names.length % 2 === 0 && names.length > 2
    ? names.flatMap((name, i) => (i % 2 === 0 ? [[name, names[i + 1]!]] : []))
    : [names];

export const LINE_SIGNS = {
  "matrix-line": line,
  "matrix-silent": silent,
  "lines-joined": (model: BoardModel, finding: SignFinding) => [
    ...inPairs(finding.nets).flatMap((pair) => bridged(model, pair)),
    ...outside(finding, 0.2),
  ],
  // Nets in twos, a stage each: what joins the two, and what drives both.
  "lines-alike": (model: BoardModel, { nets = [] }: SignFinding) =>
    nets.flatMap((one, i) => {
      const other = nets[i + 1];
      if (i % 2 === 1 || other === undefined) return [];
      const [a, b] = netsOf(model, [one, other]);
      const drivers = (a?.pins ?? []).flatMap(({ ref, pin }): Member[] => {
        const part = model.part(ref);
        return part && b && part.pins.length > 3 && pinRoleOf(part, pin) === "drives" && model.isOn(part, b)
          ? [{ suspect: partSuspect(part.part.ref), weight: BOTH_ON }]
          : [];
      });
      return [...bridged(model, [one, other]), ...drivers];
    }),
  "levels-joined": (model: BoardModel, { nets }: SignFinding) => [
    ...bridged(model, nets),
    // Or what drives both of them lets go of both.
    ...netsOf(model, nets).flatMap((net) =>
      net.pins.flatMap(({ ref, pin }): Member[] => {
        const part = model.part(ref);
        const role = part && pinRoleOf(part, pin);
        return part && (role === "drives" || role === "may-drive")
          ? [{ suspect: partSuspect(part.part.ref), weight: BOTH_OFF }]
          : [];
      }),
    ),
  ],
  "line-stuck": stuck,
  "crossing-stuck": crossing,
  "crossing-dead": crossing,
  phantom: crossing,
  setting: line,
  "coil-diode": (model: BoardModel, { refs = [], pins = [], nets = [] }: SignFinding): readonly Member[] => [
    ...refs.flatMap((ref): Member[] => {
      const part = model.part(ref);
      return part
        ? [
            { suspect: partSuspect(part.part.ref), weight: 0.8 },
            ...part.pins.map(({ pin }) => ({ suspect: jointSuspect(part.part.ref, pin), weight: 0.4 })),
          ]
        : [];
    }),
    ...nets.map((net) => ({ suspect: trackSuspect(net), weight: 0.3 })),
    ...pins.map(({ ref, pin }) => ({ suspect: jointSuspect(ref, pin), weight: 0.2 })),
  ],
};
