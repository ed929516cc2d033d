// An image file against a board's sets: what it is, or how near it comes and why it differs.

import { defined } from "../../base/defined";
import type { RomImage, RomSet } from "../../knowledge/types";
import type { Saying } from "../../text/saying";
import { sayHex } from "./hex";
import { checksOf, copiesOf, fillOf, type ImageChecks } from "./image";
import { checkWords, imageName, matchChecks, type RomMatch, setName } from "./rom-match";

/** Which bytes of the image a match is about. `doubled`: the set's image is this one twice over. */
export type ImagePart = "whole" | "one-copy" | "lower-half" | "upper-half" | "doubled";

export interface ImageMatch extends RomMatch {
  readonly part: ImagePart;
}

/** What an image's bytes are by the board's sets, and what to tell the technician of it. */
export interface ImageReport {
  readonly checks: ReturnType<typeof checksOf>;
  /** The byte it is filled with, where all are alike. */
  readonly fill?: number;
  /** 2 where both halves are equal, 4 for quarters; 1 else. */
  readonly copies: number;
  /** Best first; empty where nothing in the sets is like it. */
  readonly matches: readonly ImageMatch[];
  /** Where nothing matches: the set image at the same position, or of the same size. */
  readonly nearest?: { readonly set: RomSet; readonly image: RomImage };
  readonly says: Saying;
}

/** Identifies an image read at position `ref` (absent where unknown). Never fails: an unknown image is an answer. */
export function matchImage(bytes: Uint8Array, sets: readonly RomSet[], ref?: string): ImageReport {
  const checks = checksOf(bytes);
  const fill = fillOf(bytes);
  const copies = copiesOf(bytes);
  const images = sets.flatMap((set) => set.images);
  // Working out the checks of a part that is of no known size would be for nothing.
  const isKnown = (size: number): boolean =>
    images.some((image) => image.size === undefined || image.size === size);
  const matches = parts(bytes, copies).flatMap(([part, size, read]) =>
    (part === "whole" ? matchChecks(checks, sets, ref) : isKnown(size) ? matchChecks(read(), sets, ref) : [])
      // Half an image that shares no more than a sum with another is chance.
      .filter(({ kind }) => part === "whole" || kind === "exact")
      .map((match) => ({ ...match, part })),
  );
  const nearest = matches.length > 0 ? undefined : nearestImage(checks, sets, ref);
  return defined({
    checks,
    fill,
    copies,
    matches: [
      ...matches.filter(({ kind }) => kind === "exact"),
      ...matches.filter(({ kind }) => kind !== "exact"),
    ],
    nearest,
    says: saying(checks, fill, copies, matches, nearest, ref),
  });
}

type LazyChecks = () => ImageChecks;

function parts(bytes: Uint8Array, copies: number): readonly (readonly [ImagePart, number, LazyChecks])[] {
  const whole = ["whole", bytes.length, () => checksOf(bytes)] as const;
  if (bytes.length === 0 || fillOf(bytes) !== undefined) return [whole];
  const once = bytes.subarray(0, bytes.length / copies);
  const half = bytes.length / 2;
  const twice = (): Uint8Array => {
    const both = new Uint8Array(bytes.length * 2);
    both.set(bytes);
    both.set(bytes, bytes.length);
    return both;
  };
  return [
    whole,
    ...(copies > 1 ? ([["one-copy", once.length, () => checksOf(once)]] as const) : []),
    ...(copies === 1 && bytes.length % 2 === 0
      ? ([
          ["lower-half", half, () => checksOf(bytes.subarray(0, half))],
          ["upper-half", half, () => checksOf(bytes.subarray(half))],
        ] as const)
      : []),
    ["doubled", bytes.length * 2, () => checksOf(twice())],
  ];
}

/** Same position and size, then same position, then same size; the earlier set wins a tie. */
function nearestImage(
  { size }: ImageChecks,
  sets: readonly RomSet[],
  ref: string | undefined,
): ImageReport["nearest"] {
  const all = sets.flatMap((set) => set.images.map((image) => ({ set, image })));
  const here = all.filter(({ image }) => image.ref === ref);
  return (
    here.find(({ image }) => image.size === size) ??
    here[0] ??
    (ref === undefined ? all.find(({ image }) => image.size === size) : undefined)
  );
}

