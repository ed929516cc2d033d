// Lines of a matrix, all of them together, and the crossings that hang in the machine.
import type { Net } from "../../../knowledge/types";
import { needs, pinRoleOf, powerPins } from "../around";
import type { BoardModel, PartModel } from "../board-model";
import type { Member } from "../conflict";
import type { ReadNets } from "../read-nets";
import { jointSuspect, outsideSuspect, partSuspect, trackSuspect } from "../suspects";
import type { SignFinding } from "../types";
import { working } from "../working";
import { alongLine, ofMany, through } from "./along-line";
import { bridged } from "./opens";

/** The wiring of the line in the machine. */
const WIRING = 0.15;
/** What most of the lines share. */
const SILENT = { chip: 0.5, power: 0.5, header: 0.4, before: 0.35, outside: 0.1, moves: 0.1 } as const;
const STUCK = {
  chip: 0.4,
  behind: 0.3,
  track: 0.4,
  header: 0.05,
  outside: 0.3,
  capacitor: 0.5,
  told: 0.5,
} as const;
/** Of a chip that drives both of two lines which come together. */
const BOTH_ON = 0.05;
/** Of a chip that drives two lines which stand at one voltage between the levels. */
const BOTH_OFF = 0.06;
const CROSSING = { outside: 0.9, track: 0.05, joint: 0.6 } as const;

const netsOf = (model: BoardModel, names: readonly string[] = []): Net[] =>
  names.flatMap((name) => model.board.nets.get(name) ?? []);

const outside = ({ outside: of }: SignFinding, weight: number): Member[] =>
  of === undefined ? [] : [{ suspect: outsideSuspect(of), weight }];

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

/** It was seen to move what it drives: it does its work, or most of it. */
const isMoving = (part: PartModel, moves: ReadonlySet<Net>): boolean =>
  part.signalPins.some(({ pin, net }) => {
    const role = pinRoleOf(part, pin);
    return (role === "drives" || role === "may-drive") && moves.has(net);
  });

function silent(model: BoardModel, finding: SignFinding, read: ReadNets): readonly Member[] {
  const members: Member[] = [];
  const moves = working(model, read);
  const leftOf = (part: PartModel): number => (isMoving(part, moves) ? SILENT.moves : 1);
  for (const [part, share] of shared(model, netsOf(model, finding.nets))) {
    if (share < 0.3) continue;
    const { ref } = part.part;
    const chip = part.kind !== "resistor-network" && part.kind !== "connector";
    const weight = part.kind === "connector" ? SILENT.header : chip ? SILENT.chip : 0.05;
    const left = leftOf(part) * Math.min(1, share * 1.5);
    members.push({ suspect: partSuspect(ref), weight: weight * left });
    if (!chip) continue;
    const { ground, supply } = powerPins(part);
    for (const pin of [...ground, ...supply])
      members.push({ suspect: jointSuspect(ref, pin), weight: SILENT.power * left });
    // What tells it which line to drive.
    for (const { pin } of part.signalPins) {
      if (pinRoleOf(part, pin) !== "drives") continue;
      for (const { net, pin: at } of needs(part, pin, "steady")) {
        if (model.isSupply(net)) continue;
        const comes = moves.has(net) ? SILENT.moves : 1;
        members.push({ suspect: trackSuspect(net.name), weight: SILENT.before * 0.3 * comes });
        members.push({ suspect: jointSuspect(ref, at), weight: SILENT.before * 0.3 });
        for (const other of model.onNet(net))
          if (other !== part)
            members.push({
              suspect: partSuspect(other.part.ref),
              weight: SILENT.before * share * comes * leftOf(other),
            });
      }
    }
  }
  return [...members, ...outside(finding, SILENT.outside)];
}

function stuck(model: BoardModel, finding: SignFinding, read: ReadNets): readonly Member[] {
  const switched = netsOf(model, finding.nets).some((net) =>
    net.pins.some(({ ref, pin }) => {
      const part = model.part(ref);
      return part !== undefined && pinRoleOf(part, pin) === "collector";
    }),
  );
  return [
    // A transistor does as it is told, and what tells it may be held as well.
    ...(switched
      ? alongLine(model, finding, read).map((one) => ({ ...one, weight: one.weight * STUCK.told }))
      : []),
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

const line = (model: BoardModel, finding: SignFinding, read: ReadNets): readonly Member[] => [
  ...alongLine(model, finding, read),
  ...outside(finding, WIRING),
];

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
  "wiring-apart": crossing,
  "bar-dark": crossing,
  phantom: crossing,
  setting: line,
  "output-wrong": line,
  "coil-line-short": (model: BoardModel, finding: SignFinding): readonly Member[] => [
    ...coilDiode(model, finding),
    ...outside(finding, COIL),
  ],
  "coil-diode": (model: BoardModel, finding: SignFinding): readonly Member[] => [
    ...coilDiode(model, finding),
    ...outside(finding, COIL),
  ],
};

/** A winding of its own shorted, against the diode across it. */
const COIL = 0.3;

const coilDiode = (model: BoardModel, { refs = [], pins = [], nets = [] }: SignFinding): Member[] => [
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
];
