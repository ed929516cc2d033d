// What `mendlog export` writes, by itself: who the owner is stays here, every row fits the schema, nothing is written over.
import { describe, expect, test } from "vitest";
import { CHECKS } from "../../server/src/checks/registry";
import {
  EXPORT_TABLES,
  EXPORT_VERSION,
  exportedColumns,
  TABLE_NAMES,
} from "../../server/src/report/export/schema";
import { run } from "../cli/memory";
import { EDGES, madeShop } from "./shop";

const { files, secrets } = madeShop(6);
type Line = Readonly<Record<string, string | number | boolean | null>>;

const linesOf = (written: ReadonlyMap<string, string>, table: string): Line[] =>
  (written.get(`/w/out/${table}.ndjson`) ?? "")
    .split("\n")
    .filter((line) => line !== "")
    .map((line) => JSON.parse(line));

const TYPES = {
  text: "string",
  date: "string",
  integer: "number",
  number: "number",
  boolean: "boolean",
} as const;

describe("an export", () => {
  test("is each table as lines and as Parquet, the tables' SQL and what was written", async () => {
    const { code, out, err, written } = await run(["export", "-o", "out"], files);
    expect({ code, err }).toEqual({ code: 0, err: "" });
    const names = TABLE_NAMES.flatMap((table) => [`${table}.ndjson`, `${table}.parquet`]);
    expect([...written.keys()]).toEqual(
      [...names, "tables.sql", "export.json"].map((name) => `/w/out/${name}`),
    );
    expect(out.split("\n").slice(0, -1)).toEqual([...written.keys()].map((path) => path.replace("/w/", "")));
    const manifest = JSON.parse(written.get("/w/out/export.json")!);
    expect(manifest).toMatchObject({ format: EXPORT_VERSION, shop: "Bench by the canal", withOwner: false });
    for (const table of TABLE_NAMES) {
      expect(manifest.tables[table].rows).toBe(linesOf(written, table).length);
      expect(manifest.tables[table].rows, table).toBeGreaterThan(0);
      const parquet = written.get(`/w/out/${table}.parquet`)!;
      expect([parquet.slice(0, 4), parquet.slice(-4)]).toEqual(["PAR1", "PAR1"]);
    }
  });

  test.each([false, true])("has rows that fit the schema (owner %s)", async (withOwner) => {
    const args = ["export", "-o", "out", "--format", "ndjson", ...(withOwner ? ["--with-owner"] : [])];
    const { written } = await run(args, files);
    for (const table of TABLE_NAMES) {
      const columns = exportedColumns(table, withOwner);
      expect(written.get("/w/out/tables.sql")).toContain(`CREATE TABLE ${table} (\n  ${columns[0]!.name} `);
      for (const line of linesOf(written, table)) {
        expect(Object.keys(line)).toEqual(columns.map(({ name }) => name));
        for (const { name, type, required } of columns) {
          const cell = line[name]!;
          if (required) expect(cell, `${table}.${name}`).not.toBeNull();
          if (cell === null) continue;
          expect(typeof cell, `${table}.${name}`).toBe(TYPES[type]);
          if (type === "integer") expect(Number.isInteger(cell)).toBe(true);
          if (type === "date") expect(cell).toMatch(/^\d{4}-\d{2}-\d{2}$/);
        }
      }
    }
  });

  test("has a row for each board of a log about several, and each board's own below it", async () => {
    const { "boards/example.board.yaml": board = "" } = files;
    const { written } = await run(["export", "-o", "out", "--format", "ndjson"], {
      "boards/example.board.yaml": board,
      "logs/ZA-4.md": EDGES["logs/ZA-4.md"]!,
      "logs/ZB-1.md": EDGES["logs/ZB-1.md"]!,
    });
    const told = (table: string, ...names: string[]): unknown[] =>
      linesOf(written, table).map((line) => names.map((name) => line[name]));
    expect(told("jobs", "log_no", "file_no", "unit", "board", "revision", "hours")).toEqual([
      [1, 1, 1, "example", null, null],
      [2, 2, 2, "regatta-tower", null, 1.75],
      [3, 2, 3, "example", "B", 1.5],
    ]);
    expect(told("readings", "log_no", "reading", "ref", "pin")).toEqual([
      [2, 1, "U1", "1"],
      [2, 2, "U1", "99"],
      [2, 3, "U15", "3"],
      [3, 1, "U14", "1"],
      [3, 2, "U14", "99"],
      [3, 3, "U15", "3"],
    ]);
    expect(told("work", "log_no", "ref")).toEqual([
      [1, "U20"],
      [2, "U1"],
      [3, "U14"],
    ]);
    expect(told("places", "log_no", "place")).toEqual([
      [2, "U15.3"],
      [3, "U15.3"],
    ]);
    const lines = EDGES["logs/ZB-1.md"]!.split("\n");
    const other = lines.indexOf("## Other") + 1;
    const found = linesOf(written, "findings").filter(({ log_no }) => log_no !== 1);
    expect(new Set(found.map(({ log_no }) => log_no))).toEqual(new Set([2, 3]));
    for (const { log_no, line } of found) expect(Number(line) > other).toBe(log_no === 3);
  });

  test("says nothing of the owner, in no file", async () => {
    const { written } = await run(["export", "-o", "out"], files);
    for (const [path, content] of written)
      for (const secret of secrets) expect(content.includes(secret), `${path}: ${secret}`).toBe(false);
  });

  test("has the owner where it is asked for, and what is personal in no other column", async () => {
    const { written } = await run(["export", "-o", "out", "--with-owner"], files);
    const [job] = linesOf(written, "jobs");
    expect(job).toMatchObject({
      owner: "Zacharias Quill",
      contact: "0555 010 020, quill@example.org, never before noon",
      return_address: "7 Lantern Yard",
      complaint: "It weeps at night",
      serial: "SN0001",
      title: "Board of Zacharias Quill",
    });
    const personal = new Set<string>(
      TABLE_NAMES.flatMap((table) =>
        exportedColumns(table, true).flatMap(({ name, personal: is }) => (is ? [name] : [])),
      ),
    );
    for (const table of TABLE_NAMES)
      for (const line of linesOf(written, table))
        for (const [name, cell] of Object.entries(line))
          if (!personal.has(name))
            for (const secret of secrets)
              expect(String(cell).includes(secret), `${table}.${name}`).toBe(false);
  });

  test("has what was read, judged, done and found", async () => {
    const { written } = await run(["export", "-o", "out", "--format", "ndjson"], files);
    const of = (table: string) => linesOf(written, table).filter(({ log_no }) => log_no === 1);
    expect(of("readings")).toContainEqual(
      expect.objectContaining({
        procedure: "diode-check",
        ref: "U41",
        pin: "1",
        kind: "value",
        low: 0.6,
        high: 0.6,
        unit: "V",
        resolution: 0.1,
        repairs: 0,
      }),
    );
    expect(of("readings").filter(({ kind }) => kind === "state")).toHaveLength(1);
    expect(of("verdicts")).toHaveLength(of("readings").length);
    expect(of("work")).toContainEqual(
      expect.objectContaining({ ref: "U34", state: "planned", replaced: false, part: "2716" }),
    );
    expect(of("work")).toContainEqual(
      expect.objectContaining({ ref: "J3", action: "reflow", state: "done" }),
    );
    expect(of("parts")).toEqual([expect.objectContaining({ part: "DIP-14 SOCKET" })]);
    expect(of("findings").map(({ code }) => code)).toContain("unknown-designator");
    const codes = new Set<string>(CHECKS.map(({ code }) => code));
    for (const { code } of of("findings")) expect(codes.has(String(code))).toBe(true);
  });

  test("tells the same board by one number, without its serial number", async () => {
    const { files: more } = madeShop(60);
    const { written } = await run(["export", "-o", "out", "--format", "ndjson", "--with-owner"], more);
    const units = new Map<string, Set<unknown>>();
    for (const { unit, board, serial } of linesOf(written, "jobs")) {
      const key = `${board} ${serial}`;
      units.set(key, new Set([...(units.get(key) ?? []), unit]));
    }
    expect([...units.values()].every(({ size }) => size === 1)).toBe(true);
    expect(units.size).toBe(new Set([...units.values()].map((of) => [...of][0])).size);
    expect(units.size).toBeLessThan(60);
  });

  test("goes by the name that is given for the shop", async () => {
    const { written } = await run(["export", "-o", "out", "--shop", "Other bench"], files);
    expect(linesOf(written, "jobs")[0]).toMatchObject({ shop: "Other bench" });
  });
});

