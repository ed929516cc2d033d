// The demo's logs as plain text: every stage, every kind of table, and the rough edges they are there to show.
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { bigLog, type PlainBoard, type PlainDevice } from "../fixtures/big-log.js";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
const read = (path: string): string => readFileSync(ROOT + path, "utf8");

interface Log {
  file: string;
  text: string;
  front: Record<string, unknown>;
  /** Headings that have a table under them before the next heading. */
  headings: string[];
}

function readLog(file: string): Log {
  const text = read(`demo/logs/${file}`);
  const lines = text.split(/\r?\n/);
  const close = lines.indexOf("---", 1);
  const headings: string[] = [];
  let heading = "";
  for (const line of lines.slice(close + 1)) {
    if (/^#{1,6} /.test(line)) heading = line.replace(/^#+ /, "");
    else if (/^\|[-|: ]+\|$/.test(line)) headings.push(heading);
  }
  return {
    file,
    text,
    front: parse(lines.slice(1, close).join("\n")) as Record<string, unknown>,
    headings,
  };
}

const logs = readdirSync(`${ROOT}demo/logs`)
  .filter((name) => name.endsWith(".md"))
  .map(readLog);
const logOf = (job: string): Log => logs.find((log) => log.front.job === job)!;

const KINDS = [
  "Diode check",
  "Resistance to ground",
  "Resistance",
  "Capacitance and ESR",
  "Supply rails",
  "Logic levels",
  "Logic states",
  "Frequency",
  "Reset timing",
  "Transistor junctions",
  "Coil resistance",
  "Switch matrix",
  "Lamp matrix",
  "Display",
  "Memory test",
  "ROM check",
  "Settings",
  "Inspection",
  "Soak",
  "Work done",
  "Parts fitted",
  "Proving",
  "Continuity",
  "First power",
  "Swap test",
  "Coils and lamps fired",
  "Test program",
  "Chip test",
  "Heat, cold and tap test",
  "Play in a machine",
];

describe("the demo's logs", () => {
  it("stand at six stages, each job once", () => {
    const stages = new Set(logs.map((log) => log.front.stage));
    expect([...stages].sort()).toEqual([
      "diagnosing",
      "proving",
      "received",
      "repairing",
      "returned",
      "waiting-for-parts",
    ]);
    expect(new Set(logs.map((log) => log.front.job)).size).toBe(logs.length);
    for (const log of logs) expect(log.front.mendlog, log.file).toBe(1);
  });

  it.each(KINDS)("hold a table under %s", (kind) => {
    const pattern = new RegExp(`^${kind}(?! to)\\b`);
    expect(logs.flatMap((log) => log.headings).filter((heading) => pattern.test(heading))).not.toEqual([]);
  });

  it("say that they are invented", () => {
    for (const log of logs) expect(log.text, log.file).toMatch(/\binvented\b/i);
    expect(read("demo/README.md")).toMatch(/invented/);
    expect(read("demo/mendlog.shop.yaml")).toMatch(/invented/i);
  });

  it("keep CR LF in the one log that has it, an escaped pipe and short rows", () => {
    const received = logOf("2026-021");
    expect(received.text.split("\r\n").length).toBe(received.text.split("\n").length);
    expect(received.text).toContain("\\|");
    expect(received.text).toMatch(/^\| Loom {8}\|\r$/m);
    for (const log of logs) if (log !== received) expect(log.text, log.file).not.toContain("\r");
    expect(read("demo/.gitattributes")).toContain(`logs/${received.file} -text`);
  });

  it("hold the slips the README promises", () => {
    expect(logOf("2026-018").text).toMatch(/O\.58.*\n/);
    for (const slip of ["plusing", "| U13 | 15 ", "| U41 | 7 ", "-0.31", "557 ohm"]) {
      expect(logOf("2026-018").text).toContain(slip);
    }
    expect(logOf("2026-016").text).toMatch(/\d,\d+ k/);
    expect(logOf("2026-013").text).toContain("420 mV");
    expect(logOf("2025-087").headings).not.toContain("Proving");
    // A rule one cell short of its header is no table to anybody who reads Markdown.
    expect(logOf("2026-011").text).toMatch(/^\| Ref \| Pin \| Reading \| Note \|\n\|-+\|-+\|-+\|\n/m);
  });

  it("give the comeback the serial number of the job it comes back from", () => {
    const again = logOf("2026-021");
    const before = logOf(String(again.front["comeback-of"]));
    expect(again.front.serial).toBe(before.front.serial);
    expect(before.front.stage).toBe("returned");
  });
});

describe("the generated log", () => {
  const board = parse(read("demo/boards/regatta-controller.board.yaml")) as PlainBoard;
  const devices = readdirSync(`${ROOT}server/data/devices`, { recursive: true })
    .map(String)
    .filter((name) => name.endsWith(".device.yaml"))
    .map((name) => parse(read(`server/data/devices/${name}`)) as PlainDevice);
  const tables = (text: string): number => text.match(/^\|[-|]+\|$/gm)?.length ?? 0;

  it.each([100, 1000, 5000])("has the %d lines asked for and a table every 25 lines", (lines) => {
    const text = bigLog({ lines, board, devices });
    const count = text.split("\n").length;
    expect(count).toBeGreaterThanOrEqual(lines);
    expect(count).toBeLessThan(lines + 40);
    expect(tables(text)).toBeGreaterThanOrEqual(Math.floor(lines / 25));
  });

  it("is the same for the same seed and not for another", () => {
    const one = bigLog({ lines: 500, board, devices, seed: 7 });
    expect(bigLog({ lines: 500, board, devices, seed: 7 })).toBe(one);
    expect(bigLog({ lines: 500, board, devices, seed: 8 })).not.toBe(one);
  });

  it("has trouble in it, but only where asked", () => {
    const calm = bigLog({ lines: 2000, board, devices, trouble: 0 });
    expect(calm).not.toMatch(/\| (?:O\.|OL|1\.42)/);
    expect(bigLog({ lines: 2000, board, devices, trouble: 0.1 })).toMatch(/\| (?:O\.|OL|1\.42)/);
  });

  it("names only pins the board has, each place once under a heading", () => {
    const text = bigLog({ lines: 2000, board, devices, trouble: 0 });
    const pins = new Set(Object.values(board.nets).flat());
    for (const section of text.split(/^## /m).slice(1)) {
      const places = [...section.matchAll(/^\| (U\d+) +\| (\d+) +\|/gm)].map((m) => `${m[1]}.${m[2]}`);
      expect(new Set(places).size, section.slice(0, 40)).toBe(places.length);
      for (const place of places) expect(pins).toContain(place);
    }
  });
});
