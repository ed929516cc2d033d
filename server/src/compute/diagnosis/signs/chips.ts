// What accuses a chip: its bits, its sum, a tester, another one in its place, its heat; and an address line for the chip.
import type { Net } from "../../../knowledge/types";
import { pinRoleOf, powerPins } from "../around";
import type { BoardModel, PartModel } from "../board-model";
import type { Member } from "../conflict";
import { blew, FUSE } from "../fuses";
import type { ReadNets } from "../read-nets";
import { jointSuspect, partSuspect, trackSuspect } from "../suspects";
import type { SignFinding } from "../types";
import { upstreamOf } from "../upstream";

/** How well each explains it. */
const BIT = { chip: 0.8, dataJoint: 0.5, track: 0.4, onLine: 0.03, select: 0.02 } as const;
const WHOLE = { chip: 0.7, power: 0.3, select: 0.25, selectTrack: 0.2, control: 0.1, line: 0.03 } as const;
const SUM = { chip: 0.75, line: 0.06, select: 0.1 } as const;
const ITSELF = {
  test: 0.95,
  swap: 0.9,
  holds: 0.9,
  contact: 0.25,
  contradiction: 0.7,
  hot: 0.6,
  hotRest: 0.02,
  code: 0.6,
  heat: 0.7,
} as const;
/** The part whose ends differ, and what stands behind it. */
const STAGE = { first: 0.85, next: 0.05, nextChip: 0.02, joint: 0.4, clamp: 0.5, measured: 0.15 } as const;
const BANK = { chip: 0.02, strobe: 1, address: 0.25 } as const;
const SILENT = { chip: 0.8, feed: 0.6, otherFeed: 0.15, input: 0.1 } as const;
const STILL = { chip: 0.7, power: 0.4 } as const;
const ADDRESS = {
  track: 0.6,
  chipJoint: 0.5,
  driverJoint: 0.5,
  driver: 0.35,
  taker: 0.1,
  before: 0.7,
  chip: 0.12,
} as const;

/** What selects a chip that does not answer, however far before it. */
const BEFORE = 0.5;

const named = (model: BoardModel, refs: readonly string[] = []): PartModel[] =>
  refs.flatMap((ref) => model.part(ref) ?? []);

const DATA = /^(?:I\/?O|D|DQ|DO|DI|Q|O)\d+/i;
const ADDRESS_PIN = /^A\d+$/i;
const SELECT = /^[/~]?(?:RAS|CAS|CS|CE|E|OE|G|S|WE|RW|R\/W|W)\d*$/i;

const itself =
  (weight: number, contact: number) =>
  (model: BoardModel, { refs }: SignFinding): readonly Member[] =>
    named(model, refs).flatMap((part) => [
      { suspect: partSuspect(part.part.ref), weight },
      ...(contact > 0 && part.part.socketed
        ? part.signalPins.map(({ pin }) => ({
            suspect: jointSuspect(part.part.ref, pin),
            weight: contact,
          }))
        : []),
    ]);

/** Of what reacts to heat or to force, whatever pin it is at. */
const REACTS = { joint: 0.15, inside: 0.02, header: 0.5, seat: 0.3, moved: 0.7 } as const;

const atPlace = (
  model: BoardModel,
  refs: readonly string[] | undefined,
  inside: number,
  joint: number,
): readonly Member[] =>
  named(model, refs).flatMap((part) => [
    { suspect: partSuspect(part.part.ref), weight: inside },
    ...part.pins.map(({ pin }) => ({ suspect: jointSuspect(part.part.ref, pin), weight: joint })),
  ]);

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

