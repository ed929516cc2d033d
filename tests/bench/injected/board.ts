// A board as the simulation needs it: parts, values and which pin is on which net, read from the board file's YAML
// and from nothing else of the program.
import { readFileSync } from "node:fs";
import { parse } from "yaml";

export interface Part {
  readonly ref: string;
  readonly device?: string;
  readonly value?: string;
  readonly circuit?: string;
  readonly socketed?: boolean;
}

export interface Board {
  readonly id: string;
  readonly text: string;
  readonly parts: ReadonlyMap<string, Part>;
  /** Pins of each net, as `U1.8`. */
  readonly nets: ReadonlyMap<string, readonly string[]>;
  readonly netOf: ReadonlyMap<string, string>;
}

export function readBoard(path: URL): Board {
  const text = readFileSync(path, "utf8");
  const file = parse(text) as {
    id: string;
    parts: Record<string, Omit<Part, "ref">>;
    nets: Record<string, string[]>;
  };
  const parts = new Map(Object.entries(file.parts).map(([ref, part]) => [ref, { ...part, ref }]));
  const nets = new Map(Object.entries(file.nets));
  const netOf = new Map([...nets].flatMap(([net, pins]) => pins.map((pin) => [pin, net] as const)));
  return { id: file.id, text, parts, nets, netOf };
}

const PREFIX: Readonly<Record<string, number>> = {
  p: 1e-12,
  n: 1e-9,
  u: 1e-6,
  m: 1e-3,
  k: 1e3,
  M: 1e6,
};

/** Ohms or farads of `4k7 2 W`, `470`, `100n`, `10 uF 16 V`. Throws where it is neither. */
export function sizeOf(text: string): number {
  const found = /^(\d+(?:\.\d+)?)\s*([pnumkM]?)(\d*)/.exec(text);
  if (!found) throw new Error(`no value in "${text}"`);
  const [, whole = "", letter = "", rest = ""] = found;
  return Number(rest === "" ? whole : `${whole}.${rest}`) * (PREFIX[letter] ?? 1);
}

/** Chip and other pins of a part that are on a net, in order. */
export const pinsOf = (board: Board, ref: string): number[] =>
  [...board.netOf.keys()]
    .filter((pin) => pin.startsWith(`${ref}.`))
    .map((pin) => Number(pin.slice(ref.length + 1)))
    .sort((a, b) => a - b);

export const refOf = (pin: string): string => pin.slice(0, pin.indexOf("."));
export const numberOf = (pin: string): number => Number(pin.slice(pin.indexOf(".") + 1));
