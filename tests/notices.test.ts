// What is shipped of other people's work, and the licences that go with it.
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { noticesText, packagesOf, withoutLicence } from "../server/build/notices.js";

const root = join(import.meta.dirname, "..");

test("every package that a source of the program imports is named beside the bundles, with its licence", () => {
  const text = readFileSync(join(root, "dist/THIRD-PARTY-NOTICES.txt"), "utf8");
  for (const name of ["unified", "remark-parse", "micromark", "yaml", "vscode-languageserver", "format"])
    expect(text, name).toMatch(new RegExp(`^-+\n\n${name} \\d+\\.`, "m"));
  expect(text.match(/Permission (?:is hereby granted|to use, copy, modify)/g)?.length).toBeGreaterThan(60);
});

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "mendlog-notices-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

function put(path: string, text: string): void {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), text);
}

test("finds the package of a file, past descriptions that only say what kind of modules lie there", () => {
  put("node_modules/a/package.json", JSON.stringify({ name: "a", version: "1.0.0", license: "MIT" }));
  put("node_modules/a/esm/package.json", JSON.stringify({ type: "module" }));
  put("node_modules/a/LICENSE.md", "Do what you like.\r\n");
  put("node_modules/@x/b/package.json", JSON.stringify({ name: "@x/b", version: "2.0.0" }));
  put("node_modules/@x/b/README.md", "# b\n\n## License\n\nAs a.\n\n## More\n\nText.\n");
  put("node_modules/c/package.json", JSON.stringify({ name: "c", version: "3.0.0", license: "MIT" }));
  const packages = packagesOf(
    [
      "node_modules/a/esm/x.js",
      "node_modules/a/y.js",
      "node_modules/@x/b/z.js",
      "node_modules/c/c.js",
      "src/own.ts",
    ],
    folder,
  );
  expect(packages.map(({ name, licence, texts }) => [name, licence, texts])).toEqual([
    ["@x/b", undefined, ["As a."]],
    ["a", "MIT", ["Do what you like."]],
    ["c", "MIT", []],
  ]);
  expect(withoutLicence(packages).map(({ name }) => name)).toEqual(["c"]);
  expect(noticesText(packages)).toContain("\n\na 1.0.0\nLicence: MIT\n\nDo what you like.\n\n");
});
