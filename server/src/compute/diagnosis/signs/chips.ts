import { pinRoleOf, powerPins } from "../around";
import type { BoardModel, PartModel } from "../board-model";
import type { Member } from "../conflict";
import { blew, FUSE } from "../fuses";
import type { ReadNets } from "../read-nets";
import { jointSuspect, partSuspect, trackSuspect } from "../suspects";
import type { SignFinding } from "../types";

/** How well each explains it. */
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
const SILENT = { chip: 0.8, feed: 0.6, otherFeed: 0.15, input: 0.1 } as const;
const STILL = { chip: 0.7, power: 0.4 } as const;

const named = (model: BoardModel, refs: readonly string[] = []): PartModel[] =>
  refs.flatMap((ref) => model.part(ref) ?? []);

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

export const CHIP_SIGNS = {
  "held-by": (model: BoardModel, { refs }: SignFinding): readonly Member[] =>
    named(model, refs).flatMap((part) => [{ suspect: partSuspect(part.part.ref), weight: ITSELF.holds }]),
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
  // Neither its forward drop nor what its rail reads tells anything of the voltage that it stands at.
  "reference-off": (model: BoardModel, { refs }: SignFinding): readonly Member[] =>
    named(model, refs).map(({ part }, i) => ({
      suspect: partSuspect(part.ref),
      weight: i === 0 ? STAGE.first : STAGE.next,
    })),
  stage: (model: BoardModel, { refs = [], pins }: SignFinding, read: ReadNets): readonly Member[] => {
    const sound = ({ part }: PartModel): number =>
      read.measured.has(part.ref.toUpperCase()) ? STAGE.measured : 1;
    const [first, ...rest] = named(model, refs);
    if (!first) return [];
    // What lies across a junction that reads what it should with all in place is not shorted.
    const beside =
      (part: PartModel) =>
      ({ kind, pins: own }: PartModel): boolean =>
        kind === "transistor" && part.pins.every(({ net }) => own.some((pin) => pin.net === net));
    const base = rest.flatMap((part) =>
      first.pins.filter(({ net }) => !model.isSupply(net) && part.pins.some((pin) => pin.net === net)),
    );
    return [
      {
        suspect: partSuspect(first.part.ref),
        weight: first.kind === "fuse" ? FUSE.itself : STAGE.first * sound(first),
      },
      ...(first.kind === "fuse" ? blew(model, first, read) : []),
      ...(pins ?? first.pins).map(({ pin }) => ({
        suspect: jointSuspect(first.part.ref, pin),
        weight: STAGE.joint,
      })),
      ...rest.map((part) => ({
        suspect: partSuspect(part.part.ref),
        weight: (part.kind === "interface" ? STAGE.nextChip : STAGE.next) * sound(part),
      })),
      // What shorts the base takes its drive as well.
      ...base.flatMap(({ net }) =>
        model
          .onNet(net)
          .filter(({ kind }) => kind === "diode" || kind === "capacitor" || kind === "electrolytic")
          .map((part) => ({
            suspect: partSuspect(part.part.ref),
            weight: STAGE.clamp * Math.min(sound(part), ...rest.filter(beside(part)).map(sound)),
          })),
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
};
