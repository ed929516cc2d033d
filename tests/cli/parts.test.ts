import { describe, expect, test } from "vitest";
import { exampleLog } from "../../server/src/checks/example-board";
import { BOARD, type Files, run } from "./memory";

const SHOP = `mendlog-shop: 1
name: Test bench
currency: EUR
labour: { rate: "40.00", per: hour, actions: { replace: "0.25", socket: "0.1" } }
stock:
  - { part: 74LS04, quantity: 1, price: "0.55", location: drawer 1 }
  - { part: 10 uF 25 V, quantity: 9, price: "0.105", location: drawer 2 }
  - { part: 4k7, quantity: 1, price: "0.02", location: drawer 3 }
`;

const job = (number: string, more: string, body: string) => exampleLog(body, `job: ${number}\n${more}`);
const DRIFTED = "## Resistance\n\n| Ref | Reading |\n|---|---|\n| R12 | 12k |\n";
const EMPTY = '\n## Work\n\n| Ref | Action | Note |\n|---|---|---|\n| U14 | removed | burnt, "black" |\n';

const bench: Files = {
  "a.board.yaml": BOARD,
  "mendlog.shop.yaml": SHOP,
  "logs/1.md": job("2026-1", "received: 2026-01-02\nstage: diagnosing\n", DRIFTED),
  "logs/2.md": job("2026-2", "received: 2026-01-01\nstage: repairing\n", DRIFTED + EMPTY),
  "logs/3.md": job("2026-3", "stage: returned\n", EMPTY),
  "notes.md": "# Not a log\n",
};

/** Records of RFC 4180: fields may be quoted, quotes are doubled, lines end in CR LF. */
function readCsv(text: string): string[][] {
  const rows: string[][] = [];
  let at = 0;
  while (at < text.length) {
    const row: string[] = [];
    for (;;) {
      const field = /"((?:[^"]|"")*)"|([^",\r\n]*)/y;
      field.lastIndex = at;
      const match = field.exec(text);
      if (!match) throw new Error(`no field at ${at}`);
      row.push(match[1]?.replaceAll('""', '"') ?? match[2] ?? "");
      at = field.lastIndex;
      if (text[at] !== ",") break;
      at++;
    }
    if (text.slice(at, at + 2) !== "\r\n") throw new Error(`no line end at ${at}`);
    at += 2;
    rows.push(row);
  }
  return rows;
}

const records = (text: string): Record<string, string>[] => {
  const [header = [], ...rows] = readCsv(text);
  for (const row of rows) expect(row.length).toBe(header.length);
  return rows.map((row) => Object.fromEntries(row.map((cell, i) => [header[i] ?? "", cell])));
};

