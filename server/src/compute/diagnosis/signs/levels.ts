// A pin that stands wrong under power: a clock that stands still, a reset that is held, a level, a pin that floats.
import { needs, pinRoleOf } from "../around";
import type { BoardModel, PartModel } from "../board-model";
import type { Member } from "../conflict";
import type { ReadNets } from "../read-nets";
import { jointSuspect, partSuspect, trackSuspect } from "../suspects";
import type { SignFinding } from "../types";
import { upstreamOf } from "../upstream";
import { working } from "../working";
import { through } from "./along-line";

/** What a clock is made from, which its board names; what is left of it where it was seen to run further on. */
const SOURCE = { itself: 0.75, runs: 0.01, stages: 6 } as const;
/** A pin that floats or stands while its net moves elsewhere: its own joint, or the track to it; a chip lets no input of its own float. */
/** How well each explains a time that is off. Common practice, no source. */
const RATE = { resistor: 0.5, capacitor: 0.45, other: 0.15, rest: 0.5 } as const;
const APART = { joint: 0.85, track: 0.6, chip: 0.04, input: 0.003, header: 0.5, other: 0.2 } as const;

/** What lies between the pin and the rest of its net; undefined where the rest was not seen to stand otherwise. */
function apart(model: BoardModel, finding: SignFinding, read: ReadNets): readonly Member[] | undefined {
  const { ref = "", pin = "", sign } = finding;
  const net = model.netAt(ref, pin);
  const part = model.part(ref);
  if (!net || !part || model.isSupply(net)) return undefined;
  const others = net.pins.filter((one) => one.ref !== part.part.ref || one.pin !== pin);
  const seen = others.flatMap((one) => read.pinLevels.get(`${one.ref}.${one.pin}`.toUpperCase()) ?? []);
  const level = read.levels.get(net.name);
  const isElsewhere =
    sign === "floating" || sign === "open-input"
      ? level !== undefined && level !== "floating"
      : seen.length > 0 && seen.every((state) => state === "pulsing");
  if (!isElsewhere) return undefined;
  const takes = pinRoleOf(part, pin) === "takes";
  const at = others.filter((one) => {
    const state = read.pinLevels.get(`${one.ref}.${one.pin}`.toUpperCase());
    return state !== undefined && state !== "floating";
  });
  return [
    // The level was seen on a leg, and the way may end below it.
    ...(at.length === 1 ? at : []).map((one) => ({
      suspect: jointSuspect(one.ref, one.pin),
      weight: model.part(one.ref)?.kind === "connector" ? APART.header : APART.other,
    })),
    { suspect: jointSuspect(part.part.ref, pin), weight: APART.joint },
    { suspect: trackSuspect(net.name), weight: APART.track },
    { suspect: partSuspect(part.part.ref), weight: takes ? APART.input : APART.chip },
  ];
}

/** Of a chip that is clocked and let go, for an output of its own that stays as it is. */
const CLOCKED = 0.3;

/** What sets a delay, and what else hangs on it. */
const EMPTIED = { across: 0.85, joint: 0.3, rest: 0.05 } as const;
const DELAY = { capacitor: 0.6, resistor: 0.5, across: 0.45, rest: 0.2 } as const;

/** Small parts with both leads on the two nets of this one. */
function acrossOf(model: BoardModel, ref: string): string[] {
  const nets = model.part(ref)?.pins.map(({ net }) => net) ?? [];
  const [first] = nets;
  return first && nets.length === 2
    ? model
        .onNet(first)
        .filter(
          (one) =>
            one.part.ref !== ref && one.pins.length === 2 && one.pins.every(({ net }) => nets.includes(net)),
        )
        .map(({ part }) => part.ref)
    : [];
}

const upstream = (model: BoardModel, finding: SignFinding, read: ReadNets): readonly Member[] =>
  finding.ref !== undefined && finding.pin !== undefined
    ? upstreamOf(model, { ref: finding.ref, pin: finding.pin, state: finding.state ?? "steady" }, read)
    : [];

/** What sets the time of an oscillator of a resistor and a capacitor that runs too fast, and too slow; common practice, no source. */
const TIMES = {
  fast: { capacitor: 0.6, resistor: 0.12 },
  slow: { capacitor: 0.2, resistor: 0.5 },
  measured: 0.08,
  chip: 0.04,
  joint: 0.15,
  source: 0.4,
  before: 0.6,
} as const;
const SMALL: ReadonlySet<string> = new Set(["capacitor", "electrolytic", "resistor"]);

/** A clock at another pace than it should: what sets its time, else what it comes from. */
function clockOff(model: BoardModel, finding: SignFinding, read: ReadNets): readonly Member[] {
  const by = finding.state === "high" ? TIMES.fast : TIMES.slow;
  const net = model.netAt(finding.ref ?? "", finding.pin ?? "");
  const drivers = (net?.pins ?? []).flatMap(({ ref, pin }) => {
    const part = model.part(ref);
    return part && pinRoleOf(part, pin) === "drives" ? [{ part, pin }] : [];
  });
  const small = drivers.flatMap(({ part, pin }) =>
    needs(part, pin, "steady")
      .filter(({ timing }) => timing)
      .flatMap((need) => model.onNet(need.net).filter(({ kind }) => SMALL.has(kind))),
  );
  const own = [...new Set(small)].flatMap((one): Member[] => {
    const weight = one.kind === "resistor" ? by.resistor : by.capacitor;
    const left = read.measured.has(one.part.ref.toUpperCase()) ? TIMES.measured : 1;
    return [
      { suspect: partSuspect(one.part.ref), weight: weight * left },
      ...one.pins.map(({ pin }) => ({ suspect: jointSuspect(one.part.ref, pin), weight: TIMES.joint })),
    ];
  });
  const from = (finding.refs ?? []).flatMap((ref) => model.part(ref) ?? []);
  return [
    ...own,
    ...drivers.map(({ part }) => ({ suspect: partSuspect(part.part.ref), weight: TIMES.chip })),
    ...from.map(({ part }) => ({ suspect: partSuspect(part.ref), weight: TIMES.source })),
    ...(own.length > 0 ? [] : upstream(model, { ...finding, state: "steady" }, read)).map((one) => ({
      ...one,
      weight: one.weight * TIMES.before,
    })),
  ];
}

