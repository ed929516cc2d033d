// One name, one meaning: what is exported under a name stands in one file. The few that stand in several are on the page of
// the architecture, each with its reason.
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { namesIn, readSources, severalTimes } from "./compare/names.js";

const PAGE = readFileSync(new URL("../docs/architecture.md", import.meta.url), "utf8");

test("an exported name is declared in one file, or its reason stands on the page", () => {
  const section = PAGE.split("## Names in several files")[1]?.split("\n#")[0] ?? "";
  const explained = [...section.matchAll(/^\| `(\w+)` \| \S/gm)].map((match) => match[1]);
  const several = severalTimes(readSources());
  expect([...several.keys()].sort()).toEqual(explained.sort());
});

test("the look at the sources is not blind", () => {
  const sources = readSources();
  expect(sources.size).toBeGreaterThan(1000);
  const names = new Set([...sources.values()].flatMap(namesIn));
  expect(names.size).toBeGreaterThan(2500);
  for (const name of ["Service", "checkLog", "TestPoint", "activate", "CHECKS", "Verdict"])
    expect(names).toContain(name);
  const twice = new Map([
    ["a.ts", "export const one = 1;\nexport interface Two {}\n"],
    ["b.ts", "export function one() {}\nexport async function* two() {}\nexport default {};\n"],
    ["c.ts", 'export { one } from "./a";\nexport type { Two } from "./a";\n'],
  ]);
  expect([...severalTimes(twice)]).toEqual([["one", ["a.ts", "b.ts"]]]);
});
