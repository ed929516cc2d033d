import { describe, expect, test } from "vitest";
import { crossings, readSources } from "./compare/docs";

/** Of what crosses a folder so much has a doc comment. */
const LEAST = 0.95;

const sources = readSources();
const undocumented = (texts: Readonly<Record<string, string>>): string[] =>
  crossings(new Map(Object.entries(texts)))
    .all.filter((it) => !it.isDocumented)
    .map(({ path, name, line }) => `${path}:${line} ${name}`);

describe("what crosses a folder says what it is", () => {
  test("95 % of it has a doc comment", () => {
    const { all, lost } = crossings(sources);
    const missing = all
      .filter((it) => !it.isDocumented)
      .map(({ path, line, name }) => `${path}:${line} ${name}`);
    expect(lost).toEqual([]);
    expect(all.length).toBeGreaterThan(1000);
    // The list is in the message, the most imported first.
    const allowed = Math.floor((1 - LEAST) * all.length);
    expect(missing.length, missing.join("\n")).toBeLessThanOrEqual(allowed);
  });

  test("comments that are gone are missed", () => {
    const bare = [...sources].map(([path, text]) => [path, text.replaceAll("/**", "/*")] as const);
    const { all } = crossings(new Map(bare));
    expect(all.some((it) => it.isDocumented)).toBe(false);
  });

  test("only what a file of another folder imports is asked for", () => {
    expect(
      undocumented({
        "server/src/a/one.ts": "export const here = 1;\nexport const there = 2;\nexport const nowhere = 3;\n",
        "server/src/a/two.ts": 'import { here } from "./one";\n',
        "server/src/b/three.ts": 'import { there } from "../a/one";\n',
      }),
    ).toEqual(["server/src/a/one.ts:2 there"]);
  });

  test.each([
    ["by a name of its own", 'import { deep as other } from "../a";\n'],
    ["as a type", 'import { type deep } from "../a/deep";\n'],
    ["exported again at once", 'export { deep } from "../a/again";\n'],
    ["late", 'const { deep } = await import("../a/deep");\n'],
    ["late, one name of it", 'const made = (await import("../a/deep")).deep();\n'],
  ])("imported %s it is found where it is declared", (_how, text) => {
    expect(
      undocumented({
        "server/src/a/deep.ts": "export function deep() {}\n",
        "server/src/a/again.ts": 'import { deep } from "./deep";\n\nexport { deep };\n',
        "server/src/a/index.ts": 'export * from "./again";\n',
        "server/src/b/user.ts": text,
      }),
    ).toEqual(["server/src/a/deep.ts:1 deep"]);
  });

  test.each([
    ["one line", "/** Says it. */\nexport const it = 1;\n", true],
    ["several lines", "/**\n * Says it.\n * @throws never\n */\nexport async function it() {}\n", true],
    ["a line for a tool between", "/** Says it. */\n// biome-ignore lint: why\nexport const it = 1;\n", true],
    [
      "the first of several signatures",
      "/** Says it. */\nexport function it(a: 1): 1;\nexport function it(a: 2): 2;\n",
      true,
    ],
    [
      "every member",
      "export interface it {\n  /** One. */\n  a: 1;\n  /**\n   * Two.\n   */\n  b: 2;\n}\n",
      true,
    ],
    ["not every member", "export interface it {\n  /** One. */\n  a: 1;\n  b: 2;\n}\n", false],
    ["nothing", "const other = 1;\nexport const it = 1;\n", false],
    ["an empty comment", "/** */\nexport const it = 1;\n", false],
    ["a plain comment", "/* Says it. */\nexport const it = 1;\n", false],
    ["a comment on the file", "// Says it.\nexport const it = 1;\n", false],
    ["the comment of what stands before", "/** Says it. */\nconst other = 1;\nexport const it = 1;\n", false],
  ])("with %s", (_what, text, isEnough) => {
    const found = undocumented({
      "server/src/a/one.ts": text,
      "server/src/b/two.ts": 'import { it } from "../a/one";\n',
    });
    expect(found.length === 0).toBe(isEnough);
  });

  test("a default export is asked for too", () => {
    expect(
      undocumented({
        "server/src/a/one.ts": "export default {\n  a: 1,\n};\n",
        "server/src/b/two.ts": 'import one from "../a/one";\n',
      }),
    ).toEqual(["server/src/a/one.ts:1 default"]);
  });

  test("what is imported and declared nowhere is told", () => {
    const texts = {
      "server/src/a/one.ts": "const it = 1;\n",
      "server/src/b/two.ts": 'import { it } from "../a/one";\n',
    };
    expect(crossings(new Map(Object.entries(texts))).lost).toEqual(["server/src/a/one.ts it"]);
  });
});
