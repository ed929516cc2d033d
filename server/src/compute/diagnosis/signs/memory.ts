// What accuses a memory: its bits, its sum, all of a bank at once, an address line that has no say.
import type { Net, PinRef } from "../../../knowledge/types";
import { pinRoleOf, powerPins } from "../around";
import type { BoardModel, PartModel } from "../board-model";
import type { Member } from "../conflict";
import type { ReadNets } from "../read-nets";
import { jointSuspect, partSuspect, trackSuspect } from "../suspects";
import type { SignFinding } from "../types";
import { upstreamOf } from "../upstream";
import { working } from "../working";

const BIT = { chip: 0.8, dataJoint: 0.5, track: 0.4, onLine: 0.03, select: 0.02 } as const;
const WHOLE = { chip: 0.7, power: 0.3, select: 0.25, selectTrack: 0.2, control: 0.1, line: 0.03 } as const;
const SUM = { chip: 0.75, line: 0.06, select: 0.1 } as const;
const BANK = { chip: 0.02, strobe: 1, address: 0.25 } as const;
const ADDRESS = {
  track: 0.6,
  chipJoint: 0.5,
  driverJoint: 0.5,
  driver: 0.35,
  taker: 0.1,
  before: 0.7,
  chip: 0.12,
  /** Of one chip, or its joint, where several have lost the same line. */
  oneOfSeveral: 0.1,
  /** Of what drives the line also to a memory with the program, which was read with it. */
  runs: 0.05,
  /** Of the line's copper, once its driver's own leg was seen to stand still. */
  atDriver: 0.15,
} as const;
/** What is left of a memory that nobody selects, and how much more what should select it then explains. */
const UNASKED = { left: 0.1, before: 2, most: 0.9 } as const;
/** What selects a chip that does not answer, however far before it. */
const BEFORE = 0.5;

const named = (model: BoardModel, refs: readonly string[] = []): PartModel[] =>
  refs.flatMap((ref) => model.part(ref) ?? []);

const DATA = /^(?:I\/?O|D|DQ|DO|DI|Q|O)\d+/i;
const ADDRESS_PIN = /^A\d+$/i;
const SELECT = /^[/~]?(?:RAS|CAS|CS|CE|E|OE|G|S|WE|RW|R\/W|W)\d*$/i;

/** Pins of the part on these nets. */
const pinsOn = (part: PartModel, nets: readonly Net[]) => part.pins.filter(({ net }) => nets.includes(net));

function bits(model: BoardModel, finding: SignFinding): readonly Member[] {
  const nets = (finding.nets ?? []).flatMap((name) => model.board.nets.get(name) ?? []);
  return named(model, finding.refs).flatMap((part) => {
    const own = nets.length > 0 ? pinsOn(part, nets) : [];
    // One bit of one chip is in its array; all of them are what all of it hangs on.
    if (own.length === 0) return whole(model, part);
    return [
      { suspect: partSuspect(part.part.ref), weight: BIT.chip },
      ...own.flatMap(({ pin, net }) => [
        { suspect: jointSuspect(part.part.ref, pin), weight: BIT.dataJoint },
        { suspect: trackSuspect(net.name), weight: BIT.track },
        ...model.onNet(net).map((other) => ({ suspect: partSuspect(other.part.ref), weight: BIT.onLine })),
      ]),
      ...controls(model, part, BIT.select, BIT.select),
    ];
  });
}

function whole(model: BoardModel, part: PartModel): Member[] {
  const { ground, supply } = powerPins(part);
  const { ref } = part.part;
  return [
    { suspect: partSuspect(ref), weight: WHOLE.chip },
    ...[...ground, ...supply].map((pin) => ({ suspect: jointSuspect(ref, pin), weight: WHOLE.power })),
    ...controls(model, part, WHOLE.select, WHOLE.selectTrack),
  ];
}

/** Chips that fail all together: what all of them are selected, strobed and addressed by, and hardly each by itself. */
function bank(model: BoardModel, { refs }: SignFinding, read: ReadNets): readonly Member[] {
  const chips = named(model, refs);
  const pins = chips.flatMap((chip) =>
    chip.signalPins.map(({ pin, net }) => ({ chip, pin, net, name: chip.device?.pins.get(pin)?.name ?? "" })),
  );
  const isShared = (net: Net): boolean => chips.every((chip) => model.isOn(chip, net));
  const seen = new Set<Net>();
  return [
    ...chips.map(({ part }) => ({ suspect: partSuspect(part.ref), weight: BANK.chip })),
    ...pins.flatMap(({ chip, pin, net, name }): Member[] => {
      const weight = SELECT.test(name) ? BANK.strobe : ADDRESS_PIN.test(name) ? BANK.address : 0;
      if (weight === 0 || seen.has(net) || !isShared(net)) return [];
      seen.add(net);
      const own = new Set(chips.map(({ part }) => part.ref));
      return upstreamOf(model, { ref: chip.part.ref, pin, state: "steady" }, read)
        .filter(({ suspect }) => !("ref" in suspect && own.has(suspect.ref)))
        .map((one) => ({ ...one, weight: one.weight * weight }));
    }),
  ];
}

/** Its selects and strobes: their drivers, the tracks, its joints there. */
function controls(model: BoardModel, part: PartModel, driver: number, track: number): Member[] {
  return part.signalPins.flatMap(({ pin, net }) => {
    if (!SELECT.test(part.device?.pins.get(pin)?.name ?? "")) return [];
    return [
      { suspect: trackSuspect(net.name), weight: track },
      { suspect: jointSuspect(part.part.ref, pin), weight: track },
      ...net.pins.flatMap(({ ref, pin: at }): Member[] => {
        const other = model.part(ref);
        return other && other !== part && pinRoleOf(other, at) === "drives"
          ? [{ suspect: partSuspect(other.part.ref), weight: driver }]
          : [];
      }),
    ];
  });
}

