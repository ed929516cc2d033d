// Holds the demo's files together without any of the program's own loaders: what the boards say is compared
// with the device library's data, so that a wrong pin in either shows here.
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
const read = (path: string): string => readFileSync(ROOT + path, "utf8");

interface RawBoard {
  id: string;
  revisions: Record<string, string>;
  grounds: string[];
  rails: Record<string, { net?: string; nominal: string }>;
  circuits: Record<string, unknown>;
  parts: Record<string, { device?: unknown; value?: unknown; circuit?: string; fits?: unknown[] }>;
  nets: Record<string, string[]>;
  matrices: Record<
    string,
    { rows: string[]; columns: string[]; cells: (string | null)[][]; reserved?: [number, number][] }
  >;
  "switch-banks": Record<
    string,
    { settings: { switches: number[]; meaning: Record<string, unknown>; title: string }[] }
  >;
  "rom-sets": Record<string, { images: { ref: string; crc32: unknown; sha1: unknown; sum16: unknown }[] }>;
  expected: { procedure: string; ref?: string; rail?: string; pin?: number; source?: string }[];
  symptoms: Record<string, { title: string; circuits: string[] }>;
  modifications: Record<string, { requires: string[]; conflicts: string[]; revisions: string[] }>;
  proving: { id: string; procedure: string; matrix?: string }[];
}

interface RawDevice {
  id: unknown;
  aliases?: unknown[];
  package: { pins: number };
  pins: Record<string, { name: string; direction: string }>;
}

const BOARDS = ["regatta-controller", "regatta-driver"];
const boards = new Map(BOARDS.map((id) => [id, parse(read(`demo/boards/${id}.board.yaml`)) as RawBoard]));

const dataFiles = (folder: string, ending: string): string[] =>
  readdirSync(`${ROOT}server/data/${folder}`, { recursive: true })
    .map(String)
    .filter((name) => name.endsWith(ending))
    .map((name) => read(`server/data/${folder}/${name}`));

const devices = new Map<string, RawDevice>();
for (const text of dataFiles("devices", ".device.yaml")) {
  const device = parse(text) as RawDevice;
  for (const name of [device.id, ...(device.aliases ?? [])]) devices.set(String(name).toUpperCase(), device);
}

/** "74LS04" is filed under 7404 unless the library has it by its own name. */
function deviceOf(name: string): RawDevice | undefined {
  const typed = name.toUpperCase();
  return devices.get(typed) ?? devices.get(typed.replace(/^(74)[A-Z]+(\d+)$/, "$1$2"));
}

const procedures = new Set(
  dataFiles("procedures", ".procedure.yaml").map((text) => (parse(text) as { id: string }).id),
);

const splitPin = (pin: string): [string, string] => {
  const at = pin.lastIndexOf(".");
  return [pin.slice(0, at), pin.slice(at + 1)];
};

const RESISTOR_LIKE = /^(R|C|Y|F|BT|LED|TP)\d/;
/** Pins of the parts whose package the board file gives only in words. */
const PIN_COUNT: Record<string, number> = { RN2: 16, RV1: 3, SW1: 16, SW2: 16, SW3: 2, K1: 4 };

