// The page of a shop's numbers by axe-core, with all of its rules on, in a browser without a window (Debian package
// `chromium`). MENDLOG_REQUIRE_OUTSIDE=1 makes its absence a failure.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { run } from "../../cli/memory";
import { madeShop } from "../../export/shop";

const PRESENT = spawnSync("chromium", ["--version"]).status === 0;
const REQUIRED = process.env.MENDLOG_REQUIRE_OUTSIDE === "1";
const ABSENT = "chromium cannot be run: install the Debian package chromium";
const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

interface Found {
  readonly violations: readonly {
    readonly id: string;
    readonly nodes: readonly { readonly html: string }[];
  }[];
  readonly passes: readonly { readonly id: string }[];
}

/** What axe says of a page, and of it without a language. The page forbids scripts; the copy that is looked at does not. */
function axeOf(page: string): readonly [asItIs: Found, withoutLanguage: Found] {
  const folder = mkdtempSync(join(tmpdir(), "mendlog-axe-"));
  try {
    const path = join(folder, "page.html");
    const tell = `(async () => {
      const look = async () => {
        const { violations, passes } = await axe.run(document);
        const found = violations.map(({ id, nodes }) => ({ id, nodes: nodes.map(({ html }) => ({ html })) }));
        return { violations: found, passes: passes.map(({ id }) => ({ id })) };
      };
      const first = await look();
      document.documentElement.removeAttribute("lang");
      const text = JSON.stringify([first, await look()]);
      document.body.textContent = "AXE" + btoa(unescape(encodeURIComponent(text))) + "EXA";
    })();`;
    const open = page.replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, "");
    expect(open).not.toBe(page);
    writeFileSync(
      path,
      open.replace("</body>", () => `<script>${AXE}</script><script>${tell}</script></body>`),
    );
    const args = [
      "--headless",
      "--no-sandbox",
      "--disable-gpu",
      `--user-data-dir=${join(folder, "profile")}`,
    ];
    const ran = spawnSync(
      "chromium",
      [...args, "--virtual-time-budget=30000", "--dump-dom", `file://${path}`],
      {
        encoding: "utf8",
        maxBuffer: 1 << 26,
        timeout: 50_000,
      },
    );
    const [, coded] = /AXE([A-Za-z0-9+/=]+)EXA/.exec(ran.stdout) ?? [];
    if (coded === undefined) throw new Error(`axe said nothing: ${ran.stderr.slice(0, 2000)}`);
    return JSON.parse(Buffer.from(coded, "base64").toString("utf8"));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

if (!PRESENT && !REQUIRED) console.warn(`skipped: the page of a shop's numbers by axe: ${ABSENT}`);
if (REQUIRED) test("chromium is there", () => expect(PRESENT, ABSENT).toBe(true));

describe.skipIf(!PRESENT)("the page of a shop's numbers", () => {
  test("has no violation of any rule, and axe finds what is wrong where something is", async () => {
    const { out } = await run(["stats"], madeShop(40).files);
    const [{ violations, passes }, spoilt] = axeOf(out);
    expect(violations).toEqual([]);
    const passed = passes.map(({ id }) => id);
    for (const rule of ["color-contrast", "svg-img-alt", "heading-order", "document-title", "html-has-lang"])
      expect(passed, rule).toContain(rule);
    expect(spoilt.violations.map(({ id }) => id)).toEqual(["html-has-lang"]);
  });
});
