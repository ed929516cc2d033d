// Limits from several shops' exports: the figures against the question on DuckDB over both, the file, and readings that are
// judged by it.
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { hoverLog } from "../../server/src/features/hover";
import { judgeBlock } from "../../server/src/judge";
import { loadLimits } from "../../server/src/knowledge/load-limits";
import type { PooledLimit } from "../../server/src/knowledge/types";
import { Service } from "../../server/src/service";
import { type Files, run } from "../cli/memory";
import { Disk } from "../support/disk";
import { duckdb } from "./engines";
import { madeShop } from "./shop";

const SHOPS = ["Canal", "Harbour"] as const;
let exports: Files;
let folder: string;
let pooled: readonly PooledLimit[];
let text: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "mendlog-pool-"));
  const files: Record<string, string> = {};
  for (const [at, shop] of SHOPS.entries()) {
    const { written } = await run(["export", "-o", shop, "--shop", shop], madeShop(30, 11 + at).files);
    mkdirSync(join(folder, shop));
    for (const [path, content] of written) {
      const name = path.replace("/w/", "");
      writeFileSync(join(folder, name), content, name.endsWith("parquet") ? "latin1" : "utf8");
      if (!name.endsWith("parquet")) files[name] = content;
    }
  }
  exports = files;
  const ran = await run(["pool", ...SHOPS, "-o", "pool.limits.yaml"], exports);
  expect({ code: ran.code, out: ran.out, err: ran.err }).toEqual({
    code: 0,
    out: "pool.limits.yaml\n",
    err: "",
  });
  text = ran.written.get("/w/pool.limits.yaml")!;
  const loaded = loadLimits(text);
  expect(loaded.problems).toEqual([]);
  pooled = loaded.value!.limits;
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("the file", () => {
  test("has what the question gives of both exports, to the digits that a meter has", async () => {
    const engine = await duckdb(SHOPS.map((shop) => join(folder, shop)));
    const sql = readFileSync(
      join(import.meta.dirname, "../../server/data/questions/limits-per-place.sql"),
      "utf8",
    );
    const answer = await engine.ask(sql);
    await engine.stop();
    expect(answer.length).toBeGreaterThan(8);
    expect(pooled).toHaveLength(answer.length);
    for (const row of answer) {
      const own = pooled.find(
        (each) =>
          each.board === row.board &&
          (each.revision ?? null) === row.revision &&
          each.procedure === row.procedure &&
          each.measure === row.measure &&
          (each.load ?? null) === row.load &&
          each.place === row.place,
      )!;
      expect(own.boards).toBe(row.boards);
      expect(own.unit).toBe(row.unit);
      for (const [have, want] of [
        [own.middle, row.centre],
        [own.low, row.low],
        [own.high, row.high],
      ] as const)
        if (want === null) expect(have).toBeUndefined();
        else expect(Math.abs(have! / Number(want) - 1)).toBeLessThan(1e-5);
    }
  });

  test("tells how many shops are behind each, and no more than there are", () => {
    expect(new Set(pooled.map(({ shops }) => shops))).toContain(2);
    for (const { shops, boards } of pooled) expect(shops).toBeLessThanOrEqual(Math.min(2, boards));
    expect(text).toContain('shops: ["Canal", "Harbour"]');
  });

  test("is written over with --force, and no other knowledge file is", async () => {
    const there = { ...exports, "pool.limits.yaml": "mine", "a.board.yaml": "mine" };
    const careful = await run(["pool", ...SHOPS, "-o", "pool.limits.yaml"], there);
    expect(careful.err).toContain("pool.limits.yaml is there already and stays as it is. Say --force");
    const forced = await run(["pool", ...SHOPS, "-o", "pool.limits.yaml", "--force"], there);
    expect(forced.written.get("/w/pool.limits.yaml")).toBe(text);
  });

  test.each([
    [["pool"], "Name the folders that mendlog export wrote."],
    [["pool", "none"], "none/export.json is not there: name a folder that mendlog export wrote."],
    [
      ["pool", "Canal", "Canal"],
      'Canal is an export of "Canal" as another one is, and its boards would count twice.',
    ],
    [
      ["pool", "Canal", "-o", "a.board.yaml"],
      '--output takes a name that ends in .limits.yaml, not "a.board.yaml".',
    ],
  ])("%j", async (args, message) => {
    const { code, err, written } = await run(args, exports);
    expect(code).toBe(2);
    expect(err).toContain(`mendlog: ${message}`);
    expect(written.size).toBe(0);
  });

  test.each([
    [
      "export.json",
      '{"format":3}',
      "Canal/export.json is of version 3 of the schema, and this program reads versions 1 to 2.",
    ],
    ["jobs.ndjson", '{"log_no":1}\n', "Canal/jobs.ndjson cannot be read: line 1 is no row of this table."],
    ["places.ndjson", "{}\n{", "Canal/places.ndjson cannot be read: line 1 is no row of this table."],
  ])("a bad %s is told with its line", async (name, content, message) => {
    const { code, err } = await run(["pool", "Canal"], { ...exports, [`Canal/${name}`]: content });
    expect({ code, err }).toEqual({ code: 2, err: `mendlog: ${message}\n` });
  });
});

