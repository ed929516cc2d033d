// Pin numbers, supply, ground and directions of the built-in devices against symbols drawn by a second group of people
// (lepton-eda 1.9.18, Debian package lepton-eda). MENDLOG_LEPTON_SYMBOLS names another folder, MENDLOG_REQUIRE_OUTSIDE=1
// makes its absence a failure. Symbols that give no directions are compared in numbers and names.
import { describe, expect, test } from "vitest";
import { readKind } from "../../../server/build/library.js";
import { type Difference, differences, type OurDevice } from "../kicad/compare";
import type { Exception } from "../kicad/exception";
import type { SymbolPin, SymbolPins } from "../kicad/symbols";
import { EXCEPTIONS } from "./exceptions";
import { symbolName } from "./names";
import { OUTSIDE_REQUIRED, readSymbol, SYMBOL_FOLDER, SYMBOLS_PRESENT } from "./symbols";

const DEVICES = readKind("devices").map(({ data }) => data as OurDevice);
const ABSENT = `lepton-eda symbols not found in ${SYMBOL_FOLDER}: install lepton-eda or set MENDLOG_LEPTON_SYMBOLS`;
const CLAIM = "lepton-eda 1.9.18";

function symbolOf(device: OurDevice): SymbolPins | undefined {
  const name = symbolName(device.id);
  const symbol = name === undefined ? undefined : readSymbol(name);
  if (!symbol) return undefined;
  const isTold = ({ direction }: SymbolPin): boolean => direction !== undefined && direction !== "passive";
  if ([...symbol.values()].some(isTold)) return symbol;
  // No directions at all, or every pin passive: ours are put in their place, so that numbers and names alone are compared.
  return new Map(
    [...symbol].map(([number, pin]) => [
      number,
      { ...pin, direction: device.pins[number]?.direction as typeof pin.direction },
    ]),
  );
}

const covers = ({ pins, ours, theirs }: Exception, found: Difference): boolean =>
  ours === found.ours && theirs === found.theirs && (pins === "*" || pins.includes(found.pin));

if (!SYMBOLS_PRESENT && !OUTSIDE_REQUIRED) console.warn(`skipped: ${ABSENT}`);

test.runIf(OUTSIDE_REQUIRED)("the outside symbols are there, as this run requires", () => {
  expect(SYMBOLS_PRESENT, ABSENT).toBe(true);
});

describe.skipIf(!SYMBOLS_PRESENT)("devices against the lepton-eda symbols", () => {
  const pairs = SYMBOLS_PRESENT
    ? DEVICES.flatMap((device) => {
        const symbol = symbolOf(device);
        return symbol ? [[device.id, device, symbol] as const] : [];
      })
    : [];

  test.each(pairs)("%s", (id, device, symbol) => {
    const allowed = EXCEPTIONS[id] ?? [];
    const unexplained = differences(device, symbol).filter(
      (difference) => !allowed.some((exception) => covers(exception, difference)),
    );
    expect(unexplained).toEqual([]);
  });

  test("a device that names this library as its check is compared here", () => {
    const compared = new Set(pairs.map(([id]) => id));
    const claims = DEVICES.filter(({ source }) => source.includes(`compared with ${CLAIM}`)).map(
      ({ id }) => id,
    );
    expect(claims.length).toBeGreaterThan(50);
    expect(claims.filter((id) => !compared.has(id))).toEqual([]);
  });

  test("a symbol that is named is there", () => {
    const missing = DEVICES.flatMap(({ id }) => {
      const name = symbolName(id);
      return name !== undefined && !/^(?:74|4000)\//.test(name) && !readSymbol(name)
        ? [`${id}: ${name}`]
        : [];
    });
    expect(missing).toEqual([]);
  });

  test("no exception outlives its reason", () => {
    const stale = Object.entries(EXCEPTIONS).flatMap(([id, exceptions]) => {
      const pair = pairs.find(([other]) => other === id);
      if (!pair) return [`${id}: no such pair`];
      const found = differences(pair[1], pair[2]);
      return exceptions.flatMap(({ pins, ...rest }) =>
        (pins === "*" ? [undefined] : pins)
          .filter(
            (pin) =>
              !found.some((d) => covers({ pins: "*", ...rest }, d) && (pin === undefined || d.pin === pin)),
          )
          .map((pin) => `${id} pin ${pin ?? "*"}: ${rest.ours} / ${rest.theirs}`),
      );
    });
    expect(stale).toEqual([]);
  });

  test("the comparison is not empty", () => {
    expect(pairs.length).toBeGreaterThanOrEqual(300);
    expect(pairs.reduce((sum, [, { pins }]) => sum + Object.keys(pins).length, 0)).toBeGreaterThanOrEqual(
      4_500,
    );
  });
});
