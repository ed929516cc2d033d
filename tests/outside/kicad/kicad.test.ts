// Pin numbers, supply, ground and directions of the built-in devices against symbols drawn by others
// (KiCad symbol library, Debian package kicad-symbols 6.0.10). MENDLOG_KICAD_SYMBOLS names another folder,
// MENDLOG_REQUIRE_OUTSIDE=1 makes its absence a failure.
import { describe, expect, test } from "vitest";
import { readKind } from "../../../server/build/library.js";
import { type Difference, differences, type OurDevice } from "./compare";
import type { Exception } from "./exception";
import { EXCEPTIONS, UNCOMPARED } from "./exceptions";
import { candidates } from "./names";
import { OUTSIDE_REQUIRED, readSymbols, SYMBOL_FOLDER, SYMBOLS_PRESENT, type SymbolPins } from "./symbols";

const DEVICES = readKind("devices").map((file) => ({ file: file.file, device: file.data as OurDevice }));
const ABSENT = `KiCad symbols not found in ${SYMBOL_FOLDER}: install kicad-symbols or set MENDLOG_KICAD_SYMBOLS`;
const CLAIM = "compared with the KiCad symbol library";

const libraries = new Map<string, Map<string, SymbolPins>>();

function symbolOf(id: string): SymbolPins | undefined {
  for (const [library, name] of candidates(id)) {
    if (!libraries.has(library)) libraries.set(library, readSymbols(library));
    const symbol = libraries.get(library)?.get(name);
    if (symbol !== undefined) return symbol;
  }
  return undefined;
}

function covers(exception: Exception, difference: Difference): boolean {
  const pins = exception.pins;
  return (
    exception.ours === difference.ours &&
    exception.theirs === difference.theirs &&
    (pins === "*" || pins.includes(difference.pin))
  );
}

if (!SYMBOLS_PRESENT && !OUTSIDE_REQUIRED) console.warn(`skipped: ${ABSENT}`);

test.runIf(OUTSIDE_REQUIRED)("the outside symbols are there, as this run requires", () => {
  expect(SYMBOLS_PRESENT, ABSENT).toBe(true);
});

describe.skipIf(!SYMBOLS_PRESENT)("devices against the KiCad symbol library", () => {
  test.each(DEVICES.map(({ device }) => [device.id, device] as const))("%s", (id, device) => {
    const symbol = symbolOf(id);
    if (symbol === undefined || UNCOMPARED[id] !== undefined) {
      expect(UNCOMPARED[id], `${id} has no symbol and no reason in UNCOMPARED`).toBeDefined();
      expect(device.source, `${id} was not compared, so it must not say so`).not.toContain(CLAIM);
      return;
    }
    const allowed = EXCEPTIONS[id] ?? [];
    const unexplained = differences(device, symbol).filter(
      (difference) => !allowed.some((exception) => covers(exception, difference)),
    );
    expect(unexplained).toEqual([]);
    if (device.kind !== "transistor" && device.kind !== "diode") expect(device.source).toContain(CLAIM);
  });

  test("no exception outlives its reason", () => {
    const stale = Object.entries(EXCEPTIONS).flatMap(([id, exceptions]) => {
      const device = DEVICES.find((entry) => entry.device.id === id)?.device;
      const symbol = symbolOf(id);
      if (device === undefined || symbol === undefined) return [`${id}: no such pair`];
      const found = differences(device, symbol);
      return exceptions.flatMap((exception) => {
        const unused =
          exception.pins === "*"
            ? found.some((difference) => covers(exception, difference))
              ? []
              : ["*"]
            : exception.pins.filter((pin) => !found.some((d) => d.pin === pin && covers(exception, d)));
        return unused.map((pin) => `${id} pin ${pin}: ${exception.ours} / ${exception.theirs}`);
      });
    });
    expect(stale).toEqual([]);
  });

  test("nothing is left out that could be compared", () => {
    const withOwnReason = new Set(["7451", "74LS54"]);
    const comparable = Object.keys(UNCOMPARED).filter((id) => {
      const known = DEVICES.some(({ device }) => device.id === id);
      return !known || (symbolOf(id) !== undefined && !withOwnReason.has(id));
    });
    expect(comparable).toEqual([]);
  });

  test("the two left out for their pins do differ there", () => {
    for (const id of ["7451", "74LS54"]) {
      const device = DEVICES.find((entry) => entry.device.id === id)!.device;
      expect(differences(device, symbolOf(id)!), id).not.toEqual([]);
    }
  });

  test("the comparison is not empty", () => {
    const compared = DEVICES.filter(
      ({ device }) => UNCOMPARED[device.id] === undefined && symbolOf(device.id),
    );
    const count = (folder: string) =>
      compared.filter(({ file }) => file.startsWith(`devices/${folder}/`)).length;
    const pins = compared.reduce((sum, { device }) => sum + Object.keys(device.pins).length, 0);
    expect(count("74xx")).toBeGreaterThanOrEqual(120);
    expect(count("4xxx")).toBeGreaterThanOrEqual(35);
    expect(compared.length - count("74xx") - count("4xxx")).toBeGreaterThanOrEqual(65);
    expect(pins).toBeGreaterThanOrEqual(3000);
  });
});
