// What is shipped, as it is built.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";

const BUNDLES = ["server.cjs", "cli.cjs", "extension.cjs", "web/server.js", "web/extension.cjs"];

test.each(BUNDLES)("%s is held in one byte a sign: it is ASCII", (name) => {
  const text = readFileSync(join(import.meta.dirname, "..", "dist", name), "latin1");
  expect(text.length).toBeGreaterThan(100_000);
  expect(text.search(/[^\0-\x7f]/)).toBe(-1);
});

test.each(["server.cjs", "cli.cjs"])("%s has its schemas made ready, and no compiler of schemas", (name) => {
  const text = readFileSync(join(import.meta.dirname, "..", "dist", name), "latin1");
  expect(text).toContain("missingProperty");
  expect(text).not.toContain("strictTuples");
});

test("no source has a raw template, in which an escape is no sign", () => {
  const root = join(import.meta.dirname, "..");
  for (const folder of ["server/src", "client/src"])
    for (const name of readdirSync(join(root, folder), { recursive: true }).map(String))
      if (name.endsWith(".ts"))
        expect(readFileSync(join(root, folder, name), "utf8"), name).not.toContain("String.raw");
});
