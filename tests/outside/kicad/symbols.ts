// Reads the pins of KiCad symbols (package kicad-symbols, CC-BY-SA) at test time; nothing of it is kept here.
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { PinDirection } from "../../../server/src/knowledge/types";
import { childrenOf, firstValue, parseSExpr, type SExpr } from "./sexpr";

export interface SymbolPin {
  readonly number: string;
  readonly name: string;
  /** Ours; undefined for types that say nothing ("unspecified", "free"). */
  readonly direction: PinDirection | undefined;
  /** Number of the gate the pin is drawn in; "0" is common to all. */
  readonly unit: string;
}

export type SymbolPins = ReadonlyMap<string, SymbolPin>;

export const SYMBOL_FOLDER = process.env.MENDLOG_KICAD_SYMBOLS ?? "/usr/share/kicad/symbols";
export const OUTSIDE_REQUIRED = process.env.MENDLOG_REQUIRE_OUTSIDE === "1";
export const SYMBOLS_PRESENT = existsSync(join(SYMBOL_FOLDER, "74xx.kicad_sym"));

const TYPES: Readonly<Record<string, PinDirection>> = {
  input: "input",
  output: "output",
  bidirectional: "bidirectional",
  tri_state: "three-state",
  open_collector: "open-collector",
  open_emitter: "open-emitter",
  passive: "passive",
  power_out: "output",
  no_connect: "not-connected",
};

const GROUND = /^(GND|VSS|0V)$/i;

function directionOf(type: string, name: string): PinDirection | undefined {
  if (type === "power_in") return GROUND.test(name) ? "ground" : "supply";
  return TYPES[type];
}

/** Bars and markup off a KiCad pin name: "~{CS}" and "~CS~" are "/CS". */
function plainName(name: string): string {
  return name.replace(/^~\{([^}]*)\}$/, "/$1").replace(/~\{([^}]*)\}/g, "/$1");
}

function ownPins(symbol: SExpr): SymbolPin[] {
  const drawings = childrenOf(symbol, "symbol").filter((child) => !/_2$/.test(String(child[1]))); // 2 = De Morgan drawing
  return [symbol, ...drawings].flatMap((part) => {
    const unit = /_(\d+)_\d+$/.exec(String(part[1]))?.[1] ?? "0";
    return childrenOf(part, "pin").map((pin) => {
      const name = plainName(firstValue(pin, "name") ?? "");
      const direction = directionOf(String(pin[1]), name);
      return { number: firstValue(pin, "number") ?? "", name, direction, unit };
    });
  });
}

/** Every symbol of one library by name, derived ones with the pins of their base. */
export function readSymbols(library: string): Map<string, SymbolPins> {
  const root = parseSExpr(readFileSync(join(SYMBOL_FOLDER, `${library}.kicad_sym`), "utf8"));
  const byName = new Map(childrenOf(root, "symbol").map((symbol) => [String(symbol[1]), symbol]));
  const pinsOf = (name: string): SymbolPins => {
    const symbol = byName.get(name);
    if (symbol === undefined) throw new Error(`${library}: no symbol ${name}`);
    const base = firstValue(symbol, "extends");
    if (base !== undefined) return pinsOf(base);
    return new Map(ownPins(symbol).map((pin) => [pin.number, pin]));
  };
  return new Map([...byName.keys()].map((name) => [name, pinsOf(name)]));
}
