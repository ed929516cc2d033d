// Checks held against the images of a board's sets.
import { memo } from "../../base/memo";
import type { RomImage, RomSet } from "../../knowledge/types";
import { plainHex } from "./hex";
import type { ImageChecks } from "./image";

/**
 * - `exact`: a CRC-32 or SHA-1 agrees and nothing differs.
 * - `hash-conflict`: one hash agrees, another check differs: a slip in the log or in the board file.
 * - `sum-only`: the sum agrees and no hash could be compared; a sum is blind to swapped bytes.
 * - `same-sum`: the sum agrees, a hash or the size differs: not the same image.
 */
export type MatchKind = "exact" | "hash-conflict" | "sum-only" | "same-sum";
const RANK: readonly MatchKind[] = ["exact", "hash-conflict", "sum-only", "same-sum"];

export type CheckName = keyof ImageChecks;

export interface RomMatch {
  readonly kind: MatchKind;
  readonly set: RomSet;
  readonly image: RomImage;
  readonly agree: readonly CheckName[];
  readonly differ: readonly CheckName[];
}

const DIGITS = { sum16: 4, crc32: 8, sha1: 40 } as const;

/** Which checks both sides have, and whether they agree. Hexadecimal is compared without case or prefix. */
export function compareChecks(
  checks: ImageChecks,
  image: RomImage,
): { readonly agree: readonly CheckName[]; readonly differ: readonly CheckName[] } {
  const agree: CheckName[] = [];
  const differ: CheckName[] = [];
  const note = (name: CheckName, same: boolean): void => void (same ? agree : differ).push(name);
  if (checks.size !== undefined && image.size !== undefined) note("size", checks.size === image.size);
  for (const name of ["sum16", "crc32", "sha1"] as const) {
    const [ours, theirs] = [checks[name], image[name]];
    if (ours === undefined || theirs === undefined) continue;
    note(name, plainHex(ours, DIGITS[name]) === plainHex(theirs, DIGITS[name]));
  }
  return { agree, differ };
}

function kindOf(agree: readonly CheckName[], differ: readonly CheckName[]): MatchKind | undefined {
  if (agree.includes("crc32") || agree.includes("sha1"))
    return differ.length === 0 ? "exact" : "hash-conflict";
  if (!agree.includes("sum16")) return undefined;
  return differ.length === 0 ? "sum-only" : "same-sum";
}

/**
 * Every image of the sets that the checks speak for, the best first; among equals those at the position `ref`. An
 * image used by several sets is found once for each.
 */
export function matchChecks(checks: ImageChecks, sets: Iterable<RomSet>, ref?: string): readonly RomMatch[] {
  const matches = [...sets].flatMap((set) =>
    alikeIn(set, checks).flatMap((image): readonly RomMatch[] => {
      const { agree, differ } = compareChecks(checks, image);
      const kind = kindOf(agree, differ);
      return kind ? [{ kind, set, image, agree, differ }] : [];
    }),
  );
  const elsewhere = ({ image }: RomMatch): number => (ref === undefined || image.ref === ref ? 0 : 1);
  return matches.sort((a, b) => RANK.indexOf(a.kind) - RANK.indexOf(b.kind) || elsewhere(a) - elsewhere(b));
}

const HEX = ["sum16", "crc32", "sha1"] as const;

/** The images of a set that agree with the checks in one figure at least, in their order. */
function alikeIn(set: RomSet, checks: ImageChecks): readonly RomImage[] {
  const byFigure = imagesByFigure(set);
  const places = HEX.flatMap((name) => {
    const figure = checks[name];
    return figure === undefined ? [] : (byFigure.get(`${name} ${plainHex(figure, DIGITS[name])}`) ?? []);
  });
  return [...new Set(places)].sort((a, b) => a - b).map((place) => set.images[place]!);
}

/** Places of a set's images by each of their figures: a set of thousands is asked once for each row of a log. */
const imagesByFigure = memo((set: RomSet): ReadonlyMap<string, readonly number[]> => {
  const found = new Map<string, number[]>();
  set.images.forEach((image, place) => {
    for (const name of HEX) {
      const figure = image[name];
      if (figure === undefined) continue;
      const key = `${name} ${plainHex(figure, DIGITS[name])}`;
      found.set(key, [...(found.get(key) ?? []), place]);
    }
  });
  return found;
});

/** "U8 of regatta-2 (Second release, revision B)". */
export const imageName = ({ set, image }: Pick<RomMatch, "set" | "image">): string =>
  `${image.ref} of ${setName(set)}`;

/** A set in words: "game-l7 (Regatta, revision B)", or its id where the file says no more. */
export const setName = ({ id, title, revision }: RomSet): string => {
  const more = [
    ...(title === id ? [] : [title]),
    ...(revision === undefined ? [] : [`revision ${revision}`]),
  ];
  return more.length > 0 ? `${id} (${more.join(", ")})` : id;
};

const CHECK_WORDS: Readonly<Record<CheckName, string>> = {
  size: "size",
  sum16: "16-bit sum",
  crc32: "CRC-32",
  sha1: "SHA-1",
};

/** "CRC-32 and SHA-1". */
export const checkWords = (names: readonly CheckName[]): string => {
  const words = names.map((name) => CHECK_WORDS[name]);
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
};
