// A stuck, open or shorted address line makes several addresses one place: what is written to one comes back from the
// other. So each thinkable fault sorts the addresses into groups, and it fits where every group behaved like
// one place: all its addresses read alike, and what they read was written to one of them.
import type { Saying } from "../../text/saying";
import { type Result, refused } from "../result";
import { sayHex } from "./hex";
import { badWords, isWhole, type MemoryWord, MOST_ADDRESS_LINES } from "./memory-word";

/** More lines than any memory of these boards; it bounds the work. */
export const MOST_TESTED_LINES = 16;

export interface AddressTest {
  /** Address lines under test, 1 to 16: A0 upwards. */
  readonly lines: number;
  /** One pass: all places written, then all read. Places that agreed count as much as those that failed. */
  readonly words: readonly MemoryWord[];
  /**
   * What the pass wrote at every address of a range, where that is known; then every address of the range that is
   * not among the words counts as read back right.
   */
  readonly pattern?: { readonly from: number; readonly to: number; readonly at: (address: number) => number };
}

export type AddressFault =
  | { readonly kind: "stuck"; readonly line: number }
  | {
      readonly kind: "shorted";
      readonly lines: readonly [number, number];
      /** Which level wins where the two differ. */
      readonly wins: "low" | "high";
    };

export interface AddressSuspect {
  readonly fault: AddressFault;
  /** Failing places that read what was written to their partner. */
  readonly explains: number;
  /** Failing places whose partner is not among the words. */
  readonly open: number;
  /** One pair that shows it. */
  readonly example: readonly [failing: number, partner: number];
  readonly says: Saying;
}

export interface AddressReport {
  readonly ok: true;
  readonly failing: number;
  /** Faults nothing contradicts and at least one failing place bears out, best borne out first. */
  readonly suspects: readonly AddressSuspect[];
  readonly says: Saying;
  readonly source: string;
}

/**
 * Single address-line faults that fit the whole pass. A line held at either level looks the same from outside, and so
 * does an open one that floats to a level. Refuses words that cannot be, and an address recorded twice.
 */
export function addressFaults(test: AddressTest): Result<AddressReport> {
  const { lines, words, pattern } = test;
  const places = new Map(words.map((word) => [word.address, word]));
  const bad =
    badWords(words) ??
    refused(
      Number.isInteger(lines) && lines >= 1 && lines <= MOST_TESTED_LINES
        ? undefined
        : `${lines} address lines cannot be tested: 1 to ${MOST_TESTED_LINES} can.`,
      places.size < words.length
        ? `Address ${twice(words)} is recorded twice: give one pass of the test at a time.`
        : undefined,
      pattern && !(isAddress(pattern.from) && isAddress(pattern.to) && pattern.from <= pattern.to)
        ? `The pass runs from ${pattern.from} to ${pattern.to}, which is no range.`
        : undefined,
      pattern && unlike(pattern, words),
    );
  if (bad) return bad;
  const place = (address: number): MemoryWord | undefined => {
    const word = places.get(address);
    if (word || !pattern || !inRange(pattern, address)) return word;
    const datum = pattern.at(address);
    return { address, wrote: datum, read: datum };
  };
  const suspects = everyFault(lines)
    .map((fault) => weigh(fault, test, place))
    .filter((suspect) => suspect !== undefined)
    .sort((a, b) => b.explains - a.explains);
  const failing = words.filter(({ wrote, read }) => wrote !== read).length;
  return {
    ok: true,
    failing,
    suspects,
    says: summary(failing, suspects),
    source: "follows from two addresses being one place",
  };
}

const isAddress = (value: number): boolean => isWhole(value, MOST_ADDRESS_LINES);

const inRange = ({ from, to }: { readonly from: number; readonly to: number }, address: number): boolean =>
  address >= from && address <= to;

/** A whole dump may be recorded, so the first complaint is looked for and not all of them made. */
function unlike(
  pattern: NonNullable<AddressTest["pattern"]>,
  words: readonly MemoryWord[],
): string | undefined {
  const word = words.find(({ address, wrote }) => inRange(pattern, address) && pattern.at(address) !== wrote);
  return (
    word &&
    `${sayHex(word.wrote, 2)} at ${sayHex(word.address, 4)} is not what the pattern writes there, ${sayHex(pattern.at(word.address), 2)}.`
  );
}

