// The shop's questions on DuckDB and on PostgreSQL, unchanged, against what the program says of the same logs itself.
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { ShopNumbers } from "../../server/src/review/numbers";
import { run } from "../cli/memory";
import { type Answer, duckdb, type Engine, postgres, postgresPrograms, type Value } from "./engines";
import { EDGES, madeShop } from "./shop";

const QUESTIONS = join(import.meta.dirname, "../../server/data/questions");
const REQUIRED = process.env.MENDLOG_REQUIRE_OUTSIDE === "1";

/** The file of each question, what the program has of it, and the columns that tell one row from another. */
const ANSWERS = {
  "limits-per-place": ["limits", ["board", "procedure", "measure", "load", "place", "revision"]],
  "drift-per-place": ["drift", ["board", "procedure", "measure", "load", "place"]],
  "years-per-place": ["years", ["board", "procedure", "measure", "load", "place", "inYear"]],
  "meters-per-place": ["meters", ["board", "procedure", "measure", "load", "place", "meter"]],
  "cures-per-symptom": ["cures", ["board", "symptom", "ref"]],
  "failures-per-part-and-year": ["failures", ["board", "part", "inYear"]],
  comebacks: ["comebacks", ["job", "earlier"]],
  "hours-per-kind": ["hours", ["board", "symptom"]],
} as const satisfies Readonly<Record<string, readonly [keyof ShopNumbers, readonly string[]]>>;

type Question = keyof typeof ANSWERS;
type Plain = Readonly<Record<string, Value>>;

