// Lays one of our devices beside the symbol of the same part and says where the two differ.
import type { SymbolPin, SymbolPins } from "./symbols";

export interface OurPin {
  readonly name: string;
  readonly direction: string;
  readonly unit?: string;
}

export interface OurDevice {
  readonly id: string;
  readonly kind: string;
  readonly package: { readonly name: string; readonly pins: number };
  readonly pins: Readonly<Record<string, OurPin>>;
  readonly source: string;
}

export interface Difference {
  readonly pin: string;
  readonly ours: string;
  readonly theirs: string;
}

/** Symbols name discrete parts' leads but draw base and gate as inputs: there the lead's name is what counts. */
const LEADS_BY_NAME = new Set(["transistor", "diode"]);

const plain = (name: string) => name.toUpperCase().replace(/[_ .]/g, "");

/** A pin one side leaves out must be one the other calls not connected. */
function presenceAndDirection(device: OurDevice, symbol: SymbolPins): Difference[] {
  const byName = LEADS_BY_NAME.has(device.kind);
  const found: Difference[] = [];
  for (const [pin, our] of Object.entries(device.pins)) {
    const theirs = symbol.get(pin);
    const saysNothing = theirs?.direction === undefined;
    const ours = byName ? plain(our.name) : our.direction;
    const seen =
      theirs === undefined ? "absent" : byName ? plain(theirs.name) : (theirs.direction ?? "unspecified");
    const leftOut = saysNothing && our.direction === "not-connected";
    if (ours !== seen && !leftOut) found.push({ pin, ours, theirs: seen });
  }
  for (const [pin, theirs] of symbol) {
    if (device.pins[pin] === undefined) {
      found.push({ pin, ours: "absent", theirs: theirs.direction ?? "unspecified" });
    }
  }
  return found;
}

interface Pair {
  readonly pin: string;
  readonly our: OurPin;
  readonly their: SymbolPin;
}

/** Pins of a chip with several gates, by our gate, where the symbol too is drawn as several gates. */
function gates(device: OurDevice, symbol: SymbolPins): Map<string, Pair[]> | undefined {
  const byUnit = new Map<string, Pair[]>();
  for (const [pin, our] of Object.entries(device.pins)) {
    const their = symbol.get(pin);
    if (our.unit === undefined || their === undefined) continue;
    const pairs = byUnit.get(our.unit) ?? [];
    byUnit.set(our.unit, [...pairs, { pin, our, their }]);
  }
  const drawn = new Set([...byUnit.values()].flat().map((pair) => pair.their.unit));
  return byUnit.size > 1 && drawn.size > 1 ? byUnit : undefined;
}

/** Pins that belong together here must belong together there. */
function grouping(byUnit: ReadonlyMap<string, readonly Pair[]>): Difference[] {
  const found: Difference[] = [];
  const owner = new Map<string, string>();
  for (const [unit, pairs] of byUnit) {
    const first = pairs[0]!.their.unit;
    for (const { pin, their } of pairs) {
      if (their.unit !== first)
        found.push({ pin, ours: `gate ${unit}`, theirs: `drawn in gate ${their.unit}` });
    }
    const taken = owner.get(first);
    if (taken !== undefined) {
      found.push({ pin: pairs[0]!.pin, ours: `gate ${unit}`, theirs: `drawn with gate ${taken}` });
    }
    owner.set(first, unit);
  }
  return found;
}

/** Names with each numbered series counted from its own lowest: Q0 to Q7 and Q1 to Q8 come out the same. */
function counted(pairs: readonly Pair[], nameOf: (pair: Pair) => string): (pair: Pair) => string {
  const lowest = new Map<string, number>();
  const split = (name: string) => /^(.*?)(\d+)$/.exec(name);
  for (const pair of pairs) {
    const parts = split(nameOf(pair));
    if (parts === null) continue;
    const [, stem = "", digits] = parts;
    lowest.set(stem, Math.min(lowest.get(stem) ?? Number.POSITIVE_INFINITY, Number(digits)));
  }
  return (pair) => {
    const parts = split(nameOf(pair));
    if (parts === null) return nameOf(pair);
    const [, stem = "", digits] = parts;
    return `${stem}#${Number(digits) - lowest.get(stem)!}`;
  };
}

/** A name that stands once on each side must stand on the same pin. */
function sameNames(pairs: readonly Pair[], ourName: (pair: Pair) => string): Difference[] {
  const once = (name: (pair: Pair) => string) => {
    const pins = new Map<string, string[]>();
    for (const pair of pairs) pins.set(name(pair), [...(pins.get(name(pair)) ?? []), pair.pin]);
    return new Map([...pins].filter(([, list]) => list.length === 1).map(([key, list]) => [key, list[0]!]));
  };
  const theirs = once(counted(pairs, (pair) => plain(pair.their.name)));
  return [...once(counted(pairs, ourName))].flatMap(([name, pin]) => {
    const other = theirs.get(name);
    return other === undefined || other === pin
      ? []
      : [{ pin, ours: name, theirs: `${name} on pin ${other}` }];
  });
}

/** Every difference in presence, direction, grouping into gates and place of like-named pins, in pin order. */
export function differences(device: OurDevice, symbol: SymbolPins): Difference[] {
  const byUnit = gates(device, symbol);
  const named: Difference[] = [];
  if (byUnit !== undefined) {
    named.push(...grouping(byUnit));
    for (const [unit, pairs] of byUnit) {
      const own = (pair: Pair) => plain(pair.our.name).replace(new RegExp(`^(/?)${unit}(?=\\D)`), "$1");
      named.push(...sameNames(pairs, own));
    }
  } else if (!LEADS_BY_NAME.has(device.kind)) {
    const pairs = Object.entries(device.pins).flatMap(([pin, our]) => {
      const their = symbol.get(pin);
      return their === undefined ? [] : [{ pin, our, their }];
    });
    named.push(...sameNames(pairs, (pair) => plain(pair.our.name)));
  }
  return [...presenceAndDirection(device, symbol), ...named].sort((a, b) => Number(a.pin) - Number(b.pin));
}
