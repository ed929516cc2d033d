// A known-good part put in to see whether it helps: what it came to, and whether it stayed. Which words say so is common
// practice, no source.

/** What the board did with the other part in: as it should, less of the fault, the same, or more of it. */
export type SwapOutcome = "cured" | "better" | "same" | "worse";

/** The first that fits counts, so "no better" is the same and "not cured, but better" is better. */
const OUTCOMES: readonly (readonly [RegExp, SwapOutcome])[] = [
  [
    /\b(?:same|unchanged|no\s+(?:change|difference|better|improvement|effect|help|cure)|still\s+(?:dead|bad|there|fails?|the\s+same)|(?:did|does)\s+(?:not|n't)\s+help|not\s+(?:cured|fixed|better)\s*$|not\s+it)\b/i,
    "same",
  ],
  [/\b(?:worse)\b/i, "worse"],
  [/\b(?:better|improve[ds]?|helps?|helped|partly|less\s+often|rarer)\b/i, "better"],
  [
    /(?<!\bnot\s+)\b(?:cure[ds]?|fixed|fixes|solved|gone|clears?|cleared|works|working|ok|okay|all\s+well|good|pass|passes|passed)\b/i,
    "cured",
  ],
  [/\b(?:fail(?:s|ed)?|dead|bad|not\s+(?:cured|fixed))\b/i, "same"],
];

/** What the part that was tried is called says nothing of what it did. */
const TRIED = /\bknown[- ](?:good|to work)\b|\bgood\s+(?:one|part|chip|ic)\b/gi;

/** What a known-good part put in has changed, by the words about it; undefined for words that do not say. */
export function swapOutcome(text: string): SwapOutcome | undefined {
  const said = text.replace(TRIED, " ");
  return OUTCOMES.find(([pattern]) => pattern.test(said))?.[1];
}

/** True for "left in", "kept", "new one stays": the part that was tried is the one that stands there. */
export const saysLeftIn = (text: string): boolean =>
  /\b(?:left\s+(?:it\s+)?in(?:\s+place)?|left\s+fitted|leave\s+it\s+in|kept(?:\s+in)?|stays?(?:\s+in)?|stayed(?:\s+in)?|remains|fitted\s+for\s+good|new\s+one\s+fitted)\b/i.test(
    text,
  ) && !/\bnot\s+(?:left|kept)\b/i.test(text);

/** True for "put back", "back out" and the like in a table of swaps, where a bare "back" is enough. */
export const saysTakenOut = (text: string): boolean =>
  /\b(?:put\s+back|back(?:\s+(?:in|out))?|taken\s+(?:back\s+)?out|returned|removed(?:\s+again)?|original\s+(?:re-?)?fitted|re-?fitted|swapped\s+back|not\s+(?:left|kept))\b/i.test(
    text,
  );