const POOL = `mendlog-limits: 1
source: invented for this test
limits:
  - { board: tower, procedure: diode-check, measure: drop, place: U9.3, low: 0.55 V, middle: 0.58 V, high: 0.61 V, boards: 23, shops: 3 }
  - { board: tower, revision: B, procedure: diode-check, measure: drop, place: U9.3, low: 0.65 V, middle: 0.68 V, high: 0.71 V, boards: 7, shops: 2 }
  - { board: tower, procedure: supply-rails, measure: dc, load: loaded, place: rail +5V, low: 4.9 V, middle: 5 V, high: 5.1 V, boards: 9, shops: 2 }
`;

/** Verdict, reference and hover of the only reading of a log. */
async function judged(
  reading: string,
  { front = "board: tower", shop = "limits-from: pool.limits.yaml" } = {},
) {
  const uri = "mem:/ws/now.md";
  const log = `---\nmendlog: 1\n${front}\n---\n\n## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U9 | 3 | ${reading} |\n`;
  const service = new Service(
    new Disk({
      "mem:/ws/mendlog.shop.yaml": `mendlog-shop: 1\nname: Bench\n${shop}\n`,
      "mem:/ws/pool.limits.yaml": POOL,
      [uri]: log,
    }),
  );
  await service.load();
  service.open(uri, log);
  const view = service.view(uri)!;
  const [judgement] = view.doc.blocks.flatMap(({ block }) => [...judgeBlock(block, view.ctx).values()]);
  const hover =
    hoverLog(view, log.indexOf(reading, log.indexOf("| U9")) + 1, service.findings(uri))?.markdown ?? "";
  return {
    verdict: judgement?.verdict,
    reference: judgement?.reference,
    hover,
    findings: service.findings(uri),
  };
}

describe("a shop file that names it", () => {
  test.each([
    ["0.580", "within-limits"],
    ["0.630", "suspect"],
    ["0.700", "out-of-limits"],
    ["0.450", "out-of-limits"],
  ])("%s is %s", async (reading, verdict) => {
    const { reference, ...found } = await judged(reading);
    expect(found.verdict).toBe(verdict);
    expect(reference).toMatchObject({
      kind: "shops",
      boards: 23,
      shops: 3,
      low: 0.55,
      high: 0.61,
      unit: "V",
    });
  });

  test("says behind the finding and in the hover whose they are", async () => {
    const { hover, findings } = await judged("0.700");
    expect(findings.map(({ message }) => message).join("\n")).toContain(
      "23 boards of 3 shops read 0.55 V to 0.61 V",
    );
    expect(hover).toContain("23 returned boards of 3 shops: invented for this test");
  });

  test("has the log's own revision first", async () => {
    const { verdict, reference } = await judged("0.680", { front: "board: tower\nrevision: B" });
    expect(verdict).toBe("within-limits");
    expect(reference).toMatchObject({ boards: 7, shops: 2 });
  });

  test("and one that does not, or another board, is judged without", async () => {
    expect((await judged("0.700", { shop: "" })).reference).toBeUndefined();
    expect((await judged("0.700", { front: "board: other" })).reference).toBeUndefined();
  });
});

test("a log is judged anew when the file of pooled limits changes, open or closed", async () => {
  const uri = "mem:/ws/now.md";
  const log =
    "---\nmendlog: 1\nboard: tower\n---\n\n## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U9 | 3 | 0.580 |\n";
  const disk = new Disk({
    "mem:/ws/mendlog.shop.yaml": "mendlog-shop: 1\nname: Bench\nlimits-from: pool.limits.yaml\n",
    "mem:/ws/pool.limits.yaml": POOL,
    [uri]: log,
  });
  const service = new Service(disk);
  await service.load();
  service.open(uri, log);
  const codes = () => service.findings(uri).map(({ code }) => code);
  expect(codes()).not.toContain("outside-expected");
  const before = service.judgedBy(uri);
  disk.files.set("mem:/ws/pool.limits.yaml", POOL.replaceAll("0.5", "0.2").replaceAll("0.61", "0.31"));
  expect(await service.fileChanged("mem:/ws/pool.limits.yaml")).toBe(true);
  expect(service.judgedBy(uri)).not.toEqual(before);
  expect(codes().some((code) => code.startsWith("outside") || code.startsWith("diode"))).toBe(true);
});
