// A log's summary in little memory: what is asked of every job stays as it is, the rest is one text that is read when it is
// asked for. Ten thousand closed logs are remembered this way, and kept on disk.
import { defined } from "../base/defined";
import type { LogSummary, SummaryReading, SummaryTable } from "./summary";

type Rest = Pick<LogSummary, "work" | "fitted" | "tables" | "proving">;

/** Stands between two JSON texts: in none of them is it written as such. */
const BETWEEN = "\t";

/**
 * A summary as two texts. The first is JSON; the second, which may be made when it is asked for, is two of them, and the first
 * of these what the log states of its board: that alone is asked of every log of a board that no file describes.
 */
export interface PackedSummary {
  readonly head: string;
  readonly rest: string;
}

/** The summary as two texts: what is asked of every job, and apart from it the rest. */
export function packSummary(summary: LogSummary): PackedSummary {
  const { work, fitted, tables, proving, stated, ...head } = summary;
  const rest = { work, fitted, tables: tables.map(packTable), proving };
  return { head: JSON.stringify(head), rest: `${JSON.stringify(stated)}${BETWEEN}${JSON.stringify(rest)}` };
}

/**
 * The summary again. Equal to the one that was packed, field by field; what was packed away is a new object whenever it is
 * asked for, so hold on to it while working with it.
 * @throws SyntaxError where the texts are not those of a summary
 */
export function unpackSummary(packed: PackedSummary): LogSummary {
  const head = JSON.parse(packed.head) as object;
  return Object.defineProperties(head, { ...ASKED, [PACKED]: { value: packed } }) as LogSummary;
}

const PACKED = Symbol("the two texts of a summary");
type Unpacked = { readonly [PACKED]: PackedSummary };

/** What is read when it is asked for, by functions that all summaries share: ten thousand of them lie in memory. */
const ASKED: PropertyDescriptorMap = {
  work: asked((packed) => restOf(packed).work),
  fitted: asked((packed) => restOf(packed).fitted),
  tables: asked((packed) => restOf(packed).tables),
  proving: asked((packed) => restOf(packed).proving),
  stated: asked(({ rest }) => JSON.parse(rest.slice(0, rest.indexOf(BETWEEN))) as LogSummary["stated"]),
};

function asked(of: (packed: PackedSummary) => unknown): PropertyDescriptor {
  return {
    get(this: Unpacked) {
      return of(this[PACKED]);
    },
    enumerable: true,
    configurable: true,
  };
}

/** The last one asked for: a job's fields are mostly asked for one after another. */
let last: { readonly packed: PackedSummary; readonly rest: Rest } | undefined;

function restOf(packed: PackedSummary): Rest {
  if (last?.packed !== packed) {
    const { tables, ...rest } = JSON.parse(packed.rest.slice(packed.rest.indexOf(BETWEEN) + 1)) as Omit<
      Rest,
      "tables"
    > & { tables: PackedTable[] };
    last = { packed, rest: { ...rest, tables: tables.map(unpackTable) } };
  }
  return last.rest;
}

/** A reading without what it has in common with the one above; null for what only that one has. */
type Change = { readonly [K in keyof SummaryReading]?: SummaryReading[K] | null } & {
  /** Both ends, where they are the same. */
  readonly at?: number | null;
};
type PackedTable = Omit<SummaryTable, "readings"> & { readonly readings: readonly Change[] };

const KEYS = [
  "ref",
  "pin",
  "rail",
  "signal",
  "measure",
  "apart",
  "kind",
  "low",
  "high",
  "resolution",
  "unit",
] as const;
type Flat = Partial<Record<(typeof KEYS)[number] | "at", unknown>>;

function packTable({ readings, ...table }: SummaryTable): PackedTable {
  let above: Flat = {};
  return {
    ...table,
    readings: readings.map((reading) => {
      const flat = flatOf(reading);
      const change: Flat = {};
      for (const key of [...KEYS, "at"] as const) {
        if (flat[key] === above[key]) continue;
        change[key] = flat[key] === undefined ? null : flat[key];
      }
      above = flat;
      return change as Change;
    }),
  };
}

function flatOf({ low, high, ...reading }: SummaryReading): Flat {
  return low !== undefined && Object.is(low, high)
    ? { ...reading, at: low }
    : defined({ ...reading, low, high });
}

function unpackTable({ readings, ...table }: PackedTable): SummaryTable {
  const flat: Flat = {};
  return {
    ...table,
    readings: readings.map((change) => {
      for (const key of Object.keys(change) as (keyof Flat)[]) {
        const value = (change as Flat)[key];
        if (value === null) delete flat[key];
        else flat[key] = value;
      }
      const { at, low = at, high = at } = flat;
      const whole: Partial<Record<string, unknown>> = {};
      for (const key of KEYS) {
        const value = key === "low" ? low : key === "high" ? high : flat[key];
        if (value !== undefined) whole[key] = value;
      }
      return whole as unknown as SummaryReading;
    }),
  };
}
