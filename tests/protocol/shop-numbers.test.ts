// The page of the shop's numbers that the server gives the editor is the one that the command line writes.
import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { afterEach, expect, test } from "vitest";
import type { ShopPage } from "../../server/src/protocol/custom-requests/shop-numbers";
import { type Bench, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";

let bench: Bench | undefined;
afterEach(() => bench?.end());

const log = (n: number, board = "example") => `//- logs/${n}.md
---
mendlog: 1
job: 2026-${n}
board: ${board}
received: 2026-0${1 + (n % 9)}-10
stage: returned
---

## Diode check U14 (7404)

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.5${n % 10} |

## Work

| Date | Ref | Action | Part |
|------|-----|--------|------|
| 2026-01-11 | U14 | replaced | 7404 |
`;
const of = (count: number) => Array.from({ length: count }, (_, n) => log(n)).join("");

const page = async (files: string) => {
  bench = await startBench(files, { capabilities: FULL_CAPABILITIES });
  const { html } = (await bench.client.request("mendlog/shopNumbers", {})) as ShopPage;
  return html;
};
const written = () => {
  const cli = fileURLToPath(new URL("../../dist/cli.cjs", import.meta.url));
  return execFileSync(process.execPath, [cli, "stats", fileURLToPath(bench!.root)], { encoding: "utf8" });
};

test.each([12, 170])("of %i logs, the last of them made by another thread", async (count) => {
  const html = await page(of(count));
  expect(html).toContain(`<dd>${count}</dd>`);
  expect(html).toBe(written());
});

test("nothing that was typed into a log is a tag of the page, which loads and runs nothing", async () => {
  const board = '"<script>alert(1)</script><img src=x>"';
  const html = await page(Array.from({ length: 7 }, (_, n) => log(n, board)).join(""));
  expect(html).toContain("default-src 'none'");
  expect(html).toContain("&lt;script&gt;");
  expect(html).not.toMatch(/<script|<img/);
});

test("of no log it says that there is none", async () => {
  expect(await page("")).toContain("<dd>0</dd>");
});
