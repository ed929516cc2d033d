// Which device a part number stands for: a certain one, several that it may be, or none. A number means what it means
// alone only behind letters that their maker is known to use for such parts; anything else is a doubt, never a guess.
import { defined } from "../base/defined";
import { as74, cores, inFull, isTransistorLetters, type Part74, printed } from "./part-number";
import type { Device, Family } from "./types";
import type { AnotherPart, Maker, Prefix } from "./types-maker";

export interface FoundDevice {
  readonly device: Device;
  /** The family that the number names, else the device's first. */
  readonly family: Family | undefined;
}

/** One of the parts that a number may be. */
export interface MayBe {
  /** What it is, in words. */
  readonly is: string;
  /** Whose letters say so; absent where it is what the number means without any. */
  readonly maker?: string;
  /** Its number with the maker's letters, or without any. */
  readonly number: string;
  /** Absent where the library has no pins of it. */
  readonly device?: Device;
}

/** A number that is not certain. */
export interface Doubt {
  readonly typed: string;
  /** Letters in front of the number; "" where there are none. */
  readonly letters: string;
  /** What makers use the letters for; none where nobody is known to use them. */
  readonly uses: readonly { readonly maker: string; readonly use: string }[];
  /** What makers' letters say first, then what the number means alone. */
  readonly mayBe: readonly MayBe[];
}

export type Meaning =
  | { readonly kind: "known"; readonly found: FoundDevice }
  | { readonly kind: "doubtful"; readonly doubt: Omit<Doubt, "typed"> };

interface Entry {
  readonly maker: Maker;
  readonly prefix: Prefix;
}

interface Listed {
  readonly maker: Maker;
  readonly letters: string;
  readonly part: AnotherPart;
}

export interface NumberLookup {
  /** What was typed or printed; undefined where nothing is known of it. */
  meaning(typed: string): Meaning | undefined;
  /** Other parts that makers' letters make of a bare number: 4016 is a RAM as TMS4016. */
  others(number: string): readonly MayBe[];
}

/** Patterns of numbers as the makers' files write them. */
function matcher(pattern: string): RegExp {
  const escaped = pattern.replaceAll(/[./-]/g, "\\$&").replaceAll("x", "\\d").replaceAll("*", ".*");
  return new RegExp(`^${escaped}$`);
}

const compiled = new Map<string, RegExp>();
function matches(pattern: string, number: string): boolean {
  const known = compiled.get(pattern) ?? matcher(pattern);
  compiled.set(pattern, known);
  return known.test(number);
}