describe("what goes wrong is said, and nothing is lost", () => {
  test("a file that is there stays", async () => {
    const there = { ...files, "out/jobs.ndjson": "mine" };
    const { code, err, written } = await run(["export", "-o", "out"], there);
    expect({ code, err }).toEqual({
      code: 2,
      err: "mendlog: out/jobs.ndjson is there already and stays as it is. Say --force to write over it.\n",
    });
    expect(written.size).toBe(0);
    expect(
      (await run(["export", "-o", "out", "--force"], there)).written.get("/w/out/jobs.ndjson"),
    ).toContain("J-1001");
  });

  test.each([
    [["export"], "Say where to: --output OUTDIR, a folder for the files. See mendlog --help.\n"],
    [["export", "a", "b", "-o", "out"], "An export is of one folder, not of 2. See mendlog --help.\n"],
    [["export", "none", "-o", "out"], "none is not there.\n"],
    [
      ["export", "boards", "-o", "out"],
      'boards has no log: logs are Markdown files with "mendlog: 1" in the front matter.\n',
    ],
    [["export", "-o", "mendlog.shop.yaml"], "mendlog.shop.yaml is refused: it is not a folder.\n"],
    [["export", "-o", "no/out"], "no/out cannot be written: its folder is not there.\n"],
    [
      ["export", "-o", "out", "--format", "csv"],
      '--format takes all, ndjson, parquet, not "csv". See mendlog --help.\n',
    ],
  ])("%j", async (args, message) => {
    const { code, err, written } = await run(args, files);
    expect({ code, err }).toEqual({ code: 2, err: `mendlog: ${message}` });
    expect(written.size).toBe(0);
  });

  test("a package without the writer of Parquet says what can be done", async () => {
    const { code, err } = await run(["export", "-o", "out"], files, { parquet: false });
    expect(code).toBe(2);
    expect(err).toContain("the file parquet.cjs is not beside the program. Say --format ndjson");
    expect((await run(["export", "-o", "out", "--format", "ndjson"], files, { parquet: false })).code).toBe(
      0,
    );
  });
});

test("no column's name is a reserved word of SQL", () => {
  // From SQL:2016's list, from memory: those that a table of jobs and readings could be tempted by.
  const reserved = new Set(
    "action all and any as at case check column count cube current date day end exists from full group having hour in into is join left like log lower match max method min minute mod month natural new no not null of old on only or order out over parameter position power range rank reference references release result return right row rows second select set similar some start sum system table then time timestamp to trigger true union unique unknown update upper user using value values when where window with within year".split(
      " ",
    ),
  );
  // Not reserved by the standard, though its neighbours are.
  for (const free of ["action", "reference", "power", "result"]) reserved.delete(free);
  for (const table of TABLE_NAMES)
    for (const { name } of EXPORT_TABLES[table].columns)
      expect(reserved.has(name), `${table}.${name}`).toBe(false);
});
