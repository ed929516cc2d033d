// What is shipped, as it is built.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { layerOf } from "../server/build/layers.js";
import { sourcesOf } from "./support/imports";

const read = (name: string) => readFileSync(join(import.meta.dirname, "..", "dist", name), "latin1");

/** Each with less than which it cannot be whole. */
const BUNDLES = {
  "core.cjs": 2_000_000,
  "protocol.cjs": 200_000,
  "server.cjs": 10_000,
  "cli.cjs": 50_000,
  "extension.cjs": 400_000,
  "web/server.js": 5_000,
};

test.each(Object.entries(BUNDLES))("%s is held in one byte a sign: it is ASCII", (name, least) => {
  const text = read(name);
  expect(text.length).toBeGreaterThan(least);
  expect(text.search(/[^\0-\x7f]/)).toBe(-1);
});

test("the core has its schemas made ready, and no compiler of schemas", () => {
  const text = read("core.cjs");
  expect(text).toContain("missingProperty");
  expect(text).not.toContain("strictTuples");
});

test("what programs share is in none of them", () => {
  // A check, a family of the library, a validator: of each a word that stands in the sources once.
  for (const word of ["bus-held-low", "SN74LS", "missingProperty"]) {
    expect(read("core.cjs"), word).toContain(word);
    for (const name of ["protocol.cjs", "server.cjs", "cli.cjs", "web/server.js"])
      expect(read(name), `${word} in ${name}`).not.toContain(word);
  }
  expect(read("protocol.cjs")).toContain("Content-Length");
});

test("nothing of the core or the protocol asks for Node, and only a shell does", () => {
  for (const name of ["core.cjs", "protocol.cjs", "web/server.js"])
    expect(read(name).match(/require\w*\("(?!\.\/core\.cjs|\.\/protocol\.cjs)[^"]+"\)/g), name).toBe(null);
  const root = join(import.meta.dirname, "..");
  const usingNode = sourcesOf(join(root, "server/src"))
    .map((name) => `server/src/${name}`)
    .filter((name) =>
      /^import .* from "node:|__dirname|__filename/m.test(readFileSync(join(root, name), "utf8")),
    );
  expect(usingNode.length).toBeGreaterThan(20);
  expect(usingNode.filter((name) => layerOf(name) !== undefined)).toEqual([]);
});

test("a program reads no layer that it has no use for: a check needs no protocol", () => {
  const folder = mkdtempSync(join(tmpdir(), "mendlog-layers-"));
  try {
    for (const name of ["cli.cjs", "core.cjs"]) writeFileSync(join(folder, name), read(name), "latin1");
    const program = join(folder, "cli.cjs");
    expect(execFileSync(process.execPath, [program, "--version"], { encoding: "utf8" })).toMatch(/^\d+\.\d+/);
    expect(() => execFileSync(process.execPath, [program, "serve", "--stdio"], { stdio: "pipe" })).toThrow(
      /protocol\.cjs/,
    );
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test("no source has a raw template, in which an escape is no sign", () => {
  const root = join(import.meta.dirname, "..");
  for (const folder of ["server/src", "client/src"])
    for (const name of readdirSync(join(root, folder), { recursive: true }).map(String))
      if (name.endsWith(".ts"))
        expect(readFileSync(join(root, folder, name), "utf8"), name).not.toContain("String.raw`");
});
