import type { Verdict } from "../../compute/verdict";
import type { Occurrence } from "../shared/occurrences/occurrence";

/**
 * What a token may be, in our own words: themes know none of them, so the extension says beside each which of their
 * own colours stands for it. Their order is the protocol's numbering.
 */
export const TOKEN_TYPES = ["benchPart", "benchPin", "benchNet", "benchReading"] as const;
export type TokenType = (typeof TOKEN_TYPES)[number];

/** What a reading's verdict adds to its colour. Their order is the protocol's numbering of bits. */
export const TOKEN_MODIFIERS = ["withinLimits", "suspect", "outOfLimits", "impossible"] as const;
export type TokenModifier = (typeof TOKEN_MODIFIERS)[number];

/** The token of each kind of occurrence; kinds that are not coloured have none. */
export const TYPE_OF: Readonly<Partial<Record<Occurrence["kind"], TokenType>>> = {
  part: "benchPart",
  pin: "benchPin",
  net: "benchNet",
  reading: "benchReading",
};

/** A reading that nothing judges stays as plain as the text around it. */
export const MODIFIER_OF: Readonly<Partial<Record<Verdict, TokenModifier>>> = {
  impossible: "impossible",
  "out-of-limits": "outOfLimits",
  suspect: "suspect",
  "within-limits": "withinLimits",
};
