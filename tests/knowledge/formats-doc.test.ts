import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { loadBoard } from "../../server/src/knowledge/load-board";
import { loadDevice } from "../../server/src/knowledge/load-device";
import { loadFamily } from "../../server/src/knowledge/load-family";
import { loadFrontMatter } from "../../server/src/knowledge/load-front-matter";
import { loadLimits } from "../../server/src/knowledge/load-limits";
import { loadMaker } from "../../server/src/knowledge/load-maker";
import { loadProcedure } from "../../server/src/knowledge/load-procedure";
import { loadShop } from "../../server/src/knowledge/load-shop";
import type { Loaded } from "../../server/src/knowledge/loaded";
import { pathAt } from "../../server/src/syntax/yaml";

const readDoc = (name: string) => readFileSync(new URL(`../../docs/${name}`, import.meta.url), "utf8");
const DOC = readDoc("file-formats.md");

const LOADERS: Record<string, (text: string) => Loaded<unknown>> = {
  mendlog: loadFrontMatter,
  "mendlog-board": (text) => loadBoard(text),
  "mendlog-device": loadDevice,
  "mendlog-family": loadFamily,
  "mendlog-limits": loadLimits,
  "mendlog-maker": loadMaker,
  "mendlog-procedure": loadProcedure,
  "mendlog-shop": loadShop,
};

/** Every whole file shown in the page: the YAML blocks, and the front matter that the log format shows with most fields. */
const EXAMPLES = [
  ...[...DOC.matchAll(/^```yaml\n((mendlog-\w+):[\s\S]*?)^```/gm)].map((m) => [m[2]!, m[1]!] as const),
  ["mendlog", frontMatterOf(readDoc("log-format.md"))] as const,
];

function frontMatterOf(page: string): string {
  const all = [...page.matchAll(/^---\n(mendlog:[\s\S]*?)^---\n/gm)].map(([, text = ""]) => text);
  return all.reduce((longest, text) => (text.length > longest.length ? text : longest), "");
}

test("the page shows one whole file of each kind", () => {
  expect(EXAMPLES.map(([key]) => key).sort()).toEqual(Object.keys(LOADERS).sort());
});

describe.each(EXAMPLES)("%s", (key, text) => {
  test("the example loads without a problem", () => {
    const { value, problems } = LOADERS[key]!(text);
    expect(value).toBeDefined();
    expect(problems.map((p) => `${p.code}: ${p.message}`)).toEqual([]);
  });

  test("nothing that is done to the example makes the loader throw", () => {
    const load = LOADERS[key]!;
    const insert = fc.constantFrom(
      "\n",
      "  ",
      "\t",
      "{",
      "}",
      "[",
      "]",
      '"',
      ": ",
      "- ",
      "&a ",
      "*a",
      "~",
      "0",
      "\r",
      "__proto__: 1\n",
      "x",
      "#",
      ",",
      "\u0000",
      "\uFEFF",
      "'",
    );
    const change = fc.tuple(fc.nat(), fc.nat(12), fc.oneof(insert, fc.constant("")));
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 6 }), fc.nat(500), (changes, base) => {
        let mutant = text;
        for (const [seed, cut, put] of changes) {
          const at = seed % (mutant.length + 1);
          mutant = mutant.slice(0, at) + put + mutant.slice(at + cut);
        }
        const loaded = key === "mendlog" ? loadFrontMatter(mutant, base) : load(mutant);
        const from = key === "mendlog" ? base : 0;
        for (const { span, message, suggestion = [], related = [] } of loaded.problems) {
          expect(message).not.toMatch(/undefined|\[object|NaN/);
          for (const at of [span, ...suggestion.map((s) => s.span), ...related.map((r) => r.span)]) {
            expect(at.start).toBeGreaterThanOrEqual(from);
            expect(at.end).toBeGreaterThanOrEqual(at.start);
            expect(at.end).toBeLessThanOrEqual(from + mutant.length + 1);
          }
        }
        pathAt(loaded.tree, from + (changes[0]![0] % (mutant.length + 1)));
      }),
      { numRuns: 60 },
    );
  });

  test("any text at all", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 200 }), (noise) => {
        expect(Array.isArray(LOADERS[key]!(noise).problems)).toBe(true);
        expect(Array.isArray(LOADERS[key]!(`${key}: 1\n${noise}`).problems)).toBe(true);
      }),
      { numRuns: 60 },
    );
  });
});
