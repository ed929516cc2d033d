// Readings as a technician's meter shows them, in tables of the kinds that docs/file-formats.md describes.
import { readFileSync } from "node:fs";
import { parse } from "yaml";

export type Kind = "volts" | "ripple" | "drop" | "ohms" | "farads" | "esr" | "hertz" | "seconds";

/** A reading before the meter: SI units; infinite is overload. */
export interface Reading {
  readonly value: number;
  readonly kind: Kind;
}
export type Cell = string | Reading;

export interface Table {
  readonly heading: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
}

export interface Scene {
  readonly symptoms: readonly string[];
  readonly tables: readonly Table[];
}

const read =
  (kind: Kind) =>
  (value: number): Reading => ({ value, kind });
export const volts = read("volts");
export const ripple = read("ripple");
export const drop = read("drop");
export const ohms = read("ohms");
export const farads = read("farads");
export const esr = read("esr");
export const hertz = read("hertz");
export const seconds = read("seconds");

interface Range {
  /** Full scale, resolution and accuracy in SI units. */
  readonly most: number;
  readonly step: number;
  readonly share: number;
  readonly counts: number;
}

/** The bench meter of the demo's shop, range by range; what is read off a scope's screen is good to 4 %. */
export class BenchMeter {
  readonly #ranges: Readonly<Record<Kind, readonly Range[]>>;

  constructor(shop: URL) {
    const file = parse(readFileSync(shop, "utf8")) as {
      meters: {
        bench: {
          ranges: {
            function: string;
            range: string;
            resolution: string;
            accuracy: { reading: string; counts: number };
          }[];
        };
      };
    };
    const of = (name: string): Range[] =>
      file.meters.bench.ranges
        .filter((range) => range.function === name)
        .map(({ range, resolution, accuracy }) => ({
          most: plain(range),
          step: plain(resolution),
          share: Number.parseFloat(accuracy.reading) / 100,
          counts: accuracy.counts,
        }));
    const scope = (steps: readonly number[]): Range[] =>
      steps.map((step) => ({ most: 100 * step, step, share: 0.04, counts: 1 }));
    this.#ranges = {
      volts: of("dc-volts"),
      ripple: scope([1e-3, 1e-2, 1e-1, 1]),
      drop: of("diode"),
      ohms: of("ohms"),
      farads: of("capacitance"),
      esr: of("esr"),
      hertz: of("frequency"),
      seconds: scope([1e-3, 1e-2]),
    };
  }

  #range({ value, kind }: Reading): Range | undefined {
    return this.#ranges[kind].find(({ most }) => Math.abs(value) <= most);
  }

  /** Standard deviation of a reading: the meter's, and what boards of one type differ by. */
  spread(reading: Reading): number {
    const range = this.#range(reading);
    const size = Math.abs(reading.value);
    if (!range || size === Number.POSITIVE_INFINITY) return 0;
    const meter = (size * range.share + range.counts * range.step) / 2;
    return Math.hypot(meter, unlike(reading));
  }

  /** What is written down. @param normal of mean 0 and deviation 1 */
  show(reading: Reading, normal: () => number): string {
    const { kind } = reading;
    const value = reading.value + this.spread(reading) * normal();
    const range = this.#range({ value, kind });
    if (!range) return "OL";
    const shown = Math.round(value / range.step) * range.step;
    return written(kind, kind === "volts" ? shown : Math.max(0, shown), range.step);
  }
}

/** How far the same reading lies apart from board to board (common practice, no source). */
function unlike({ value, kind }: Reading): number {
  const size = Math.abs(value);
  if (kind === "drop") return size > 0.2 ? 0.007 : 0.02 * size;
  if (kind === "ohms") return 0.015 * size;
  if (kind === "farads" || kind === "esr") return 0.05 * size;
  if (kind === "volts") return 0.006 * size;
  return kind === "seconds" ? 0.03 * size : 0;
}

