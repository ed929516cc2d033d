// Holds the built-in devices and families to their own rules: complete pins, sound gates, one owner for a name.
import { describe, expect, test } from "vitest";
import { readKind } from "../../server/build/library.js";
import { DEVICE_KINDS, PIN_DIRECTIONS } from "../../server/src/knowledge/types";

interface PinData {
  readonly name: string;
  readonly direction: string;
  readonly unit?: string;
}

interface DeviceData {
  readonly "mendlog-device": number;
  readonly id: string;
  readonly title: string;
  readonly kind: string;
  readonly families: readonly string[];
  readonly aliases: readonly string[];
  readonly package: { readonly name: string; readonly pins: number };
  readonly pins: Readonly<Record<string, PinData>>;
  readonly gates?: readonly { name: string; function: string; inputs: string[]; outputs: string[] }[];
  readonly limits?: Readonly<Record<string, readonly [string, string]>>;
  readonly substitutes?: readonly { readonly part: string; readonly caution: string }[];
  readonly cautions?: readonly string[];
  readonly source: string;
}

const FILES = readKind("devices").map(({ file, data }) => ({ file, device: data as DeviceData }));
const DEVICES = FILES.map(({ device }) => device);
const FAMILIES = readKind("families").map(
  ({ data }) => data as { id: string; letters?: string; diode?: object },
);
const each = DEVICES.map((device) => [device.id, device] as const);
const POWERED = each.filter(([, { kind }]) => ["logic", "memory", "processor", "regulator"].includes(kind));
const GATED = each.filter(([, { gates }]) => gates !== undefined);
const DRIVES = new Set(["output", "three-state", "open-collector", "open-emitter"]);
const GATE_INPUTS: Readonly<Record<string, [least: number, most: number]>> = {
  NOT: [1, 1],
  BUFFER: [1, 1],
  XOR: [2, 2],
  XNOR: [2, 2],
  AND: [2, 16],
  OR: [2, 16],
  NAND: [2, 16],
  NOR: [2, 16],
};

const pinsThatAre = (device: DeviceData, direction: string) =>
  Object.keys(device.pins).filter((pin) => device.pins[pin]?.direction === direction);

describe.each(each)("device %s", (_id, device) => {
  test("names itself in text, with a source and known kind and families", () => {
    expect(device["mendlog-device"]).toBe(1);
    for (const text of [device.id, device.title, device.source]) expect(text).toMatch(/^\S/);
    expect(device.source).toMatch(/data sheet|from memory|common practice, no source/);
    expect(DEVICE_KINDS).toContain(device.kind);
    expect(device.families.length).toBeGreaterThan(0);
    for (const family of device.families) expect(FAMILIES.map(({ id }) => id)).toContain(family);
    for (const alias of device.aliases) expect(typeof alias).toBe("string");
    const { name } = device.package;
    if (name.startsWith("DIP-")) expect(name).toBe(`DIP-${device.package.pins}`);
  });

  test("has every pin from 1 to the last, each with a name and a direction", () => {
    const numbers = Object.keys(device.pins);
    expect(numbers).toEqual(Array.from({ length: device.package.pins }, (_, index) => String(index + 1)));
    for (const pin of Object.values(device.pins)) {
      expect(typeof pin.name).toBe("string");
      expect(pin.name).toMatch(/^\S+( \S+)*$/);
      expect(PIN_DIRECTIONS).toContain(pin.direction);
      expect(pin.direction === "not-connected").toBe(pin.name === "NC");
      if (pin.unit !== undefined) expect(typeof pin.unit).toBe("string");
    }
    const connected = Object.values(device.pins).filter(
      (pin) => !["NC", "VSS", "VCC", "GND"].includes(pin.name),
    );
    expect(new Set(connected.map(({ name }) => name)).size).toBe(connected.length);
  });

  test("has limits in order, substitutes with a caution, and no verdict in its words", () => {
    for (const [what, window] of Object.entries(device.limits ?? {})) {
      expect(window, what).toHaveLength(2);
      const [low, high] = window.map((text) => Number(/^(-?\d+(?:\.\d+)?) V$/.exec(text)?.[1]));
      expect(low, what).toBeLessThan(high!);
    }
    for (const { part, caution } of device.substitutes ?? []) {
      expect(typeof part).toBe("string");
      expect([device.id, ...device.aliases]).not.toContain(part);
      expect(caution.length).toBeGreaterThan(10);
    }
    for (const text of device.cautions ?? []) expect(text).not.toMatch(/\b(good|passed)\b/i);
  });
});

describe("by kind", () => {
  test.each(POWERED)("%s has supply and ground", (_id, device) => {
    // An adjustable regulator stands on its resistors instead of on ground.
    const floats = Object.values(device.pins).some(({ name }) => name === "ADJ");
    expect(pinsThatAre(device, "supply").length).toBeGreaterThan(0);
    if (!floats) expect(pinsThatAre(device, "ground").length).toBeGreaterThan(0);
  });

  test.each(GATED)("%s has gates that its pins bear out", (_id, device) => {
    const outputs = new Set<string>();
    for (const gate of device.gates ?? []) {
      const range = GATE_INPUTS[gate.function];
      expect(range, gate.function).toBeDefined();
      expect(gate.inputs.length).toBeGreaterThanOrEqual(range![0]);
      expect(gate.inputs.length).toBeLessThanOrEqual(range![1]);
      expect(gate.outputs).toHaveLength(1);
      for (const pin of gate.inputs) expect(device.pins[pin]?.direction, `input ${pin}`).toBe("input");
      for (const pin of gate.outputs) {
        expect(DRIVES, `output ${pin}`).toContain(device.pins[pin]?.direction);
        expect(outputs).not.toContain(pin);
        outputs.add(pin);
      }
      const units = new Set([...gate.inputs, ...gate.outputs].map((pin) => device.pins[pin]?.unit));
      expect([...units], `gate ${gate.name} stays within one section`).toHaveLength(1);
    }
  });
});

