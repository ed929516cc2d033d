// Every example of the GitHub Flavored Markdown spec 0.29-gfm as the Debian package cmark-gfm (0.29.0.gfm.6) installs
// it (CC-BY-SA; read at test time, nothing of it is kept here). MENDLOG_GFM_SPEC names another copy of spec.txt or
// spec.txt.gz, MENDLOG_REQUIRE_OUTSIDE=1 makes its absence a failure.
import { existsSync, readFileSync } from "node:fs";
import { gunzipSync } from "node:zlib";
import { describe, expect, it, test } from "vitest";
import { seenCells } from "./cells";
import { htmlCells } from "./html";
import { readBothWays, settings } from "./whole";

const FILE = process.env.MENDLOG_GFM_SPEC ?? "/usr/share/doc/cmark-gfm/spec.txt.gz";
const PRESENT = existsSync(FILE);

interface Example {
  readonly number: number;
  readonly extension: string;
  readonly markdown: string;
  readonly html: string;
}

function examples(): Example[] {
  if (!PRESENT) return [];
  const bytes = readFileSync(FILE);
  const text = (FILE.endsWith(".gz") ? gunzipSync(bytes) : bytes).toString("utf8").replaceAll("\u2192", "\t");
  const found = text.matchAll(/^`{32} example ?(.*)\n([\s\S]*?)^\.\n([\s\S]*?)^`{32}$/gm);
  return [...found].map(([, extension, markdown, html], i) => ({
    number: i + 1,
    extension: extension!,
    markdown: markdown!,
    html: html!,
  }));
}

test.runIf(!PRESENT)("the GFM spec is at hand where outside checks are required", () => {
  expect(
    process.env.MENDLOG_REQUIRE_OUTSIDE,
    `${FILE} not found: install cmark-gfm or set MENDLOG_GFM_SPEC`,
  ).not.toBe("1");
});

describe.runIf(PRESENT)("the GFM spec", () => {
  const all = examples();

  it("has as many examples as were counted in version 0.29-gfm", () => {
    expect(all).toHaveLength(673);
    expect(all.filter(({ extension }) => extension === "table").map(({ number }) => number)).toEqual([
      198, 199, 200, 201, 202, 203, 204, 205,
    ]);
  });

  it.each(all.map(({ number, markdown }) => [number, markdown] as const))(
    "example %i is read block by block as a whole",
    (_number, markdown) => {
      for (const text of settings(markdown)) {
        const { joined, whole } = readBothWays(text);
        expect(joined).toEqual(whole);
      }
    },
  );

  it.each(all.filter(({ extension }) => extension === "table").map((one) => [one.number, one] as const))(
    "example %i has the cells of the spec's HTML",
    (_number, { markdown, html }) => {
      const ours = seenCells(markdown).map((rows) =>
        rows.map((row) => row.map((cell) => cell.replace(/[`*]/g, ""))),
      );
      expect(ours).toEqual(htmlCells(html));
    },
  );
});
