// Whether a part may stand at a place of the board: by the board file first, then by the library.
import type { Library } from "../../knowledge/library";
import { normalPart } from "../../knowledge/part-number";
import type { Part } from "../../knowledge/types";
import { comparePassive, passiveOf } from "./passive";

export type PartFit =
  | { readonly kind: "same" }
  /** The board file allows it. */
  | { readonly kind: "listed" }
  | { readonly kind: "substitute"; readonly caution: string }
  /** Same pins and function in another family. */
  | { readonly kind: "other-family"; readonly reason: string; readonly why: string }
  | { readonly kind: "wrong"; readonly reason: string; readonly why?: string }
  /** Neither the board file nor the library knows enough of it. */
  | { readonly kind: "unknown" };

const UNKNOWN: PartFit = { kind: "unknown" };

/** A part number or value as typed, at the place of `part`. Reasons are the end of a sentence about it, `why` is a sentence. */
export function fitAt(part: Part, typed: string, library: Library): PartFit {
  const asked = part.device ?? part.value;
  if (asked === undefined) return UNKNOWN;
  const number = normalPart(typed);
  if (normalPart(asked) === number) return { kind: "same" };
  if (part.fits.some((other) => normalPart(other) === number)) return { kind: "listed" };
  const byValue = part.device === undefined || library.device(part.device)?.device.kind === "passive";
  return byValue ? fitOfValue(part, typed, library) : fitOfDevice(part, part.device ?? "", typed, library);
}

function fitOfDevice(part: Part, asked: string, typed: string, library: Library): PartFit {
  const wanted = library.device(asked);
  const given = library.device(typed);
  if (!wanted || !given) return UNKNOWN;
  const sameAs = (number: string): boolean => {
    const other = library.device(number);
    return other?.device === given.device && other.family === given.family;
  };
  if (sameAs(asked)) return { kind: "same" };
  if (part.fits.some(sameAs)) return { kind: "listed" };
  const substitute = wanted.device.substitutes.find(({ part: number }) => sameAs(number));
  if (substitute) return { kind: "substitute", caution: substitute.caution };
  if (wanted.device === given.device) {
    const families = `${given.family?.title ?? "another family"} instead of ${wanted.family?.title ?? asked}`;
    return {
      kind: "other-family",
      reason: `is ${families}`,
      why: "Levels, drive and supply current differ.",
    };
  }
  const pins = [given.device.package.pins, wanted.device.package.pins] as const;
  const legs = pins[0] === pins[1] ? "" : ` with ${pins[0]} pins instead of ${pins[1]}`;
  return {
    kind: "wrong",
    reason: `is a ${lower(given.device.title)}${legs}, and a ${lower(wanted.device.title)} belongs there`,
  };
}

function fitOfValue(part: Part, typed: string, library: Library): PartFit {
  const bare = /^R\d/i.test(part.ref) ? ("resistance" as const) : undefined;
  const wanted = passiveOf(part.value ?? "", bare);
  if (!wanted) return UNKNOWN;
  const given = passiveOf(typed, bare);
  if (!given) {
    const device = library.device(typed)?.device;
    if (!device || device.kind === "passive") return UNKNOWN;
    return { kind: "wrong", reason: `is a ${lower(device.title)}, and ${part.value} belongs there` };
  }
  if (given.dimension !== wanted.dimension)
    return { kind: "wrong", reason: `is another kind of part than the ${part.value} that belongs there` };
  switch (comparePassive(wanted, given)) {
    case "same":
    case "within-tolerance":
      return { kind: "same" };
    case "unsaid":
      return UNKNOWN;
    case "rated-lower":
      return {
        kind: "wrong",
        reason: `is rated below the ${part.value} that belongs there`,
        why: "A higher rating does no harm, a lower one does.",
      };
    case "other-value":
      return wanted.dimension === "current"
        ? {
            kind: "wrong",
            reason: `is not the ${part.value} that belongs there`,
            why: "Replace a fuse by its own value and type only, or it protects nothing.",
          }
        : { kind: "wrong", reason: `is outside the tolerance of the ${part.value} that belongs there` };
  }
}

const lower = (title: string): string =>
  /^[A-Z][a-z]/.test(title) ? title[0]!.toLowerCase() + title.slice(1) : title;