const WRITE_PIN = /^[/~]?(?:WE|W|RW|R\/W)\d*$/i;

/** A memory that the processor only reads runs its program: what addresses it does its work. */
const isProgram = ({ kind, device }: PartModel): boolean =>
  kind === "memory" &&
  device !== undefined &&
  ![...device.pins.values()].some(({ name }) => WRITE_PIN.test(name));

/** The pin drives the line, and was read at its leg. */
function isDriverRead(model: BoardModel, { ref, pin }: PinRef, { pinLevels }: ReadNets): boolean {
  const part = model.part(ref);
  const role = part && pinRoleOf(part, pin);
  return (role === "drives" || role === "may-drive") && pinLevels.has(`${ref}.${pin}`.toUpperCase());
}

export const MEMORY_SIGNS = {
  "memory-bits": bits,
  "memory-bit-once": bits,
  "memory-chip": (model: BoardModel, { refs }: SignFinding, read: ReadNets) =>
    named(model, refs).flatMap((part) => {
      const nameAt = (pin: string): string => part.device?.pins.get(pin)?.name ?? "";
      // A select that was seen at rest, and never falls: nobody asks the chip.
      const unasked = part.signalPins.filter(
        ({ pin, net }) => /^[/~](?:CS|CE|E|S)\d*$/i.test(nameAt(pin)) && read.levels.get(net.name) === "high",
      );
      const left = unasked.length > 0 ? UNASKED.left : 1;
      // What makes the outputs beside it move does its work.
      const seen =
        unasked.length > 0
          ? { ...read, right: new Set([...read.right, ...[...working(model, read)].map(({ name }) => name)]) }
          : read;
      return [
        ...whole(model, part).map((one) =>
          one.suspect.id === part.part.ref ? { ...one, weight: one.weight * left } : one,
        ),
        ...part.signalPins.flatMap(({ pin }) =>
          SELECT.test(nameAt(pin))
            ? upstreamOf(
                model,
                {
                  ref: part.part.ref,
                  pin,
                  state: unasked.some((one) => one.pin === pin) ? "high" : "steady",
                },
                seen,
              )
                .filter(({ suspect }) => suspect.id !== part.part.ref)
                .map(({ suspect, weight }) => ({
                  suspect,
                  weight: Math.min(
                    UNASKED.most,
                    weight * (unasked.some((one) => one.pin === pin) ? UNASKED.before : BEFORE),
                  ),
                }))
            : [],
        ),
      ];
    }),
  "memory-bank": bank,
  "rom-sum": (model: BoardModel, { refs }: SignFinding): readonly Member[] =>
    named(model, refs).flatMap((part) => [
      { suspect: partSuspect(part.part.ref), weight: SUM.chip },
      ...part.signalPins.flatMap(({ pin, net }) => {
        const name = part.device?.pins.get(pin)?.name ?? "";
        return DATA.test(name) || ADDRESS_PIN.test(name)
          ? [
              { suspect: jointSuspect(part.part.ref, pin), weight: SUM.line },
              { suspect: trackSuspect(net.name), weight: SUM.line },
            ]
          : [];
      }),
      ...controls(model, part, SUM.select, SUM.select),
    ]),
  "address-line": (
    model: BoardModel,
    { nets = [], refs = [] }: SignFinding,
    read: ReadNets,
  ): readonly Member[] => {
    const chips = new Set(named(model, refs));
    const each = chips.size > 1 ? ADDRESS.oneOfSeveral : 1;
    return nets.flatMap((name) => {
      const net = model.board.nets.get(name);
      if (!net) return [];
      // No program is fetched over a line that was seen to stand, and at the leg that drives it no copper is open.
      const isStill = ["low", "high"].includes(read.levels.get(net.name) ?? "");
      const runs = model.onNet(net).some(isProgram) && !isStill ? ADDRESS.runs : 1;
      const isAtDriver = isStill && net.pins.some((one) => isDriverRead(model, one, read));
      const at = net.pins.find(({ ref }) => chips.has(model.part(ref)!));
      return [
        {
          suspect: trackSuspect(net.name),
          weight: ADDRESS.track * (isAtDriver ? ADDRESS.atDriver : 1),
        },
        // Behind a resistor or a multiplexer.
        ...(at ? upstreamOf(model, { ...at, state: "steady" }, read) : [])
          .filter(({ suspect }) => suspect.kind === "part" && !chips.has(model.part(suspect.ref)!))
          .map(({ suspect, weight }) => ({ suspect, weight: weight * ADDRESS.before * runs })),
        ...net.pins.flatMap(({ ref, pin }): Member[] => {
          const part = model.part(ref);
          if (!part) return [];
          const isChip = chips.has(part);
          const role = pinRoleOf(part, pin);
          const drives = role === "drives" || role === "may-drive";
          return [
            {
              suspect: partSuspect(part.part.ref),
              weight: isChip
                ? ADDRESS.chip * (chips.size > 1 ? each * runs : 1)
                : drives
                  ? ADDRESS.driver * runs
                  : ADDRESS.taker * runs,
            },
            ...(isChip || drives
              ? [
                  {
                    suspect: jointSuspect(part.part.ref, pin),
                    weight: isChip ? ADDRESS.chipJoint * each : ADDRESS.driverJoint * runs,
                  },
                ]
              : []),
          ];
        }),
      ];
    });
  },
};
