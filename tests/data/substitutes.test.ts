// Substitutes named by the library: known parts that fit where this one sat, or a caution that says how they do not.
import { describe, expect, test } from "vitest";
import { builtinLibrary } from "../../server/src/knowledge/library";
import type { Device } from "../../server/src/knowledge/types";

const LIBRARY = builtinLibrary();
const PAIRS = LIBRARY.devices.flatMap((device) =>
  device.substitutes.map(({ part, caution }) => ({ device, part, caution, other: LIBRARY.device(part) })),
);

/** Named without an entry of their own: pins as their caution says, everything else from memory. */
const OUTSIDE_THE_LIBRARY = new Set<string>();

/** Says that pins differ, or which ones and how. */
const SAYS_PINS =
  /\bpins? [\d(]|\bpins \d|other pins|on other pins|different pins|not a drop-in|adapter|rewir/i;

const places = (device: Device, wanted: "supply" | "ground"): string[] =>
  [...device.pins.values()].filter(({ direction }) => direction === wanted).map(({ number }) => number);

const fits = (a: Device, b: Device): boolean =>
  a.package.pins === b.package.pins &&
  places(a, "supply").join() === places(b, "supply").join() &&
  places(a, "ground").join() === places(b, "ground").join();

describe("substitutes", () => {
  test("are parts the library knows, or listed here as strangers", () => {
    const unknown = PAIRS.filter(({ other }) => other === undefined).map(({ part }) => part);
    expect([...new Set(unknown)].sort()).toEqual([...OUTSIDE_THE_LIBRARY].sort());
    expect(PAIRS.length - unknown.length).toBeGreaterThanOrEqual(260);
  });

  test("have the same number of pins with supply and ground in the same places, or say that pins differ", () => {
    let same = 0;
    for (const { device, part, caution, other } of PAIRS) {
      if (!other) continue;
      if (fits(device, other.device)) same += 1;
      else expect(caution, `${device.id} by ${part}`).toMatch(SAYS_PINS);
    }
    expect(same).toBeGreaterThanOrEqual(240);
  });

  test("name a family that the other part is made in", () => {
    for (const { device, part, other } of PAIRS) {
      if (!other?.family || !/^74[A-Z]/.test(part)) continue;
      expect(other.device.families, `${device.id} by ${part}`).toContain(other.family.id);
    }
  });

  test("another family of the same number says what it drives or how it times", () => {
    for (const { device, part, caution, other } of PAIRS) {
      if (other?.device !== device || !/^74[A-Z]+\d/.test(part)) continue;
      expect(caution, part).toMatch(
        /sink|load|drive|current|input|pulse width|needs|ringing|threshold|brightness/i,
      );
      if (/^74HC[^T]/.test(part)) expect(caution, part).toMatch(/high|TTL/);
    }
  });

  test("an open collector and a push-pull output are never swapped without a word", () => {
    const open = (device: Device) =>
      [...device.pins.values()].some(({ direction }) => direction === "open-collector");
    let seen = 0;
    for (const { device, part, caution, other } of PAIRS) {
      if (!other || device.kind !== "logic" || open(device) === open(other.device)) continue;
      expect(caution, `${device.id} by ${part}`).toMatch(
        /collector|push-pull|pull-up|not a substitute|pins/i,
      );
      seen += 1;
    }
    expect(seen).toBeGreaterThanOrEqual(5);
  });

  test("every 74xx part has one, or a note why not", () => {
    const without = LIBRARY.devices.filter(
      ({ id, kind, substitutes }) => /^74/.test(id) && kind === "logic" && substitutes.length === 0,
    );
    expect(without.map(({ id }) => id).sort()).toEqual(["74141", "74150", "7425"]);
    for (const { note } of without) expect(note).toMatch(/only the standard part|No other number/);
  });
});
