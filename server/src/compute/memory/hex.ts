// Hexadecimal as it is typed at the bench.

/**
 * Addresses, data and sums: "3F", "0x3F", "$3F", "3Fh", "&H3F". Always hexadecimal, as memory tests print them.
 * Undefined where it is not, or needs more than 32 bits.
 */
export function readHex(text: string): number | undefined {
  const digits = /^\s*(?:0x|\$|&h|#)?([0-9a-f]{1,8})h?\s*$/i.exec(text)?.[1];
  return digits === undefined ? undefined : Number.parseInt(digits, 16);
}

/** Upper-case digits, at least as many as asked for: 3F, 003F. */
export const sayHex = (value: number, digits: number): string =>
  value.toString(16).toUpperCase().padStart(digits, "0");

/** A check as it is compared: lower case, without a prefix, filled to its width. */
export const plainHex = (text: string, digits: number): string =>
  text
    .trim()
    .toLowerCase()
    .replace(/^(?:0x|\$)|h$/g, "")
    .padStart(digits, "0");

/** Data or address bits as a technician lists them: "3, 5", "D3 D5", "0-3", "D4/D7". Undefined where unclear. */
export function readBits(text: string): readonly number[] | undefined {
  const parts = text
    .replace(/\s*(?:-|–|\.\.|\bto\b)\s*/gi, "-")
    .split(/[\s,;/+&]+|\band\b/i)
    .filter((part) => part !== "");
  const bits = new Set<number>();
  for (const part of parts) {
    const [, from, to] = /^(?:bit|[ad])?(\d{1,2})(?:-(?:bit|[ad])?(\d{1,2}))?$/i.exec(part) ?? [];
    if (from === undefined) return undefined;
    const ends = [Number(from), Number(to ?? from)].sort((a, b) => a - b) as [number, number];
    if (ends[1] > 31) return undefined;
    for (let bit = ends[0]; bit <= ends[1]; bit += 1) bits.add(bit);
  }
  return bits.size === 0 ? undefined : [...bits].sort((a, b) => a - b);
}
