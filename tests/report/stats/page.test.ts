// The page of a shop's numbers: no parse error by the HTML standard, html-validate's standard rules with none off, every
// figure of the data, and nobody's name.
import { HtmlValidate } from "html-validate";
import { parse } from "parse5";
import { beforeAll, describe, expect, test } from "vitest";
import { formatValue } from "../../../server/src/quantity/format-value";
import type { ShopNumbers } from "../../../server/src/review/numbers";
import { run } from "../../cli/memory";
import { madeShop } from "../../export/shop";

const { files, secrets } = madeShop(90);
let page: string;
let numbers: ShopNumbers;
beforeAll(async () => {
  const html = await run(["stats"], files);
  expect({ code: html.code, err: html.err }).toEqual({ code: 0, err: "" });
  page = html.out;
  numbers = JSON.parse((await run(["stats", "--format", "json"], files)).out);
});

const problemsOf = async (text: string): Promise<string[]> => {
  const errors: string[] = [];
  parse(text, { onParseError: ({ code, startLine }) => errors.push(`${startLine} ${code}`) });
  const { results } = await new HtmlValidate({ extends: ["html-validate:standard"] }).validateString(text);
  for (const { messages } of results)
    for (const { ruleId, message, line } of messages) errors.push(`${line} ${ruleId}: ${message}`);
  return errors;
};

/** The rows of the table that follows a heading, cell by cell, without marks. */
function tableAfter(heading: string): string[][] {
  const after = page.slice(page.indexOf(`<h3>${heading}</h3>`));
  const body = /<tbody>([\s\S]*?)<\/tbody>/.exec(after)?.[1] ?? "";
  return [...body.matchAll(/<tr>([\s\S]*?)<\/tr>/g)].map(([, row = ""]) =>
    [...row.matchAll(/<t[hd][^>]*>([\s\S]*?)<\/t[hd]>/g)].map(([, text = ""]) =>
      text.replace(/<[^>]+>/g, ""),
    ),
  );
}

describe("the page", () => {
  test("is valid, whole and fetches nothing", async () => {
    expect(await problemsOf(page)).toEqual([]);
    expect(page.match(/<h1>/g)).toHaveLength(1);
    expect(page).not.toMatch(/<script|<link|src=|href=|url\(/);
    expect(page).toContain("default-src 'none'");
  });

  test("names nobody", () => {
    for (const secret of secrets) expect(page.includes(secret), secret).toBe(false);
  });

  test("has the limits with the boards behind them", () => {
    const own = numbers.limits.filter(({ board }) => board === "example");
    expect(own.length).toBeGreaterThan(5);
    const rows = tableAfter("What it reads");
    expect(rows).toHaveLength(own.length);
    for (const [at, { place, revision, boards, median, unit }] of own.entries())
      expect([rows[at]![0], rows[at]![2], rows[at]![3], rows[at]![4]]).toEqual([
        place,
        revision ?? "all",
        String(boards),
        formatValue(median, unit),
      ]);
  });

  test("shows the drift that was put in, and no other", () => {
    const clear = numbers.drift.filter(({ chance, board }) => chance < 0.05 && board === "example");
    expect(clear.map(({ place }) => place)).toContain("U15.3");
    expect(tableAfter("What drifts over the years").map(([place]) => place)).toEqual(
      clear.map(({ place }) => place),
    );
    // 0.00001 V a day was put in.
    const { slope } = clear.find(({ place }) => place === "U15.3")!;
    expect(slope).toBeGreaterThan(0.002);
    expect(slope).toBeLessThan(0.006);
  });

  test("draws each year's middle within the limits, with the same in words", () => {
    const titles = [...page.matchAll(/<title id="b\d+-y\d+">([^<]+)<\/title>/g)].map(
      ([, title = ""]) => title,
    );
    expect(titles.length).toBeGreaterThan(3);
    for (const title of titles) expect(title).toMatch(/: limits .+; \d{4} .+ of \d+, \d{4} /);
    const ids = [...page.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  test("has cures, parts that keep dying, comebacks and hours", () => {
    expect(tableAfter("What cured it").length).toBe(
      numbers.cures.filter(({ board }) => board === "example").length,
    );
    expect(tableAfter("Parts that keep dying").map(([part]) => part)).toContain("74LS04");
    expect(tableAfter("How long it takes")[0]![0]).toBe("all jobs");
    expect(page).toContain(`${numbers.comebacks.length} jobs of 90`);
  });

  test("claims nothing of a part", () => {
    expect(page.slice(page.indexOf("<body>"))).not.toMatch(/\b(?:good|passed|proven|proves the)\b/i);
    expect(page).toContain("prove nothing of any one board");
  });
});

test("a hostile name stays text", async () => {
  const evil = { ...files };
  for (const [path, text] of Object.entries(evil))
    if (path.startsWith("logs/"))
      evil[path] = text.replaceAll("no sound", '"<script>alert(1)</script> & \\u0007"');
  const { out } = await run(["stats"], evil);
  expect(out).toContain("&lt;script&gt;");
  expect(await problemsOf(out)).toEqual([]);
});

test("one log without a reading makes a page too", async () => {
  const { out, code } = await run(["stats"], { "1.md": "---\nmendlog: 1\n---\n" });
  expect(code).toBe(0);
  expect(await problemsOf(out)).toEqual([]);
});