describe("mendlog parts", () => {
  test("lists one log for people", async () => {
    const { code, out, err } = await run(["parts", "logs/2.md"], bench);
    expect([code, err]).toEqual([0, ""]);
    expect(out).toMatchInlineSnapshot(`
      "logs/2.md, job 2026-2, Example board
       suggested
        1 x 4k7            R12  shelf: drawer 3  0.02 EUR  R12 failed: R12's resistance
        1 x 74LS04         U14  shelf: drawer 1  0.55 EUR  U14 removed, nothing fitted yet
        1 x DIP-14 socket  U14  order 1          no price  a socket for every replaced chip
        4k7: look for 4.7 kΩ (E3)
        74HCT04 instead of 74LS04: CMOS: every input must be driven, and the outputs sink only 4 to 6 mA (from memory), too little for several standard TTL loads.
       used up, with the price of one reel, bottle or tube
        desoldering braid  not listed    taking parts off; ventilate
        solder             not listed    new joints; ventilate, and wash hands: it may hold lead
        flux               not listed    new joints and braid; ventilate, its fumes irritate
        isopropyl alcohol  not listed    flux off the board; away from heat and flame
      "
    `);
  });

  test("as JSON, as CSV and for people says the same", async () => {
    const json = JSON.parse((await run(["parts", "--all", "--format", "json"], bench)).out);
    expect(json.format).toBe(1);
    const rows = records((await run(["parts", "--all", "--format", "csv"], bench)).out);
    const { out } = await run(["parts", "--all"], bench);
    type Line = { part: string; state: string; order: number; quantity: number; total?: string };
    type Used = { what: string; order: number; price?: string };
    const said = json.jobs.flatMap(
      (one: { path: string; suggested: Line[]; fitted: Line[]; consumables: Used[] }) => [
        ...[...one.suggested, ...one.fitted].map((line) => [
          one.path,
          line.state,
          line.part,
          String(line.order),
          line.total ?? "",
        ]),
        ...one.consumables.map(({ what, order }) => [one.path, "used up", what, String(order), ""]),
      ],
    );
    expect(rows.map(({ path, state, part, order, total }) => [path, state, part, order, total])).toEqual(
      said,
    );
    expect(said).toContainEqual(["logs/1.md", "suggested", "4k7", "0", "0.02"]);
    expect(said).toContainEqual(["logs/2.md", "used up", "flux", "0", ""]);
    expect(json.jobs).toHaveLength(3);
    for (const [path, state, part] of said) {
      const own = out.slice(out.indexOf(path)).split("\nlogs/")[0] ?? "";
      expect(own, `${path} ${part}`).toContain(state === "used up" ? `  ${part}` : ` x ${part}`);
    }
  });

  test("a quote is shown where the shop file asks for one", async () => {
    const shop = SHOP + "quote: { show: yes, tax: { title: VAT, rate: 20 % } }\n";
    const files = { ...bench, "mendlog.shop.yaml": shop };
    const [one] = JSON.parse((await run(["parts", "logs/1.md", "--format", "json"], files)).out).jobs;
    // A quarter of an hour and one resistor; tax on 10.02.
    expect([one.quote.net, one.quote.tax.amount, one.quote.total]).toEqual(["10.02", "2.00", "12.02"]);
    expect((await run(["parts", "logs/1.md"], files)).out).toMatch(/total +12\.02 EUR/);
    const off = { ...bench, "mendlog.shop.yaml": shop.replace("show: yes", "show: no") };
    expect(
      JSON.parse((await run(["parts", "logs/1.md", "--format", "json"], off)).out).jobs[0].quote,
    ).toBeUndefined();
  });

  test("a formula in a log stays text in a spreadsheet", async () => {
    const log = job(
      "1",
      "",
      '## Parts fitted\n\n| Part | Quantity |\n|---|---|\n| =cmd("x") | 2 |\n| a, b | 1 |\n',
    );
    const rows = records((await run(["parts", "x.md", "--format", "csv"], { ...bench, "x.md": log })).out);
    expect(rows.map(({ part, quantity }) => [part, quantity])).toEqual([
      ['\'=cmd("x")', "2"],
      ["a, b", "1"],
    ]);
  });

  test.each([
    [["parts"], "Say which log"],
    [["parts", "--all", "logs/1.md"], "either --all or paths"],
    [["order", "--all"], "always takes all open jobs"],
    [["parts", "--format", "sarif", "logs/1.md"], "human, json, csv"],
    [["parts", "logs/9.md"], "is not there"],
    [["parts", "notes.md"], "is no log"],
    [["parts", "logs/1.md", "--force"], "--force is for --output only"],
    [["ordr"], "Did you mean order?"],
  ])("%j: %s", async (args, says) => {
    const { code, err } = await run(args, bench);
    expect(code).toBe(2);
    expect(err).toContain(says);
  });

  test("a file that is there is written over only with --force", async () => {
    const stays = await run(["parts", "logs/1.md", "-o", "notes.md"], bench);
    expect([stays.code, stays.written.size]).toEqual([2, 0]);
    const forced = await run(["parts", "logs/1.md", "-o", "notes.md", "--force"], bench);
    expect([forced.code, forced.written.size]).toEqual([0, 1]);
    const fresh = await run(["order", "-o", "order.csv", "--format", "csv"], bench);
    expect([fresh.code, [...fresh.written.keys()]]).toEqual([0, ["/w/order.csv"]]);
  });
});

describe("mendlog order", () => {
  test("adds up the open jobs, the first received served first", async () => {
    const { code, out } = await run(["order", "--format", "json"], bench);
    expect(code).toBe(0);
    const [shop] = JSON.parse(out).shops;
    // The returned job is not served.
    expect(shop.jobs).toEqual(["2026-2", "2026-1"]);
    const line = (part: string) => shop.lines.find((one: { part: string }) => one.part === part);
    expect(line("4k7")).toMatchObject({ needed: 2, fromShelf: 1, order: 1, total: "0.02" });
    expect(line("4k7").jobs.map((one: { job: string }) => one.job)).toEqual(["2026-2", "2026-1"]);
    expect(line("74LS04")).toMatchObject({ needed: 1, fromShelf: 1, order: 0 });
    expect(shop.unpriced).toEqual(["DIP-14 socket"]);
    expect(shop.total).toBe("0.02");
  });

  test("for people and as CSV", async () => {
    const { out } = await run(["order"], bench);
    expect(out).toMatchInlineSnapshot(`
      ".: 2 open jobs (2026-2, 2026-1)
       to order
        1 x 4k7            0.02 EUR  for 2026-2 R12; 2026-1 R12
        1 x DIP-14 socket  no price  for 2026-2 U14
        together 0.02 EUR, without DIP-14 socket
       from the shelf
        1 x 4k7     drawer 3  for 2026-2 R12; 2026-1 R12
        1 x 74LS04  drawer 1  for 2026-2 U14
      "
    `);
    const rows = records((await run(["order", "--format", "csv"], bench)).out);
    expect(rows.find(({ part }) => part === "4k7")).toMatchObject({
      needed: "2",
      order: "1",
      currency: "EUR",
    });
  });
});
