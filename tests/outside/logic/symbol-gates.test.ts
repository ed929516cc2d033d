// Which pins belong to one gate, against the gates drawn by others (KiCad symbol library, Debian package
// kicad-symbols 6.0.10, read at test time).
import { describe, expect, test } from "vitest";
import { readKind } from "../../../server/build/library.js";
import type { Gate } from "../../../server/src/knowledge/types";
import { candidates } from "../kicad/names";
import {
  OUTSIDE_REQUIRED,
  readSymbols,
  SYMBOL_FOLDER,
  SYMBOLS_PRESENT,
  type SymbolPins,
} from "../kicad/symbols";

const ABSENT = `KiCad symbols not found in ${SYMBOL_FOLDER}: install kicad-symbols or set MENDLOG_KICAD_SYMBOLS`;
const GATED = readKind("devices")
  .map(({ data }) => data as { id: string; gates?: readonly Gate[] })
  .filter((device) => device.gates !== undefined);

if (!SYMBOLS_PRESENT && !OUTSIDE_REQUIRED) console.warn(`skipped: gates against symbols: ${ABSENT}`);

test.runIf(OUTSIDE_REQUIRED)("the outside symbols are there, as this run requires", () => {
  expect(SYMBOLS_PRESENT, ABSENT).toBe(true);
});

describe.skipIf(!SYMBOLS_PRESENT)("pins of one gate", () => {
  test("are drawn as one gate by others too", () => {
    const libraries = new Map<string, Map<string, SymbolPins>>();
    let compared = 0;
    for (const { id, gates = [] } of GATED) {
      const symbol = candidates(id)
        .map(([library, name]) => {
          if (!libraries.has(library)) libraries.set(library, readSymbols(library));
          return libraries.get(library)?.get(name);
        })
        .find((found) => found !== undefined);
      if (!symbol) continue;
      const drawn = new Map<string, string[]>();
      for (const pin of symbol.values()) {
        if (pin.direction === "supply" || pin.direction === "ground") continue;
        drawn.set(pin.unit, [...(drawn.get(pin.unit) ?? []), pin.number]);
      }
      // A part drawn in one piece says nothing about its gates.
      if (drawn.size < 2) continue;
      const groups = [...drawn.values()].map((pins) => pins.sort().join(" "));
      for (const gate of gates) {
        const ours = [...gate.inputs, ...gate.outputs].sort().join(" ");
        expect(groups, `${id} gate ${gate.name}`).toContain(ours);
        compared += 1;
      }
    }
    expect(compared).toBeGreaterThanOrEqual(120);
  });
});