/** What it makes was seen to move: at its own pins, or behind the gates that it leads through. */
function isSeenToRun(model: BoardModel, source: PartModel, { levels }: ReadNets): boolean {
  const nets = source.signalPins.map(({ net }) => net);
  for (let at = 0, stage = 0; at < nets.length && stage < SOURCE.stages; stage += 1) {
    const end = nets.length;
    for (; at < end; at += 1) {
      if (levels.get(nets[at]!.name) === "pulsing") return true;
      for (const { ref, pin } of nets[at]!.pins) {
        const part = model.part(ref);
        for (const next of part && pinRoleOf(part, pin) !== "drives" ? through(model, part, pin) : [])
          if (!nets.includes(next)) nets.push(next);
      }
    }
  }
  return false;
}

const floating = (model: BoardModel, finding: SignFinding, read: ReadNets): readonly Member[] =>
  apart(model, finding, read) ?? upstream(model, finding, read);

export const LEVEL_SIGNS = {
  "clock-off": clockOff,
  "clock-dead": (model: BoardModel, finding: SignFinding, read: ReadNets) =>
    apart(model, finding, read) ?? [
      ...upstream(model, finding, read),
      ...(finding.refs ?? []).flatMap((ref): Member[] => {
        const part = model.part(ref);
        if (!part) return [];
        return [
          {
            suspect: partSuspect(part.part.ref),
            weight: isSeenToRun(model, part, read) ? SOURCE.runs : SOURCE.itself,
          },
        ];
      }),
    ],
  // What sets a time: a resistor grows, a capacitor is another one, or dries out; then what is timed.
  "rate-off": (model: BoardModel, finding: SignFinding, read: ReadNets) =>
    upstream(model, { ...finding, state: "steady" }, read).map((one) => {
      const kind = one.suspect.kind === "part" ? model.part(one.suspect.ref)?.kind : undefined;
      const isSlow = finding.state === "high";
      const timing =
        kind === "resistor"
          ? isSlow
            ? RATE.resistor
            : RATE.other
          : kind === "capacitor" || kind === "electrolytic"
            ? RATE.capacitor
            : 0;
      return {
        ...one,
        weight: Math.max(one.weight * (timing > 0 ? 1 : RATE.rest), one.weight > 0.02 ? timing : 0),
      };
    }),
  "reset-held": upstream,
  level: upstream,
  "level-between": upstream,
  // What makes the outputs beside it move does its work.
  still: (model: BoardModel, finding: SignFinding, read: ReadNets) =>
    upstream(model, finding, {
      ...read,
      right: new Set([...read.right, ...[...working(model, read)].map(({ name }) => name)]),
    }),
  "still-beside": upstream,
  // It is clocked and let go, so that its own output drives the node even where it could let it float.
  "section-still": (model: BoardModel, finding: SignFinding, read: ReadNets) =>
    upstream(model, finding, read).map((one) =>
      one.suspect.id === model.part(finding.ref ?? "")?.part.ref
        ? { ...one, weight: Math.max(one.weight, CLOCKED) }
        : one,
    ),
  "reset-delay": (model: BoardModel, finding: SignFinding, read: ReadNets) => [
    ...(finding.refs ?? []).flatMap((ref): Member[] => {
      const part = model.part(ref);
      if (!part) return [];
      // A capacitor dries out and leaks; a resistor grows. What lies across the resistor takes it out.
      const isLong = finding.state === "high";
      const isResistor = part.kind === "resistor";
      const across = isResistor && !isLong ? acrossOf(model, part.part.ref) : [];
      return [
        { suspect: partSuspect(part.part.ref), weight: DELAY[isResistor ? "resistor" : "capacitor"] },
        ...across.map((ref) => ({ suspect: partSuspect(ref), weight: DELAY.across })),
      ];
    }),
    ...upstream(model, finding, read).map((one) => ({ ...one, weight: one.weight * DELAY.rest })),
  ],
  // The resistor charges the capacitor as it should: what empties it lies across one of the two.
  "reset-not-emptied": (model: BoardModel, finding: SignFinding, read: ReadNets) => {
    const parts = [...new Set((finding.refs ?? []).flatMap((ref) => acrossOf(model, ref)))].flatMap(
      (ref) => model.part(ref) ?? [],
    );
    return [
      ...parts.flatMap(({ part, pins }): Member[] => [
        { suspect: partSuspect(part.ref), weight: EMPTIED.across },
        ...pins.map(({ pin }) => ({ suspect: jointSuspect(part.ref, pin), weight: EMPTIED.joint })),
      ]),
      ...upstream(model, finding, read).map((one) => ({ ...one, weight: one.weight * EMPTIED.rest })),
    ];
  },
  floating,
  "open-input": floating,
};