const UNITS: Readonly<Record<string, number>> = { u: 1e-6, n: 1e-9, m: 1e-3, k: 1e3, M: 1e6 };
const plain = (text: string): number => {
  const [number = "", unit = ""] = text.split(" ");
  return Number(number) * (/^[unmkM](?:V|F|Hz|ohm|A)$/.test(unit) ? UNITS[unit[0]!]! : 1);
};

/** With the decimals that the range shows, in the unit that a person would use. */
function written(kind: Kind, value: number, step: number): string {
  const size = Math.abs(value);
  const as = (unit: string, factor: number) =>
    `${(value / factor).toFixed(Math.max(0, Math.min(6, Math.ceil(-Math.log10(step / factor) - 1e-9))))} ${unit}`;
  if (kind === "volts") return size < 0.1 && size > 0 ? as("mV", 1e-3) : as("V", 1);
  if (kind === "ripple") return step < 0.01 ? as("mV", 1e-3) : as("V", 1);
  if (kind === "drop") return as("V", 1).replace(" V", "");
  if (kind === "farads") return size < 1e-6 ? as("nF", 1e-9) : as("uF", 1e-6);
  if (kind === "seconds") return as("ms", 1e-3);
  if (kind === "hertz")
    return size >= 1e6 ? as("MHz", 1e6) : size >= 1e3 ? as("kHz", 1e3) : `${value.toFixed(1)} Hz`;
  return size >= 1e6 ? as("Mohm", 1e6) : size >= 1e3 ? as("kohm", 1e3) : as("ohm", 1);
}

/** Whether no reading tells one scene from the other. */
export function alike(meter: BenchMeter, one: Scene, other: Scene): boolean {
  if (one.symptoms.join() !== other.symptoms.join() || one.tables.length !== other.tables.length)
    return false;
  return one.tables.every((table, t) => {
    const against = other.tables[t]!;
    return (
      table.heading === against.heading &&
      table.rows.length === against.rows.length &&
      table.rows.every((row, r) => row.every((cell, c) => cellsAlike(meter, cell, against.rows[r]![c]!)))
    );
  });
}

function cellsAlike(meter: BenchMeter, one: Cell, other: Cell): boolean {
  if (typeof one === "string" || typeof other === "string") return one === other;
  const [a, b] = [meter.spread(one), meter.spread(other)];
  if (a === 0 && b === 0) return meter.show(one, () => 0) === meter.show(other, () => 0);
  return Math.abs(one.value - other.value) <= 2.5 * Math.hypot(a, b);
}

/** The log as text. */
export function logOf(
  job: string,
  board: string,
  scene: Scene,
  meter: BenchMeter,
  normal: () => number,
): string {
  const lines = ["---", "mendlog: 1", `job: ${job}`, `board: ${board}`, "revision: B", "stage: diagnosing"];
  if (scene.symptoms.length > 0) lines.push(`symptoms: [${scene.symptoms.join(", ")}]`);
  lines.push("meter: bench", "---", "", `# ${job}`);
  for (const { heading, columns, rows } of scene.tables) {
    if (rows.length === 0) continue;
    const row = (cells: readonly string[]) => `| ${cells.join(" | ")} |`;
    lines.push("", `## ${heading}`, "", row(columns), row(columns.map(() => "---")));
    for (const cells of rows)
      lines.push(row(cells.map((cell) => (typeof cell === "string" ? cell : meter.show(cell, normal)))));
  }
  return `${lines.join("\n")}\n`;
}

/** Numbers of mean 0 and deviation 1, the same for the same text. */
export function normals(seed: string): () => number {
  let state = 0;
  for (const letter of seed) state = (Math.imul(state, 31) + letter.charCodeAt(0)) >>> 0;
  const uniform = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return ((state >>> 8) + 0.5) / 2 ** 24;
  };
  for (let i = 0; i < 5; i += 1) uniform();
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}
