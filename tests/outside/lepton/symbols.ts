// Reads the pins of lepton-eda symbols (Debian package lepton-eda, GPL) at test time; nothing of it is kept here.
// A symbol is lines of text: a pin is a line that begins with P and the attributes in braces behind it; a chip of
// several like gates is one gate and a `slotdef` a gate, which gives the pin numbers in the order of `pinseq`.
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { PinDirection } from "../../../server/src/knowledge/types";
import type { SymbolPin, SymbolPins } from "../kicad/symbols";

export const SYMBOL_FOLDER = process.env.MENDLOG_LEPTON_SYMBOLS ?? "/usr/share/lepton-eda/sym";
export const OUTSIDE_REQUIRED = process.env.MENDLOG_REQUIRE_OUTSIDE === "1";
export const SYMBOLS_PRESENT = existsSync(join(SYMBOL_FOLDER, "74", "7400-1.sym"));

const TYPES: Readonly<Record<string, PinDirection>> = {
  in: "input",
  clk: "input",
  out: "output",
  io: "bidirectional",
  oc: "open-collector",
  oe: "open-emitter",
  pas: "passive",
  tp: "passive",
  tri: "three-state",
};
const GROUND = /^(?:GND|VSS)$/i;

const power = (name: string): PinDirection => (GROUND.test(name) ? "ground" : "supply");

/** Bars off a label: "\_CLR\_" is "/CLR". */
const plainName = (label: string): string => label.replace(/\\_(.*?)\\_/g, "/$1");

interface Drawn {
  readonly number: string | undefined;
  readonly seq: number;
  readonly name: string;
  readonly direction: PinDirection | undefined;
}

function drawnPins(lines: readonly string[]): Drawn[] {
  const found: Drawn[] = [];
  let attributes: Record<string, string> | undefined;
  const close = () => {
    if (attributes) {
      const name = plainName(attributes.pinlabel ?? "");
      const type = attributes.pintype ?? "";
      found.push({
        number: attributes.pinnumber,
        seq: Number(attributes.pinseq),
        name,
        direction: type === "pwr" ? power(name) : TYPES[type],
      });
    }
    attributes = undefined;
  };
  for (const line of lines) {
    if (/^P \d/.test(line)) {
      close();
      attributes = {};
    } else if (line === "}") close();
    const attribute = /^(pinnumber|pinseq|pinlabel|pintype)=(.*)$/.exec(line);
    if (attribute && attributes) attributes[attribute[1]!] ??= attribute[2]!;
  }
  close();
  return found;
}

/** The pins of a symbol such as `74/7400-1`; undefined where there is none of that name. */
export function readSymbol(name: string): SymbolPins | undefined {
  const file = join(SYMBOL_FOLDER, `${name}.sym`);
  if (!existsSync(file)) return undefined;
  const lines = readFileSync(file, "latin1").split("\n");
  const slots = new Map<string, string[]>();
  const pins = new Map<string, SymbolPin>();
  for (const line of lines) {
    const slot = /^slotdef=(\d+):(.*)$/.exec(line);
    if (slot) slots.set(slot[1]!, slot[2]!.split(","));
  }
  for (const { number, seq, name: pinName, direction } of drawnPins(lines)) {
    if (slots.size === 0) {
      if (number !== undefined) pins.set(number, { number, name: pinName, direction, unit: "0" });
      continue;
    }
    for (const [unit, numbers] of slots) {
      const own = numbers[seq - 1];
      if (own !== undefined) pins.set(own, { number: own, name: pinName, direction, unit });
    }
  }
  // Supply and ground are not drawn but named: `net=Vcc:14`.
  for (const line of lines) {
    const net = /^net=(.*):([\d,]+)$/.exec(line);
    for (const number of net?.[2]?.split(",") ?? []) {
      if (!pins.has(number))
        pins.set(number, { number, name: net![1]!, direction: power(net![1]!), unit: "0" });
    }
  }
  return pins;
}
