// The map, held to what is there: its folders, the paths and requests it names, the layers that imports are held to.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { readPage } from "./page";

const TOP = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const SRC = join(TOP, "server", "src");
const PAGE = readPage("architecture.md");
const DEVELOPERS = readFileSync(join(TOP, "DEVELOPERS.md"), "utf8");

test("every folder of the server has a line in the map", () => {
  const folders = readdirSync(SRC, { withFileTypes: true }).filter((entry) => entry.isDirectory());
  const mapped = [...PAGE.matchAll(/^ {2}([\w-]+)\/ +\S/gm)].map(([, name = ""]) => name);
  expect([...mapped].sort()).toEqual(folders.map(({ name }) => name).sort());
});

/** A path as these pages write it: from the top, from server/src or from tests, its ending left out or not. */
const isThere = (path: string): boolean =>
  [TOP, SRC, join(TOP, "tests")].some(
    (root) => existsSync(join(root, path)) || existsSync(join(root, `${path}.ts`)),
  );

/** What stands in backticks and is a path of this project; names in capitals or pointed brackets stand for many. */
const pathsIn = (page: string): string[] =>
  [...page.replace(/^```[\s\S]*?^```$/gm, "").matchAll(/`([\w.-]+\/[\w./-]*)`/g)]
    .map(([, path = ""]) => path)
    .filter(
      (path) => !/[A-Z]{4}/.test(path) && !/^(?:mendlog|dist|web|checks\/check|textDocument)\b/.test(path),
    );

test.each([
  ["architecture.md", PAGE, 60],
  ["DEVELOPERS.md", DEVELOPERS, 10],
])("%s names only paths that there are", (_, page, least) => {
  // Pictures that the editor's tests leave are there after they ran.
  const paths = pathsIn(page).filter((path) => path !== "tests/editor/out");
  expect(paths.length).toBeGreaterThan(least);
  expect(paths.filter((path) => !isThere(path))).toEqual([]);
});

test("the custom requests are those of the code, each with one row", () => {
  const folder = join(SRC, "protocol", "custom-requests");
  const inCode = readdirSync(folder).flatMap((name) =>
    [...readFileSync(join(folder, name), "utf8").matchAll(/"(mendlog\/[\w/]+)"/g)].map(
      ([, method = ""]) => method,
    ),
  );
  const inPage = [...PAGE.matchAll(/^\| `(mendlog\/[\w/]+)` \|/gm)].map(([, method = ""]) => method);
  expect(inPage.length).toBeGreaterThan(20);
  expect(inPage.sort()).toEqual(inCode.sort());
});

test("DEVELOPERS.md lists the commands that there are", () => {
  const { scripts } = JSON.parse(readFileSync(join(TOP, "package.json"), "utf8"));
  const listed = [...DEVELOPERS.matchAll(/`npm run ([\w:-]+)/g)].map(([, name = ""]) => name);
  expect(listed.filter((name) => !(name in scripts))).toEqual([]);
});

test("the glossary explains each word once", () => {
  const table = PAGE.slice(PAGE.indexOf("## Glossary"));
  const words = [...table.matchAll(/^\| ([^|]+?) \| \S/gm)].map(([, word = ""]) => word).slice(1);
  expect(words.length).toBeGreaterThan(10);
  expect(new Set(words).size).toBe(words.length);
});
