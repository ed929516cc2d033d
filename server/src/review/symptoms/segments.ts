// Characters on a seven-segment display, and which of them look like another with one segment dark. Shapes as the usual
// decoders and hexadecimal sets draw them; from memory.

const SHAPES: Readonly<Record<string, string>> = {
  "0": "abcdef",
  "1": "bc",
  "2": "abdeg",
  "3": "abcdg",
  "4": "bcfg",
  "5": "acdfg",
  "6": "acdefg",
  "7": "abc",
  "8": "abcdefg",
  "9": "abcdfg",
  A: "abcefg",
  b: "cdefg",
  C: "adef",
  d: "bcdeg",
  E: "adefg",
  F: "aefg",
};

const segmentsOf = (character: string): string | undefined =>
  SHAPES[character] ?? SHAPES[character.toUpperCase()] ?? SHAPES[character.toLowerCase()];

/**
 * The segment, "a" to "g", that would have to be dark for `meant` to show as `shown`; undefined where one alone does
 * not do it. Places that are alike in both are not looked at: nobody misses a segment of a letter that is always there.
 */
export function darkSegment(shown: string, meant: string): string | undefined {
  if (shown.length !== meant.length || shown === meant) return undefined;
  let segment: string | undefined;
  for (let i = 0; i < shown.length; i += 1) {
    if (shown[i] === meant[i]) continue;
    const seen = segmentsOf(shown[i]!);
    const lit = segmentsOf(meant[i]!);
    if (seen === undefined || lit === undefined) return undefined;
    const dark = [...lit].filter((one) => !seen.includes(one));
    if ([...seen].some((one) => !lit.includes(one)) || dark.length > 1) return undefined;
    if (dark[0] !== undefined && segment !== undefined && dark[0] !== segment) return undefined;
    segment ??= dark[0];
  }
  return segment;
}