describe("the library as a whole", () => {
  test("no two devices claim the same number", () => {
    const owners = new Map<string, string>();
    for (const device of DEVICES) {
      for (const name of [device.id, ...device.aliases].map((text) => text.toUpperCase())) {
        expect(
          owners.get(name),
          `${name} is claimed by ${owners.get(name)} and ${device.id}`,
        ).toBeUndefined();
        owners.set(name, device.id);
      }
    }
  });

  test("a file is named after its device and lies with its kind", () => {
    for (const { file, device } of FILES) {
      expect(file.split("/").at(-1)).toBe(`${device.id.toLowerCase()}.device.yaml`);
      const folder = file.split("/")[1];
      expect(folder).toBe(
        device.kind !== "logic" ? device.kind : device.families.includes("4000") ? "4xxx" : "74xx",
      );
    }
  });

  test("it is as large as it claims", () => {
    const count = (wanted: (file: string) => boolean) => FILES.filter(({ file }) => wanted(file)).length;
    const within = (folder: string) => count((file) => file.startsWith(`devices/${folder}/`));
    expect(within("74xx")).toBeGreaterThanOrEqual(130);
    expect(within("4xxx")).toBeGreaterThanOrEqual(50);
    expect(within("memory") + within("processor") + within("interface")).toBeGreaterThanOrEqual(50);
    expect(within("transistor") + within("regulator")).toBeGreaterThanOrEqual(40);
    expect(DEVICES.filter(({ gates }) => gates !== undefined).length).toBeGreaterThanOrEqual(60);
  });

  // Supply and ground of parts whose corner pins do not carry them: from memory; the 74xx and 4xxx rows also
  // agree with the symbols of tests/outside/kicad.
  test.each([
    ["7473", "4", "11"],
    ["7475", "5", "12"],
    ["7476", "5", "13"],
    ["7483", "5", "12"],
    ["7490", "5", "10"],
    ["7491", "5", "10"],
    ["7492", "5", "10"],
    ["7493", "5", "10"],
    ["4049", "1", "8"],
    ["4050", "1", "8"],
    ["4164", "8", "16"],
    ["2102", "10", "9"],
  ])("%s has its supply on pin %s and ground on pin %s, and says so", (id, supply, ground) => {
    const device = DEVICES.find((entry) => entry.id === id)!;
    expect(pinsThatAre(device, "supply")).toEqual([supply]);
    expect(pinsThatAre(device, "ground")).toEqual([ground]);
    const warning = device.cautions?.find((text) => text.startsWith("Supply is not at the corners"));
    expect(warning).toContain(`pin ${ground} (`);
    expect(warning).toContain(`pin ${supply} (`);
  });

  test("no caution keeps the lead off a pin that is ground or supply", () => {
    const forbidding = DEVICES.flatMap((device) =>
      (device.cautions ?? []).flatMap((text) => {
        const [, pins] = /Put the lead there, not on pins? ([\d and]+)/.exec(text) ?? [];
        return pins === undefined ? [] : [{ device, pins: pins.match(/\d+/g) ?? [] }];
      }),
    );
    expect(forbidding.length).toBeGreaterThan(20);
    for (const { device, pins } of forbidding)
      for (const pin of pins)
        expect(["ground", "supply"], `${device.id} pin ${pin}`).not.toContain(device.pins[pin]?.direction);
  });

  test("a chip with supply at the corners carries no such warning, every other does", () => {
    const kinds = ["logic", "memory", "processor", "interface"];
    const fed = DEVICES.filter(
      (device) =>
        kinds.includes(device.kind) &&
        /^DIP-(1[4-9]|[2-9]\d)$/.test(device.package.name) &&
        pinsThatAre(device, "supply").length > 0 &&
        pinsThatAre(device, "ground").length > 0,
    );
    for (const device of fed) {
      const { pins } = device.package;
      const corners =
        pinsThatAre(device, "supply").includes(String(pins)) &&
        pinsThatAre(device, "ground").includes(String(pins / 2));
      const warned =
        device.cautions?.some((text) => text.startsWith("Supply is not at the corners")) ?? false;
      expect(warned, device.id).toBe(!corners);
    }
  });
});

describe("families", () => {
  test("ids and 74-series letters are each used once", () => {
    const ids = FAMILIES.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    const letters = FAMILIES.flatMap((family) => (family.letters === undefined ? [] : [family.letters]));
    expect(letters.sort()).toEqual(["", "ALS", "F", "HC", "HCT", "LS", "S"]);
  });

  test("every family of logic parts has a diode window", () => {
    const logic = new Set(DEVICES.filter(({ kind }) => kind === "logic").flatMap(({ families }) => families));
    for (const id of logic) expect(FAMILIES.find((family) => family.id === id)?.diode, id).toBeDefined();
  });

  test("every family is used by some device", () => {
    const used = new Set(DEVICES.flatMap(({ families }) => families));
    expect(FAMILIES.map(({ id }) => id).filter((id) => !used.has(id))).toEqual([]);
  });
});