describe.each(BOARDS)("%s", (id) => {
  const board = boards.get(id)!;
  const netOf = new Map(Object.entries(board.nets).flatMap(([net, pins]) => pins.map((pin) => [pin, net])));

  it("has 30 parts or more, each in a known circuit and on some net", () => {
    expect(board.id).toBe(id);
    expect(Object.keys(board.parts).length).toBeGreaterThanOrEqual(30);
    const wired = new Set([...netOf.keys()].map((pin) => splitPin(pin)[0]));
    for (const [ref, part] of Object.entries(board.parts)) {
      expect(Object.keys(board.circuits), ref).toContain(part.circuit);
      expect(wired, ref).toContain(ref);
      expect(part.device ?? part.value, ref).toBeTypeOf("string");
      for (const fit of part.fits ?? []) expect(fit, ref).toBeTypeOf("string");
    }
  });

  it("puts each pin on one net and names only its own parts", () => {
    const pins = Object.values(board.nets).flat();
    expect(pins.length - new Set(pins).size).toBe(0);
    for (const pin of pins) expect(Object.keys(board.parts), pin).toContain(splitPin(pin)[0]);
  });

  it("uses only pins the library's devices have, and few devices it does not know", () => {
    const unknown = new Set<string>();
    const wrong: string[] = [];
    for (const pin of netOf.keys()) {
      const [ref, number] = splitPin(pin);
      const name = board.parts[ref]?.device;
      if (name === undefined) continue;
      const device = deviceOf(String(name));
      if (!device) unknown.add(String(name));
      else if (!device.pins[number]) wrong.push(`${pin} (${name})`);
    }
    expect(wrong).toEqual([]);
    expect([...unknown]).toEqual([]);
  });

  it("gives the other parts no pin beyond what they have", () => {
    const wrong: string[] = [];
    for (const pin of netOf.keys()) {
      const [ref, number] = splitPin(pin);
      const part = board.parts[ref];
      if (part?.device !== undefined) continue;
      const way = /^(\d+)-way header/.exec(String(part?.value))?.[1];
      const size =
        PIN_COUNT[ref] ??
        (way ? Number(way) : undefined) ??
        (/SIP-9/.test(String(part?.value)) ? 9 : undefined) ??
        (RESISTOR_LIKE.test(ref) ? 2 : 0);
      if (!(Number(number) >= 1 && Number(number) <= size)) wrong.push(pin);
    }
    expect(wrong).toEqual([]);
  });

  it("wires every supply and ground pin of its chips to a supply or ground net", () => {
    // Regulators and the memory kept alive at power-off have supplies of their own.
    const own: Record<string, string> = {
      "U9.22": "VMEM",
      "U24.6": "V12",
      "VR1.1": "VRAW5",
      "VR2.1": "VRAWP",
      "VR3.2": "VRAWN",
      "U1.35": "VCC",
    };
    const wrong: string[] = [];
    let looked = 0;
    for (const [ref, part] of Object.entries(board.parts)) {
      const device = part.device === undefined ? undefined : deviceOf(String(part.device));
      for (const [number, pin] of Object.entries(device?.pins ?? {})) {
        const want =
          pin.direction === "ground"
            ? board.grounds[0]
            : pin.direction === "supply"
              ? (own[`${ref}.${number}`] ?? "VCC")
              : undefined;
        if (want === undefined) continue;
        looked += 1;
        const got = netOf.get(`${ref}.${number}`);
        if (got !== want) wrong.push(`${ref}.${number} ${pin.name}: ${got} instead of ${want}`);
      }
    }
    expect(wrong).toEqual([]);
    expect(looked).toBeGreaterThanOrEqual(8);
  });

  it("leaves no input of a chip in the air and joins no two outputs that both drive", () => {
    const hanging: string[] = [];
    const fighting: string[] = [];
    const drivers = new Map<string, string[]>();
    for (const [ref, part] of Object.entries(board.parts)) {
      const device = part.device === undefined ? undefined : deviceOf(String(part.device));
      if (!device || !/^U/.test(ref)) continue;
      for (const [number, pin] of Object.entries(device.pins)) {
        const net = netOf.get(`${ref}.${number}`);
        if (pin.direction === "input" && !net) hanging.push(`${ref}.${number} ${pin.name}`);
        if (pin.direction === "output" && net) drivers.set(net, [...(drivers.get(net) ?? []), ref]);
      }
    }
    for (const [net, refs] of drivers) {
      // Two outputs of one chip may be joined on purpose; two chips may not drive one net.
      if (new Set(refs).size > 1) fighting.push(`${net}: ${refs.join(", ")}`);
    }
    // The control inputs of a 6821 port that is not used stand open, as they may.
    expect(hanging.filter((pin) => !/^U1[01]\.(18|40) /.test(pin))).toEqual([]);
    expect(fighting).toEqual([]);
  });

  it("points its matrices, rails, readings, symptoms and lists at what exists", () => {
    for (const matrix of Object.values(board.matrices)) {
      expect(matrix.rows).toHaveLength(8);
      expect(matrix.columns).toHaveLength(8);
      for (const net of [...matrix.rows, ...matrix.columns]) expect(Object.keys(board.nets)).toContain(net);
      for (const row of matrix.cells) expect(row).toHaveLength(8);
    }
    for (const rail of Object.values(board.rails)) expect(Object.keys(board.nets)).toContain(rail.net);
    expect(board.expected.length).toBeGreaterThanOrEqual(20);
    for (const entry of board.expected) {
      expect(procedures).toContain(entry.procedure);
      expect(entry.source).toBeTypeOf("string");
      if (entry.ref !== undefined) expect(Object.keys(board.parts)).toContain(entry.ref);
      else expect(Object.keys(board.rails)).toContain(entry.rail);
      if (entry.pin !== undefined) expect([...netOf.keys()]).toContain(`${entry.ref}.${entry.pin}`);
    }
    expect(Object.keys(board.symptoms).length).toBeGreaterThanOrEqual(8);
    for (const symptom of Object.values(board.symptoms)) {
      for (const circuit of symptom.circuits) expect(Object.keys(board.circuits)).toContain(circuit);
    }
    const mods = Object.keys(board.modifications);
    expect(mods.length).toBeGreaterThanOrEqual(2);
    for (const mod of Object.values(board.modifications)) {
      for (const other of [...mod.requires, ...mod.conflicts]) expect(mods).toContain(other);
      for (const revision of mod.revisions) expect(Object.keys(board.revisions)).toContain(revision);
    }
    for (const item of board.proving) {
      expect(procedures).toContain(item.procedure);
      if (item.matrix !== undefined) expect(Object.keys(board.matrices)).toContain(item.matrix);
    }
  });
});

describe("regatta-controller's own tables", () => {
  const board = boards.get("regatta-controller")!;

  it("names the crossings, with one reserved", () => {
    const switches = board.matrices.switches!;
    const names = switches.cells.flat().filter((cell) => cell !== null);
    expect(new Set(names).size).toBe(names.length);
    expect(switches.reserved).toEqual([[8, 8]]);
  });

  it("gives every pattern of every setting a meaning, each switch once", () => {
    for (const bank of Object.values(board["switch-banks"])) {
      const used = bank.settings.flatMap((setting) => setting.switches);
      expect([...used].sort()).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
      for (const { switches, meaning, title } of bank.settings) {
        expect(Object.keys(meaning), title).toHaveLength(2 ** switches.length);
        for (const [pattern, text] of Object.entries(meaning)) {
          expect(pattern).toMatch(/^[01]+$/);
          expect(pattern).toHaveLength(switches.length);
          expect(text, title).toBeTypeOf("string");
        }
      }
    }
  });

  it("keeps two ROM sets whose figures are text and differ", () => {
    const images = Object.values(board["rom-sets"]).flatMap((set) => set.images);
    expect(images).toHaveLength(4);
    for (const image of images) {
      expect(image.sum16).toMatch(/^[0-9a-f]{4}$/);
      expect(image.crc32).toMatch(/^[0-9a-f]{8}$/);
      expect(image.sha1).toMatch(/^[0-9a-f]{40}$/);
    }
    expect(new Set(images.map((image) => image.crc32)).size).toBe(4);
  });
});
