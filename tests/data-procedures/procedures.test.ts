import { describe, expect, test } from "vitest";
import { readKind } from "../../server/build/library.js";
import { COLUMN_ROLES } from "../../server/src/knowledge/types";
import { parseUnit } from "../../server/src/quantity/units";

interface ColumnData {
  role: string;
  measure?: string;
  headers: string[];
  quantity?: string;
  unit?: string;
  signed?: boolean;
  required: boolean;
}

interface ProcedureData {
  "mendlog-procedure": number;
  id: string;
  title: string;
  aliases: string[];
  powered: string;
  columns: ColumnData[];
  wide?: { rows: string; columns: string; cells: string };
  meter?: { function: string; "test-voltage"?: string };
  purpose: string;
  setup: string[];
  steps: string[];
  interpret: string[];
  "cannot-tell": string[];
  cautions: string[];
  source: string;
}

const files = readKind("procedures") as { file: string; data: ProcedureData }[];
const byId = new Map(files.map(({ data }) => [data.id, data]));
const each = files.map(({ file, data }): [string, ProcedureData] => [file, data]);
const LISTS = ["setup", "steps", "interpret", "cannot-tell", "cautions"] as const;
const textsOf = (data: ProcedureData): string[] => [data.purpose, ...LISTS.flatMap((list) => data[list])];

/** Every kind of table a log may hold. */
const IDS = [
  "capacitance-esr",
  "chip-test",
  "coil-resistance",
  "continuity",
  "diode-check",
  "display",
  "first-power",
  "fixture-test",
  "frequency",
  "heat-and-tap",
  "inspection",
  "lamp-matrix",
  "logic-levels",
  "logic-states",
  "memory-test",
  "outputs-fired",
  "parts-fitted",
  "parts-on-board",
  "play-test",
  "proving",
  "reset-timing",
  "resistance",
  "resistance-to-ground",
  "rom-check",
  "settings",
  "soak",
  "supply-rails",
  "swap",
  "switch-matrix",
  "transistor-junctions",
  "work",
];

test("every kind of table has its procedure, in a file of its name", () => {
  expect([...byId.keys()].sort()).toEqual([...IDS].sort());
  for (const { file, data } of files) expect(file).toBe(`procedures/${data.id}.procedure.yaml`);
});

test("no heading is claimed by two procedures", () => {
  const owner = new Map<string, string>();
  for (const { data } of files) {
    for (const name of [data.title, ...data.aliases]) {
      const key = name.toLowerCase();
      expect(owner.get(key) ?? data.id, `"${name}"`).toBe(data.id);
      expect(owner.has(key), `"${name}" twice in ${data.id}`).toBe(false);
      owner.set(key, data.id);
    }
  }
});

test("no name swallows the words that qualify a heading", () => {
  // "Diode check after repair" must stay a diode check.
  for (const { data } of files) {
    for (const name of [data.title, ...data.aliases]) {
      expect(name).not.toMatch(/\b(?:before|after) repair\b|^(?:repair|unloaded|loaded|powered|unpowered)$/i);
    }
  }
});