export function numberLookup(
  names: ReadonlyMap<string, Device>,
  families: readonly Family[],
  makers: readonly Maker[],
): NumberLookup {
  const familyById = new Map(families.map((family) => [family.id, family]));
  const familyByLetters = new Map(
    families.flatMap((family) =>
      family.letters === undefined ? [] : [[family.letters.toUpperCase(), family] as const],
    ),
  );
  const entries = new Map<string, Entry[]>();
  const listed = new Map<string, Listed[]>();
  for (const maker of makers) {
    for (const prefix of maker.prefixes) {
      entries.set(prefix.letters, [...(entries.get(prefix.letters) ?? []), { maker, prefix }]);
      for (const part of prefix.another) {
        const all = listed.get(part.number) ?? [];
        listed.set(part.number, [...all, { maker, letters: prefix.letters, part }]);
      }
    }
  }
  const longest = Math.max(0, ...[...entries.keys()].map((letters) => letters.length));
  const marks = new Set(makers.flatMap(({ marks }) => marks));
  const own = (device: Device): Family | undefined => familyById.get(device.families[0] ?? "");
  const known = (device: Device): Meaning => ({ kind: "known", found: { device, family: own(device) } });
  const deviceOf = (id: string | undefined): Device | undefined =>
    id === undefined ? undefined : names.get(id.toUpperCase());

  const keepsNumber = ({ prefix }: Entry, number: string, device: Device | undefined): boolean =>
    (device !== undefined && prefix.kinds.includes(device.kind)) ||
    prefix.numbers.some((pattern) => matches(pattern, number));

  /** Letters of a family make a 74 of it whoever made it; plain numbers need a maker who makes them. */
  const isMakersOwn74 = ({ maker, number, letters }: Part74): boolean =>
    maker === "" ||
    letters !== "" ||
    (entries.get(maker) ?? []).some((entry) => keepsNumber(entry, `74${number}`, undefined));

  function in74({ id, number, letters }: Part74): FoundDevice | undefined {
    const family = familyByLetters.get(letters);
    const isListed = (device: Device) => family !== undefined && device.families.includes(family.id);
    // A family with pins of its own has an entry of its own: 74LS54 is not a 7454 in LS.
    const device = names.get(`74${letters}${number}`) ?? names.get(id);
    if (device) {
      // Several parts of the old low-power 74L series have pins of their own (from memory: 74L71, 74L78,
      // 74L85, 74L86, 74L95), so there the device must say that it covers the family.
      return letters !== "L" || isListed(device) ? { device, family } : undefined;
    }
    // 74HC4051 and its like are 4000 series parts remade; only where the entry says so.
    const remade = /^4\d{3}$/.test(number) ? names.get(number) : undefined;
    return remade && isListed(remade) ? { device: remade, family } : undefined;
  }

  function ofPart(part: string): Meaning | undefined {
    const exact = names.get(part);
    const seventyFour = as74(part);
    if (exact) {
      const named = seventyFour?.letters ? familyByLetters.get(seventyFour.letters) : undefined;
      const family = named && exact.families.includes(named.id) ? named : own(exact);
      return { kind: "known", found: { device: exact, family } };
    }
    if (seventyFour && isMakersOwn74(seventyFour)) {
      const found = in74(seventyFour);
      if (found) return { kind: "known", found };
    }
    for (const core of cores(part)) {
      const device = names.get(core);
      if (device) return known(device);
    }
    return /^[A-Z]/.test(part) ? behindLetters(part) : bare(part);
  }

  function behindLetters(part: string): Meaning | undefined {
    let doubt: Meaning | undefined;
    for (let length = Math.min(longest, part.length - 1); length > 0; length--) {
      const letters = part.slice(0, length);
      const rest = part.slice(length);
      if (!entries.has(letters) || !/^\d/.test(rest)) continue;
      for (const core of cores(rest)) {
        const meaning = behind(letters, core);
        if (meaning?.kind === "known") return meaning;
        if (!meaning) continue;
        doubt ??= meaning;
        break;
      }
    }
    if (doubt) return doubt;
    const [, letters = "", rest = ""] = /^([A-Z]+)(\d.*)$/.exec(part) ?? [];
    if (letters === "" || entries.has(letters) || isTransistorLetters(letters)) return undefined;
    for (const core of cores(rest)) {
      const device = numberAlone(core);
      if (device) return doubtful(letters, [], [{ is: device.title, number: core, device }]);
    }
    return undefined;
  }

  /** "7404" too, which bears another number in the library only by its family. */
  const numberAlone = (core: string): Device | undefined => {
    const seventyFour = names.has(core) ? undefined : as74(core);
    return names.get(core) ?? (seventyFour && in74(seventyFour)?.device);
  };

  /** What one number is behind letters that makers are known to use; undefined where it is nothing. */
  function behind(letters: string, core: string): Meaning | undefined {
    const users = entries.get(letters) ?? [];
    const alone = numberAlone(core);
    const mayBe: MayBe[] = [];
    for (const entry of users) {
      const { maker, prefix } = entry;
      const another =
        prefix.another.find(({ number }) => number === core) ??
        prefix.another.find(({ number }) => matches(number, core));
      if (another)
        mayBe.push(
          defined<MayBe>({
            is: another.is,
            maker: maker.title,
            number: `${letters}${core}`,
            device: deviceOf(another.device),
          }),
        );
      else if (alone && keepsNumber(entry, core, alone))
        mayBe.push({ is: alone.title, maker: maker.title, number: `${letters}${core}`, device: alone });
    }
    const [first] = mayBe;
    if (first?.device && mayBe.every(({ device }) => device === first.device)) return known(first.device);
    if (!first && !alone) return undefined;
    const isTold = alone !== undefined && mayBe.some(({ device }) => device === alone);
    const uses = users.map(({ maker, prefix }) => ({ maker: maker.title, use: prefix.use }));
    return doubtful(letters, uses, [
      ...mayBe,
      ...(alone && !isTold ? [{ is: alone.title, number: core, device: alone }] : []),
    ]);
  }

  /** A number that alone is nothing, and something behind some maker's letters. */
  function bare(part: string): Meaning | undefined {
    for (const core of cores(part)) {
      const all = listed.get(core);
      if (all) return doubtful("", [], all.map(asMayBe));
    }
    return undefined;
  }

  const asMayBe = ({ maker, letters, part }: Listed): MayBe =>
    defined<MayBe>({
      is: part.is,
      maker: maker.title,
      number: `${letters}${part.number}`,
      device: deviceOf(part.device),
    });

  const doubtful = (letters: string, uses: Doubt["uses"], mayBe: readonly MayBe[]): Meaning => ({
    kind: "doubtful",
    doubt: { letters, uses, mayBe },
  });

  return {
    meaning(typed) {
      let doubt: Meaning | undefined;
      for (const part of printed(typed, (word) => marks.has(word))) {
        if (part === "" || part.length > 40) continue;
        const found = ofPart(part) ?? ofPart(inFull(part));
        if (found?.kind === "known") return found;
        doubt ??= found;
      }
      return doubt;
    },
    others(number) {
      const device = names.get(number);
      return (listed.get(number) ?? []).map(asMayBe).filter((other) => !device || other.device !== device);
    },
  };
}