export const CHIP_SIGNS = {
  "memory-bits": bits,
  "memory-bit-once": bits,
  "memory-chip": (model: BoardModel, { refs }: SignFinding, read: ReadNets) =>
    named(model, refs).flatMap((part) => [
      ...whole(model, part),
      ...part.signalPins.flatMap(({ pin }) =>
        SELECT.test(part.device?.pins.get(pin)?.name ?? "")
          ? upstreamOf(model, { ref: part.part.ref, pin, state: "steady" }, read)
              .filter(({ suspect }) => suspect.id !== part.part.ref)
              .map(({ suspect, weight }) => ({ suspect, weight: weight * BEFORE }))
          : [],
      ),
    ]),
  "memory-bank": bank,
  "held-by": (model: BoardModel, { refs }: SignFinding): readonly Member[] =>
    named(model, refs).flatMap((part) => [{ suspect: partSuspect(part.part.ref), weight: ITSELF.holds }]),
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
  "failed-alone": itself(ITSELF.test, 0),
  "swap-better": itself(ITSELF.swap, ITSELF.contact),
  contradiction: itself(ITSELF.contradiction, 0),
  "processor-still": (model: BoardModel, { refs }: SignFinding): readonly Member[] =>
    named(model, refs).flatMap((part) => {
      const { ref } = part.part;
      const { ground, supply } = powerPins(part);
      return [
        { suspect: partSuspect(ref), weight: STILL.chip },
        ...[...ground, ...supply].map((pin) => ({ suspect: jointSuspect(ref, pin), weight: STILL.power })),
      ];
    }),
  // What of its inputs nobody saw may hold it back.
  "chip-silent": (model: BoardModel, { refs, state = "steady" }: SignFinding, read: ReadNets) =>
    named(model, refs).flatMap((part): Member[] => {
      const { ref } = part.part;
      const { ground, supply } = powerPins(part);
      const fed = (pins: readonly string[], rises: boolean): Member[] =>
        pins.flatMap((pin) =>
          read.pins.has(`${ref}.${pin}`.toUpperCase())
            ? []
            : [{ suspect: jointSuspect(ref, pin), weight: rises ? SILENT.feed : SILENT.otherFeed }],
        );
      const unseen = part.signalPins.filter(
        ({ pin, net }) => pinRoleOf(part, pin) === "takes" && !read.levels.has(net.name),
      );
      return [
        { suspect: partSuspect(ref), weight: SILENT.chip },
        ...fed(ground, state === "high"),
        ...fed(supply, state === "low"),
        ...unseen.flatMap(({ pin, net }): Member[] => [
          { suspect: jointSuspect(ref, pin), weight: SILENT.input },
          { suspect: trackSuspect(net.name), weight: SILENT.input },
        ]),
      ];
    }),
  stage: (model: BoardModel, { refs = [] }: SignFinding, read: ReadNets): readonly Member[] => {
    const sound = ({ part }: PartModel): number =>
      read.measured.has(part.ref.toUpperCase()) ? STAGE.measured : 1;
    const [first, ...rest] = named(model, refs);
    if (!first) return [];
    const base = rest.flatMap((part) =>
      first.pins.filter(({ net }) => part.pins.some((pin) => pin.net === net)),
    );
    return [
      {
        suspect: partSuspect(first.part.ref),
        weight: first.kind === "fuse" ? FUSE.itself : STAGE.first * sound(first),
      },
      ...(first.kind === "fuse" ? blew(model, first, read) : []),
      ...first.pins.map(({ pin }) => ({ suspect: jointSuspect(first.part.ref, pin), weight: STAGE.joint })),
      ...rest.map((part) => ({
        suspect: partSuspect(part.part.ref),
        weight: (part.kind === "interface" ? STAGE.nextChip : STAGE.next) * sound(part),
      })),
      // What shorts the base takes its drive as well.
      ...base.flatMap(({ net }) =>
        model
          .onNet(net)
          .filter(({ kind }) => kind === "diode" || kind === "capacitor" || kind === "electrolytic")
          .map((part) => ({ suspect: partSuspect(part.part.ref), weight: STAGE.clamp * sound(part) })),
      ),
    ];
  },
  hot: (model: BoardModel, { refs }: SignFinding) =>
    itself(ITSELF.hot, 0)(model, { refs: refs ?? [] } as SignFinding),
  "test-code": itself(ITSELF.code, ITSELF.contact),
  "heat-reacts": (model: BoardModel, { refs }: SignFinding) =>
    atPlace(model, refs, ITSELF.heat, REACTS.joint),
  // What moves under force is a joint or a contact, and seldom what is inside a part.
  "force-reacts": (model: BoardModel, { refs }: SignFinding) =>
    named(model, refs).flatMap((part) =>
      // Of a part in a socket the seat as a whole is named with it.
      atPlace(
        model,
        [part.part.ref],
        part.kind === "connector" ? REACTS.header : part.part.socketed ? REACTS.seat : REACTS.inside,
        REACTS.moved,
      ),
    ),
  "address-line": (
    model: BoardModel,
    { nets = [], refs = [] }: SignFinding,
    read: ReadNets,
  ): readonly Member[] => {
    const chips = new Set(named(model, refs));
    return nets.flatMap((name) => {
      const net = model.board.nets.get(name);
      if (!net) return [];
      const at = net.pins.find(({ ref }) => chips.has(model.part(ref)!));
      return [
        { suspect: trackSuspect(net.name), weight: ADDRESS.track },
        // Behind a resistor or a multiplexer.
        ...(at ? upstreamOf(model, { ...at, state: "steady" }, read) : [])
          .filter(({ suspect }) => suspect.kind === "part" && !chips.has(model.part(suspect.ref)!))
          .map(({ suspect, weight }) => ({ suspect, weight: weight * ADDRESS.before })),
        ...net.pins.flatMap(({ ref, pin }): Member[] => {
          const part = model.part(ref);
          if (!part) return [];
          const isChip = chips.has(part);
          const role = pinRoleOf(part, pin);
          const drives = role === "drives" || role === "may-drive";
          return [
            {
              suspect: partSuspect(part.part.ref),
              weight: isChip ? ADDRESS.chip : drives ? ADDRESS.driver : ADDRESS.taker,
            },
            ...(isChip || drives
              ? [
                  {
                    suspect: jointSuspect(part.part.ref, pin),
                    weight: isChip ? ADDRESS.chipJoint : ADDRESS.driverJoint,
                  },
                ]
              : []),
          ];
        }),
      ];
    });
  },
};