function saying(
  checks: ReturnType<typeof checksOf>,
  fill: number | undefined,
  copies: number,
  matches: readonly ImageMatch[],
  nearest: ImageReport["nearest"],
  ref: string | undefined,
): Saying {
  const exact = matches.filter(({ kind }) => kind === "exact");
  const first = exact[0] ?? matches[0];
  const known = `${checks.size} bytes, CRC-32 ${checks.crc32}, sum ${checks.sum16}`;
  if (checks.size === 0) return { fact: "The image is empty: 0 bytes.", step: "Read it again." };
  if (fill !== undefined && !exact.some(({ part }) => part === "whole")) {
    const why =
      fill === 0xff
        ? "An erased or blank chip, an open select, or the wrong type set on the programmer."
        : "A stuck bus, a missing supply, or the wrong type set on the programmer.";
    return { fact: `All ${checks.size} bytes are ${sayHex(fill, 2)}.`, cause: why, step: "Read it again." };
  }
  if (!first) {
    const doubled = copies > 1 ? `It holds the same bytes ${copies} times.` : undefined;
    const near = nearest
      ? `Nearest is ${imageName(nearest)}${sizeNote(checks.size, nearest.image.size)}.`
      : undefined;
    return {
      fact: `The image (CRC-32 ${checks.crc32}) is in no set of the board.`,
      cause: ["It may have lost bits or be another program.", near].filter(Boolean).join(" "),
      step: "Keep it, and read the chip again.",
      more: [`${capital(known)}.`, doubled].filter(Boolean).join(" "),
    };
  }
  const name = imageName(first);
  const also = exact.filter(({ set }) => set !== first.set).map(({ set }) => setName(set));
  const more = also.length > 0 ? `${[...new Set(also)].join(" and ")} holds the same.` : undefined;
  const place =
    ref !== undefined && first.image.ref !== ref
      ? `It was read at ${ref}: the chips are swapped, or it was noted at the wrong place.`
      : undefined;
  if (first.kind === "exact") {
    const told = exactly(first, name, checks.size, copies);
    return { ...told, cause: place ?? told.cause, more };
  }
  if (first.kind === "hash-conflict") {
    return {
      fact: `The image agrees with ${name} in ${checkWords(first.agree)} but not in ${checkWords(first.differ)}.`,
      cause: place ?? "One of them is mistyped in the board file.",
      step: "Correct the board file.",
    };
  }
  if (first.kind === "sum-only") {
    return {
      fact: `The 16-bit sum ${checks.sum16} is that of ${name}.`,
      cause: place ?? "There is no CRC-32 or SHA-1 to compare, and a sum does not see swapped bytes.",
    };
  }
  return {
    fact: `The image has the 16-bit sum of ${name}, but its ${checkWords(first.differ)} ${first.differ.length === 1 ? "differs" : "differ"}.`,
    cause: place ?? "These are not the same bytes.",
    step: "Read the chip again.",
    more: `${capital(known)}.`,
  };
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function exactly({ part, agree }: ImageMatch, name: string, size: number, copies: number): Saying {
  const by = checkWords(agree.filter((check) => check !== "size"));
  switch (part) {
    case "whole":
      return { fact: `The image is ${name}, by ${by}.` };
    case "one-copy":
      return {
        fact: `The image is ${name} ${copies} times: ${size} bytes were read, and it has ${size / copies}.`,
        step: "Read it again with the smaller type set.",
      };
    case "doubled":
      return {
        fact: `The image is one of two equal halves of ${name}: ${size} bytes, and the set has ${size * 2}.`,
      };
    default:
      return {
        fact: `The ${part === "lower-half" ? "lower" : "upper"} half of the image is ${name}: ${size} bytes were read, and it has ${size / 2}.`,
        cause: "The rest is another image or was never programmed.",
        more: `Known by ${by}.`,
      };
  }
}

const sizeNote = (size: number, known: number | undefined): string =>
  known === undefined || known === size ? "" : `, which has ${known} bytes`;
