// What running words say was measured of a part by itself: "C1 taken out and tested 4.9 uF", "F1 good", "D1 0.7 one way, OL the
// other", "R8 reads 47k". Words that are common practice, no source.

import type { Against } from "../../../compute/diagnosis/types";
import { partValue, readValue } from "../../../compute/part-value";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board } from "../../../knowledge/types";
import type { LocatedObservation } from "../observation";

type Said = Omit<LocatedObservation, "span" | "phase">;

/** Parts that a meter tells by themselves; of a chip nobody's word says much. */
const REF = "(?:BR|[RCDQFLKY]|TR|RV)\\d{1,3}";
const REFS = `${REF}(?:\\s*(?:,|&|\\band\\b)\\s*${REF})*`;
const GOOD = new RegExp(
  `(?<![\\w.-])(${REFS})\\s+(?:(?:is|are|was|were|both|all|itself|tests?|tested|measures?|measured|checks?|checked|rings?|out|lifted and (?:checked|measured|tested))[,:]?\\s+){0,3}(?:good|fine|ok|okay|intact|in order|sound|all right)\\b(?!\\s+(?:one|on|in)\\b)`,
  "gi",
);
/** One part and a figure with its unit, with nothing between that names another. */
const VALUE = new RegExp(
  `(?<![\\w.-])(${REF})\\b((?:(?!\\b[A-Z]{1,3}\\d)[^;.!?]|\\.(?=\\d)){0,40}?)(\\d+(?:[.,]\\d+)?\\s*(?:[kKM]|[kM]?\\s?ohms?|R|[µunp]F)|\\d+[kKM]\\d+)(?![\\w])`,
  "g",
);
/** Fuses that ring: "F2 and F3 beep", "fuses F1, F2: 0.2 ohm each". */
const RINGS = new RegExp(
  `(?<![\\w.-])(${REFS})\\s*:?\\s*(?:(?:all|both|each|is|are)\\s+)?(?:beeps?|rings?|(?:reads?\\s+)?(?:[01][.,]\\d+|[01])\\s*(?:ohms?|R|\u03a9)|(?:have|has|show|shows)\\s+continuity|whole\\b)(?!\\s+(?:when|if|only))`,
  "gi",
);
/** Open or shorted outright: "R23 open", "D4 nothing either way", "D12: dead short both ways", "K1: coil open". */
const OPEN_PART =
  /(?<![\w.-])(RN?\d{1,3}|[LK]\d{1,3})\s*:?,?\s*(?:(?:is|was|reads?|measures?|shows?|comes out|coil|itself)\s+){0,2}(?:open(?! (?:collector|end|drain))|OL\b|O\.L\.?|infinite|nothing at all|no reading)\b/g;
const BLIND_DIODE =
  /(?<![\w.-])(D\d{1,3})\s*:?,?\s*(?:(?:is|was|reads?|shows?|conducts)\s+)?(?:(?:open|OL|O\.L\.?|nothing|no reading)\s+(?:in\s+)?(?:both|either) ways?|OL\s*\/\s*OL)\b/g;
const SHORTED_DIODE =
  /(?<![\w.-])(D\d{1,3})\s*:?,?\s*(?:(?:is|was|reads?|shows?|a)\s+)*(?:(?:dead )?short(?:ed)?(?: circuit)?(?:\s+(?:in\s+)?(?:both|either) ways?)?|0[.,]0\d*(?:\s*V)?\s+(?:in\s+)?both ways?)\b/g;
const ONE_WAY =
  /(?<![\w.-])(D\d{1,3})\b[^;!?]{0,40}?0[.,]\d+\b[^;!?]{0,24}?\b(?:OL|O\.L|open|infinite|nothing)\b/gi;
const MEASURED =
  /\b(?:tests?|tested|measures?|measured|reads?|meters?|tester|checked|checks|comes? out|came out|got|find|found)\b/i;
/** What it should be, or will be, is no reading; nor is what another has. */
const NOT_READ =
  /\b(?:should|would|could|must|drawing|nominal|marked|value is|fitted|order(?:ed)?|replace[ds]?|new|next|maybe|perhaps|not|never|if|owner|customer|last (?:shop|time|year))\b|\?/i;

const FOUND_GOOD = "was found good";

/** Of its value: within the first it is right, above the second a resistor has grown, below the third a capacitor has dried. */
const SHARE = { right: 0.15, grown: 1.3, full: 0.65, most: 1.6, dried: 0.6 } as const;

/** What one sentence says of parts by themselves. */
export function measuredInWords(text: string, board: Board): Said[] {
  if (NOT_READ.test(text)) return [];
  const index = boardIndex(board);
  const found = new Map<string, Said>();
  for (const { 1: refs = "" } of text.matchAll(GOOD))
    for (const [ref] of refs.matchAll(new RegExp(REF, "gi"))) add(ref, true, FOUND_GOOD);
  // Of a fuse that is all there is to know; a coil or a resistor of no ohms is none.
  for (const { 1: refs = "" } of text.matchAll(RINGS))
    for (const [ref] of refs.matchAll(new RegExp(REF, "gi"))) if (/^F/i.test(ref)) add(ref, true, "rings");
  for (const { 1: ref = "" } of text.matchAll(BLIND_DIODE)) add(ref, false, "reads open both ways");
  for (const { 1: ref = "" } of text.matchAll(SHORTED_DIODE)) add(ref, false, "is shorted");
  for (const { 1: ref = "" } of text.matchAll(ONE_WAY)) add(ref, true, "conducts one way only");
  for (const { 1: ref = "" } of text.matchAll(OPEN_PART)) add(ref, false, "reads open");
  for (const { 1: ref = "", 2: between = "", 3: typed = "" } of text.matchAll(VALUE)) {
    if (!MEASURED.test(text) && !/^\s*(?:is|=|:)?\s*$/.test(between)) continue;
    const kind = /^C/i.test(ref) ? "capacitance" : /^R\d/i.test(ref) ? "resistance" : undefined;
    const nominal = kind && partValue(index.part(ref), kind)?.nominal;
    const value = kind && readValue(typed, kind)?.nominal;
    if (nominal === undefined || value === undefined) continue;
    const share = value / nominal;
    if (kind === "capacitance") {
      if (share > SHARE.full && share < SHARE.most) add(ref, true, `reads ${typed}`);
      else if (share < SHARE.dried) add(ref, false, `reads ${typed}`);
    } else if (Math.abs(share - 1) < SHARE.right) add(ref, true, `reads ${typed}`);
    else if (share > SHARE.grown) add(ref, false, `reads ${typed}`);
  }
  return [...found.values()];

  function add(typed: string, isGood: boolean, says: string): void {
    const ref = index.part(typed)?.ref;
    if (ref === undefined || found.has(ref)) return;
    const what = `${ref} by itself`;
    const base = { key: `prose ${ref} measured`.toUpperCase(), what, refs: [ref.toUpperCase()] };
    found.set(
      ref,
      isGood
        ? {
            ...base,
            against: [{ ref, by: says === FOUND_GOOD ? "said-good" : "said-measured" } satisfies Against],
          }
        : {
            ...base,
            finding: { kind: "part", ref, verdict: "out-of-limits", of: what, says: `${ref} ${says}.` },
          },
    );
  }
}
