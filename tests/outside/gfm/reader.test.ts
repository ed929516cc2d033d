// Generated tables as another reader of GFM sees them: the program cmark-gfm (Debian package cmark-gfm,
// 0.29.0.gfm.6). MENDLOG_CMARK_GFM names the program, MENDLOG_REQUIRE_OUTSIDE=1 makes its absence a failure.
// Left out, because the two readers differ and the product follows micromark: two backslashes before a pipe
// (cmark-gfm then takes the pipe for escaped), and a line that is one pipe and nothing else.
import { spawnSync } from "node:child_process";
import fc from "fast-check";
import { expect, it, test } from "vitest";
import { seenCells } from "./cells";
import { htmlCells } from "./html";

const PROGRAM = process.env.MENDLOG_CMARK_GFM ?? "cmark-gfm";
const PRESENT = spawnSync(PROGRAM, ["--version"]).status === 0;

const cell = fc.string({
  unit: fc.constantFrom("a", "0", ".", "5", "\u00B5", "\\|", " ", "\u03A9", ",", "%", "-", "V", "<", "&"),
  maxLength: 6,
});
const row = fc
  .record({
    cells: fc.array(fc.tuple(fc.constantFrom("", " ", "\t"), cell, fc.constantFrom("", " ")), {
      minLength: 1,
      maxLength: 4,
    }),
    leading: fc.boolean(),
    trailing: fc.boolean(),
  })
  .map(({ cells, leading, trailing }) => {
    const line = cells.map((parts) => parts.join("")).join("|");
    return (leading ? "|" : "") + line + (trailing ? "|" : "");
  })
  // Four columns of white space begin code, other marks a list or a heading's underline: no row at all.
  .filter((line) => !/^[ \t]*\|?[ \t]*$/.test(line) && !/^(?: {4}| {0,3}\t| *[-<])/.test(line));
const table = fc
  .record({ columns: fc.integer({ min: 1, max: 3 }), rows: fc.array(row, { maxLength: 5 }) })
  .map(({ columns, rows }) =>
    [`|${" h |".repeat(columns)}`, `|${"---|".repeat(columns)}`, ...rows].join("\n"),
  );

test.runIf(!PRESENT)("cmark-gfm is at hand where outside checks are required", () => {
  expect(process.env.MENDLOG_REQUIRE_OUTSIDE, "install cmark-gfm or set MENDLOG_CMARK_GFM").not.toBe("1");
});

it.runIf(PRESENT).each(["\n", "\r\n"])("reads the same cells, lines ending in %j", (end) => {
  const tables = fc.sample(table, 1000);
  const text = tables.join("\n\n# next\n\n").replaceAll("\n", end);
  const { stdout } = spawnSync(PROGRAM, ["--extension", "table"], { input: text, maxBuffer: 1e8 });
  const theirs = htmlCells(stdout.toString("utf8"));
  const ours = seenCells(text);
  expect(theirs).toHaveLength(1000);
  expect(ours).toHaveLength(1000);
  for (const [i, one] of ours.entries()) expect([tables[i], one]).toEqual([tables[i], theirs[i]]);
});
