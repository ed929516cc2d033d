import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { relativePath, resolvePath } from "../../../server/src/features/shared/paths/relative";
import { applyEdits } from "../../../server/src/text/edits";
import { openWorld } from "../../support/workspace";

/** What becomes of each file whose text changes. */
async function moved(
  fixture: string,
  moves: readonly (readonly [string, string])[],
  { markdown = true, closed = false } = {},
): Promise<Record<string, string>> {
  const { service, files } = await openWorld(fixture);
  if (closed) for (const { uri } of files) await service.close(uri);
  const found: Record<string, string> = {};
  const at = (path: string): string => `mem:/ws/${path}`;
  for await (const it of service.moveEdits(
    moves.map(([from, to]) => ({ from: at(from), to: at(to) })),
    markdown,
  )) {
    if (it) found[it.uri.slice("mem:/ws/".length)] = applyEdits(it.text, it.edits);
  }
  return found;
}

const log = (body: string, name = "logs/a.md"): string => `//- ${name}\n---\nmendlog: 1\n---\n\n${body}\n`;
const one = async (body: string, ...moves: (readonly [string, string])[]): Promise<string | undefined> =>
  (await moved(log(body), moves))["logs/a.md"]?.split("---\n\n")[1]?.trimEnd();

describe("what leads to a file that moves", () => {
  test.each([
    ["![x](p/x.png)", "logs/p/x.png", "logs/q/x.png", "![x](q/x.png)"],
    ['[x](./p/x.png "t](p/x.png)")', "logs/p/x.png", "logs/x.png", '[x](./x.png "t](p/x.png)")'],
    ["[x](p/x.md#part)", "logs/p", "old/p", "[x](../old/p/x.md#part)"],
    ["[x](<p/x y.png>)", "logs/p/x y.png", "logs/p/z w.png", "[x](<p/z w.png>)"],
    ["[x](p/x%20y.png)", "logs/p/x%20y.png", "logs/p/z%20(1).png", "[x](p/z%20%281%29.png)"],
    ["[x]: p/x.png\n\n![x]", "logs/p/x.png", "logs/x.png", "[x]: x.png\n\n![x]"],
    ["> - ![x](p/x.png)", "logs/p/x.png", "logs/x.png", "> - ![x](x.png)"],
  ])("%s, with %s moved to %s, becomes %s", async (before, from, to, after) => {
    expect(
      await one(before, [
        encodeURI(decodeURI(from)),
        encodeURI(decodeURI(to)).replace("(", "%28").replace(")", "%29"),
      ]),
    ).toBe(after);
  });

  test("an image in a table too", async () => {
    const table = (path: string): string =>
      `## ROM check\n\n| Ref | Image | CRC-32 |\n| --- | --- | --- |\n| U1 | ${path} | 1 |`;
    expect(await one(table("p/x.bin"), ["logs/p/x.bin", "logs/x.bin"])).toBe(table("x.bin"));
  });

  test.each([
    "`p/x.png`",
    "p/x.png in words",
    "[x](https://a.example/p/x.png)",
    "[x](/p/x.png)",
    "![x](other.png)",
  ])("but not %s", async (body) => {
    expect(await one(body, ["logs/p/x.png", "logs/x.png"])).toBeUndefined();
  });
});

test("a log that moves takes its paths along, and what moves with it stays as near as it was", async () => {
  expect(await one("![x](p/x.png) [b](b.md)", ["logs/a.md", "logs/old/a.md"])).toBe(
    "![x](../p/x.png) [b](../b.md)",
  );
  expect(await one("![x](p/x.png) [b](../b.md)", ["logs", "old/logs"])).toBe("![x](p/x.png) [b](../../b.md)");
  expect(await one("![x](p/x.png)", ["logs", "archive"])).toBeUndefined();
});

test("closed logs are found as well, and Markdown is left alone where another sees to it", async () => {
  const world = log("![x](p/x.png)") + log("nothing", "logs/b.md");
  expect(Object.keys(await moved(world, [["logs/p", "logs/q"]], { closed: true }))).toEqual(["logs/a.md"]);
  expect(await moved(world, [["logs/p", "logs/q"]], { markdown: false })).toEqual({});
});

const name = fc.constantFrom("a", "b", "c d", "ö", "x(1)");
const place = fc
  .array(name, { minLength: 1, maxLength: 4 })
  .map((parts) =>
    parts.map((part) => encodeURIComponent(part).replace("(", "%28").replace(")", "%29")).join("/"),
  );

test("the path from one file to another leads there", () => {
  fc.assert(
    fc.property(place, place, (from, to) => {
      const [a, b] = [`file:///${from}`, `file:///${to}`];
      expect(resolvePath(a, relativePath(a, b) ?? "")).toBe(b);
    }),
  );
});