function twice(words: readonly MemoryWord[]): string {
  const seen = new Set<number>();
  const again = words.find(({ address }) => seen.size === seen.add(address).size);
  return sayHex(again?.address ?? 0, 4);
}

/** Line by line, then pair by pair; on a TTL bus the low level wins (from memory), so it comes first. */
function everyFault(lines: number): readonly AddressFault[] {
  const all = Array.from({ length: lines }, (_, line) => line);
  const pairs = all.flatMap((a) => all.slice(a + 1).map((b) => [a, b] as const));
  return [
    ...all.map((line) => ({ kind: "stuck", line }) as const),
    ...(["low", "high"] as const).flatMap((wins) =>
      pairs.map((pair) => ({ kind: "shorted", lines: pair, wins }) as const),
    ),
  ];
}

/** The addresses that become one place with this one, itself included. */
export function aliases(fault: AddressFault, address: number): readonly number[] {
  if (fault.kind === "stuck") return [address, address ^ (1 << fault.line)];
  const [a, b] = fault.lines.map((line) => 1 << line) as [number, number];
  const both = a | b;
  const bits = address & both;
  // Where the two lines agree on the level that loses, the address is its own.
  if (bits === (fault.wins === "low" ? both : 0)) return [address];
  const base = address & ~both;
  return fault.wins === "low" ? [base, base | a, base | b] : [base | a, base | b, base | both];
}

function weigh(
  fault: AddressFault,
  { words, pattern }: AddressTest,
  place: (address: number) => MemoryWord | undefined,
): AddressSuspect | undefined {
  const behavesAsOne = (address: number): boolean => {
    const group = aliases(fault, address).map(place);
    const known = group.filter((word) => word !== undefined);
    const read = known[0]?.read;
    return (
      known.every((word) => word.read === read) &&
      (known.length < group.length || known.some(({ wrote }) => wrote === read))
    );
  };
  if (!words.every(({ address }) => behavesAsOne(address))) return undefined;
  for (let address = pattern?.from ?? 0; address <= (pattern?.to ?? -1); address += 1) {
    if (!behavesAsOne(address)) return undefined;
  }
  let explains = 0;
  let open = 0;
  let example: readonly [number, number] | undefined;
  for (const { address, wrote, read } of words) {
    if (wrote === read) continue;
    const others = aliases(fault, address).filter((other) => other !== address);
    const partner = others.find((other) => place(other)?.wrote === read);
    if (partner !== undefined) {
      explains += 1;
      example ??= [address, partner];
    } else if (others.length > 0) open += 1;
  }
  if (!example) return undefined;
  return { fault, explains, open, example, says: describe(fault, explains, example) };
}

const isPlural = (n: number, one: string, many: string): string => (n === 1 ? `1 ${one}` : `${n} ${many}`);

function describe(
  fault: AddressFault,
  explains: number,
  [failing, partner]: readonly [number, number],
): Saying {
  const what =
    fault.kind === "stuck"
      ? `A${fault.line} stuck or open`
      : `A${fault.lines[0]} shorted to A${fault.lines[1]}, the ${fault.wins} level winning`;
  return {
    fact: `${sayHex(failing, 4)} reads what was written to ${sayHex(partner, 4)}.`,
    cause: `${what} would explain ${isPlural(explains, "failing place", "failing places")}.`,
    step: "Probe the line at the memory, at its buffer and along the track.",
  };
}

function summary(failing: number, suspects: readonly AddressSuspect[]): Saying {
  if (failing === 0)
    return { fact: "Every place reads back as written.", cause: "That does not prove the address lines." };
  const [first, second] = suspects;
  if (!first) {
    return {
      fact: "No single stuck or shorted address line fits what was read.",
      step: "Check data lines, selects and the chips, or record the places that agreed too.",
    };
  }
  if (!second) return first.says;
  return {
    ...first.says,
    more: `${isPlural(suspects.length - 1, "other fault fits", "other faults fit")} as far as recorded. Record more places to tell them apart.`,
  };
}