describe.each(each)("%s", (_, data) => {
  test("says what it is", () => {
    expect(data["mendlog-procedure"]).toBe(1);
    expect(["unpowered", "powered", "either"]).toContain(data.powered);
    expect(data.aliases.length).toBeGreaterThanOrEqual(5);
    expect(["common practice, no source", "from memory"]).toContain(data.source);
  });

  test("has columns that can be told apart", () => {
    const headers = data.columns.flatMap((column) => column.headers.map((h) => h.toLowerCase()));
    expect(new Set(headers).size).toBe(headers.length);
    expect(headers.every((header) => header.trim() !== "" && header.length > 0)).toBe(true);
    const named = data.columns.map((column) => column.measure ?? column.role);
    expect(new Set(named).size).toBe(named.length);
    expect(data.columns.some((column) => column.required)).toBe(true);
    expect(data.columns.at(-1)?.role).toBe("note");
    for (const column of data.columns) expect(COLUMN_ROLES).toContain(column.role);
  });

  test("gives each reading a measure, a quantity and a unit of that quantity", () => {
    for (const column of data.columns) {
      if (column.role === "reading") {
        expect(column.measure).toMatch(/^[a-z]+$/);
        expect(column.quantity).toBeDefined();
      }
      if (column.quantity === undefined) expect(column.unit).toBeUndefined();
      else expect(parseUnit(column.unit ?? "")?.unit.dimension).toBe(column.quantity);
    }
  });

  test("has a wide form whose parts are its own columns", () => {
    if (!data.wide) return;
    const roles = data.columns.map((column) => column.role);
    expect(roles).toContain(data.wide.rows);
    expect(roles).toContain(data.wide.columns);
    expect(data.columns.map((column) => column.measure ?? column.role)).toContain(data.wide.cells);
  });

  test("is written in whole sentences, each list filled", () => {
    for (const list of LISTS) expect(data[list].length, list).toBeGreaterThanOrEqual(2);
    for (const text of textsOf(data)) {
      expect(text).toMatch(/^[A-Z0-9"].*\.$/s);
      expect(text).not.toMatch(/\s{2}|\n/);
    }
  });

  test("never calls a part good on a reading", () => {
    for (const text of textsOf(data)) expect(text).not.toMatch(/\b(?:good|pass|passes|passed)\b/i);
  });

  test("names a source beside every voltage, tolerance and time it quotes", () => {
    const figure = /\b\d+(?:\.\d+)?\s?(?:V|A|ohms?|percent|ms)\b/;
    const rails = /\+5 V/g;
    for (const text of textsOf(data)) {
      // A supply's name is no figure.
      if (figure.test(text.replace(rails, ""))) {
        expect(text).toMatch(/common practice, no source|from memory|data sheet/);
      }
    }
  });
});

describe("safety", () => {
  const cautions = (id: string): string => (byId.get(id)?.cautions ?? []).join(" ");

  test("everything done under power names the mains and defers to local codes", () => {
    for (const { data } of files) {
      if (data.powered !== "powered") continue;
      expect(cautions(data.id), data.id).toMatch(/mains/i);
      expect(cautions(data.id), data.id).toMatch(/local codes and licensed practice/i);
    }
  });

  test.each([
    "diode-check",
    "resistance-to-ground",
    "resistance",
    "capacitance-esr",
    "supply-rails",
    "transistor-junctions",
    "coil-resistance",
    "inspection",
    "work",
  ])("%s says to discharge the capacitors", (id) => expect(cautions(id)).toMatch(/discharge/i));

  test.each(["inspection", "memory-test", "work", "switch-matrix"])(
    "%s warns of leaked alkaline electrolyte",
    (id) => expect(cautions(id)).toMatch(/alkaline.*(?:gloves|eye protection)/is),
  );

  test.each(["display", "supply-rails", "proving"])("%s warns of the display supply", (id) =>
    expect(cautions(id)).toMatch(/display/i),
  );

  test.each(["work", "inspection", "transistor-junctions"])("%s warns of lead", (id) =>
    expect(cautions(id)).toMatch(/\blead\b/i),
  );
});

describe("what a technician needs to be told", () => {
  test("the diode check says where the leads go and where the corner is the wrong place", () => {
    const setup = byId.get("diode-check")?.setup.join(" ") ?? "";
    expect(setup).toMatch(/red lead on ground/i);
    for (const device of ["7473", "7475", "7476", "7483", "7490", "7492", "7493"])
      expect(setup).toContain(device);
  });

  test("an unpowered reading is said to disprove and never to prove", () => {
    expect(byId.get("diode-check")?.["cannot-tell"].join(" ")).toMatch(/disprove.*never proves/i);
  });
});
