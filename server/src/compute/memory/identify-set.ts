// All positions of a board together: from one set, or a mix.

import type { RomSet } from "../../knowledge/types";
import type { Saying } from "../../text/saying";
import type { ImageChecks } from "./image";
import { compareChecks, matchChecks, setName } from "./rom-match";

export interface SetFit {
  readonly set: RomSet;
  /** Positions whose CRC-32 or SHA-1 agrees and nothing differs. */
  readonly exact: readonly string[];
  /** Positions whose sum agrees and nothing could be compared that says more. */
  readonly sumOnly: readonly string[];
  /** Positions that hold something else. */
  readonly differ: readonly string[];
  /** Positions of the set that were not read, or whose checks cannot be compared. */
  readonly unread: readonly string[];
  /** Positions read that the set does not have. */
  readonly extra: readonly string[];
}

export interface SetReport {
  /** The set nearest to what was read first. */
  readonly fits: readonly SetFit[];
  /** Identified: one set fits every position read and no other does as well. */
  readonly outcome: "identified" | "ambiguous" | "mixed" | "unknown" | "nothing-read";
  readonly says: Saying;
}

/** Which of the sets the positions read belong to, by ref. */
export function identifySet(read: ReadonlyMap<string, ImageChecks>, sets: readonly RomSet[]): SetReport {
  const fits = sets.map((set) => fitOf(set, read));
  const score = ({ exact, sumOnly, differ }: SetFit): number =>
    exact.length * 2 + sumOnly.length - differ.length * 3;
  fits.sort((a, b) => score(b) - score(a));
  const [best, second] = fits;
  const compared = best ? best.exact.length + best.sumOnly.length : 0;
  if (read.size === 0) return { fits, outcome: "nothing-read", says: { fact: "No memory was read." } };
  if (!best || compared === 0) {
    return {
      fits,
      outcome: "unknown",
      says: {
        fact: "What was read is in no set of the board.",
        step: "Keep the images before you do anything else.",
      },
    };
  }
  const sums =
    best.sumOnly.length > 0
      ? `${best.sumOnly.join(", ")} only by the sum, which does not see swapped bytes.`
      : undefined;
  const unread = [
    best.unread.length > 0 ? `Not compared: ${best.unread.join(", ")}.` : undefined,
    best.extra.length > 0 ? `Not in the set: ${best.extra.join(", ")}.` : undefined,
  ];
  const more = (...sentences: readonly (string | undefined)[]): string => sentences.filter(Boolean).join(" ");
  if (best.differ.length === 0) {
    if (second && second.differ.length === 0 && score(second) === score(best)) {
      const like = fits.filter((fit) => fit.differ.length === 0 && score(fit) === score(best));
      return {
        fits,
        outcome: "ambiguous",
        says: {
          fact: `What was read fits both ${like.map(({ set }) => setName(set)).join(" and ")}.`,
          more: more(...unread),
        },
      };
    }
    return {
      fits,
      outcome: "identified",
      says: { fact: `All positions compared belong to ${setName(best.set)}.`, more: more(sums, ...unread) },
    };
  }
  const strays = best.differ.map((ref) => {
    const [match] = matchChecks(read.get(ref) ?? {}, sets, ref).filter(({ kind }) => kind === "exact");
    return match ? `${ref} holds ${match.image.ref} of ${setName(match.set)}` : `${ref} is in no set`;
  });
  return {
    fits,
    outcome: "mixed",
    says: {
      fact: `${strays[0]}, unlike the rest.`,
      cause: `The rest fits ${setName(best.set)} best. A board with a mix of sets starts and then crashes.`,
      step: "Read the chip again, then fit one set throughout.",
      more: more(strays.length > 1 ? `Also: ${strays.slice(1).join("; ")}.` : undefined, sums, ...unread),
      source: "common practice, no source",
    },
  };
}

function fitOf(set: RomSet, read: ReadonlyMap<string, ImageChecks>): SetFit {
  const fit = {
    exact: [] as string[],
    sumOnly: [] as string[],
    differ: [] as string[],
    unread: [] as string[],
  };
  for (const image of set.images) {
    const checks = read.get(image.ref);
    const { agree, differ } = checks ? compareChecks(checks, image) : { agree: [], differ: [] };
    const hash = agree.includes("crc32") || agree.includes("sha1");
    if (differ.length > 0) fit.differ.push(image.ref);
    else if (hash) fit.exact.push(image.ref);
    else if (agree.includes("sum16")) fit.sumOnly.push(image.ref);
    else fit.unread.push(image.ref);
  }
  const has = new Set(set.images.map(({ ref }) => ref));
  return { set, ...fit, extra: [...read.keys()].filter((ref) => !has.has(ref)) };
}