const files = { ...madeShop(80).files, ...EDGES };
let folder: string;
let numbers: Readonly<Record<string, readonly Plain[]>>;
/** Those of the logs about one board. */
let numbersWithout: Readonly<Record<string, readonly Plain[]>>;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "mendlog-questions-"));
  const exported = await run(["export", "-o", "out"], files);
  expect(exported.err).toBe("");
  mkdirSync(join(folder, "out"));
  for (const [path, content] of exported.written)
    writeFileSync(
      join(folder, "out", path.replace(/^.*\//, "")),
      content,
      path.endsWith("parquet") ? "latin1" : "utf8",
    );
  numbers = JSON.parse((await run(["stats", "--format", "json"], files)).out);
  const single = Object.fromEntries(
    Object.entries(files).filter(([, text]) => !text.includes("\nboards:\n")),
  );
  numbersWithout = JSON.parse((await run(["stats", "--format", "json"], single)).out);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const camel = (name: string): string =>
  name.replace(/_([a-z])/g, (_, letter: string) => letter.toUpperCase());

/** In one order, with names as the program has them and without the one column that SQL has no function for. */
const tidy = (rows: Answer, keys: readonly string[]): Plain[] =>
  rows
    .map((row) => Object.fromEntries(Object.entries(row).map(([name, value]) => [camel(name), value])))
    .map(({ chance: _, ...row }) => row)
    .sort((a, b) => (keyOf(a, keys) < keyOf(b, keys) ? -1 : 1));

const keyOf = (row: Plain, keys: readonly string[]): string =>
  JSON.stringify(keys.map((key) => row[key] ?? null));

/** Numbers to nine digits, all else to the letter. */
function expectSame(found: readonly Plain[], wanted: readonly Plain[], keys: readonly string[]): void {
  expect(found.map((row) => keyOf(row, keys))).toEqual(wanted.map((row) => keyOf(row, keys)));
  for (const [at, want] of wanted.entries()) {
    const have = found[at]!;
    expect(Object.keys(have).sort()).toEqual(Object.keys(want).sort());
    for (const [name, value] of Object.entries(want)) {
      const other = have[name];
      if (typeof value === "number" && typeof other === "number")
        expect(Math.abs(other - value), `${keyOf(want, keys)} ${name}`).toBeLessThanOrEqual(
          1e-9 * Math.max(1, Math.abs(value)),
        );
      else expect(other, `${keyOf(want, keys)} ${name}`).toBe(value);
    }
  }
}

test("every question has a file and every file is a question", () => {
  expect(readdirSync(QUESTIONS).sort()).toEqual(
    Object.keys(ANSWERS)
      .map((name) => `${name}.sql`)
      .sort(),
  );
});

test("there is something to answer in each, with both of its kinds of row", () => {
  for (const [name] of Object.values(ANSWERS)) expect(numbers[name]!.length, name).toBeGreaterThan(2);
  expect(new Set(numbers.limits!.map(({ revision }) => revision))).toEqual(new Set([null, "A", "B"]));
  expect(numbers.limits!.some(({ leftOut }) => Number(leftOut) > 0)).toBe(true);
  expect(new Set(numbers.comebacks!.map(({ told }) => told))).toEqual(new Set(["named", "same board"]));
  expect(numbers.failures!.some(({ board }) => board === null)).toBe(true);
  expect(numbers.hours!.some(({ symptom }) => symptom === null)).toBe(true);
});

test("the edges count as the rules say", () => {
  const back = new Map(numbers.comebacks!.map(({ job, earlier, told }) => [job, `${earlier}, ${told}`]));
  expect(
    Object.fromEntries(
      ["Z-2", "Z-4", "Z-5", "Z-7", "ZA-1", "ZA-2", "ZA-4"].map((job) => [job, back.get(job)]),
    ),
  ).toEqual({
    "Z-2": undefined,
    "Z-4": "Z-3, same board",
    "Z-5": "Z-3, named",
    "Z-7": undefined,
    "ZA-1": "Z-9, same board",
    "ZA-2": undefined,
    "ZA-4": "ZA-3, named",
  });
  expect(numbers.cures!.filter(({ symptom }) => symptom === "smells")).toEqual([]);
  expect(numbers.failures!.some(({ inYear }) => inYear === null)).toBe(true);
});

test("a log about several boards counts board by board", () => {
  const back = (job: string): unknown[] =>
    numbers
      .comebacks!.filter((row) => row.job === job)
      .map(({ board, earlier, told }) => [board, earlier, told]);
  expect(back("ZB-2")).toEqual([
    ["regatta-tower", "ZB-1", "named"],
    ["example", "ZB-1", "named"],
  ]);
  expect(back("ZB-3")).toEqual([["example", "ZB-1", "named"]]);
  // None of the earlier log's boards is this one: the first stands for all.
  expect(back("ZB-4")).toEqual([["bell-box", "ZB-1", "named"]]);
  expect(back("ZB-5")).toEqual([["example", "Z-3", "named"]]);
  expect(back("ZB-6")).toEqual([["example", "ZB-2", "same board"]]);
  expect(back("ZB-7")).toEqual([["regatta-tower", "ZB-4", "named"]]);
  const hours = (board: string) => numbers.hours!.find((row) => row.board === board && row.symptom === null);
  const without = numbersWithout.hours!.find((row) => row.board === "example" && row.symptom === null);
  // What was noted before both counts to the first: two logs of 1.75 h and 1.5 h.
  expect(Number(hours("example")?.total) - Number(without?.total)).toBeCloseTo(3, 9);
  expect(numbers.failures!.filter(({ part, inYear }) => part === "U1" && inYear === 2023)).toMatchObject([
    { board: "regatta-tower", jobs: 5 },
  ]);
});

const programs = postgresPrograms();
const ENGINES: readonly (readonly [string, boolean, string, () => Promise<Engine>])[] = [
  [
    "DuckDB",
    await hasDuckdb(),
    "@duckdb/node-api has no build for this machine",
    () => duckdb([join(folder, "out")]),
  ],
  [
    "PostgreSQL",
    programs !== undefined,
    "install the Debian package postgresql",
    async () => postgres(programs!, folder, [join(folder, "out")]),
  ],
];

async function hasDuckdb(): Promise<boolean> {
  return import("@duckdb/node-api").then(
    () => true,
    () => false,
  );
}

describe.each(ENGINES)("%s", (name, isThere, missing, start) => {
  if (REQUIRED) test("is there where the tests require it", () => expect(isThere, missing).toBe(true));
  if (!isThere) {
    if (!REQUIRED) console.warn(`skipped: the shop's questions on ${name}: ${missing}`);
    test.skip(`${name} is missing: ${missing}`, () => {});
    return;
  }
  let engine: Engine | undefined;
  beforeAll(async () => {
    engine = await start();
  });
  afterAll(() => engine?.stop());

  test.each(Object.keys(ANSWERS) as Question[])("%s", async (question) => {
    const [field, keys] = ANSWERS[question];
    const answer = await engine!.ask(readFileSync(join(QUESTIONS, `${question}.sql`), "utf8"));
    expectSame(tidy(answer, keys), tidy(numbers[field]!, keys), keys);
  });
});
