// The demo's one program image: small, made by the script beside it, and what the board file says it is.
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { matchImage } from "../../server/src/compute/memory/match-image";
import { regatta } from "../compute/diagnosis/regatta";

const FOLDER = new URL("../../demo/roms/", import.meta.url);

test("is what its script writes", async () => {
  const { demoImage } = (await import(new URL("make-image.js", FOLDER).href)) as {
    demoImage(): Uint8Array;
  };
  const kept = readFileSync(new URL("2026-016-u2.bin", FOLDER));
  expect(kept.equals(demoImage())).toBe(true);
});

test("is the first release's U2 by every figure of the board file", () => {
  const bytes = readFileSync(new URL("2026-016-u2.bin", FOLDER));
  const { matches } = matchImage(bytes, [...regatta.romSets.values()], "U2");
  expect(matches).toHaveLength(1);
  expect(matches[0]).toMatchObject({
    kind: "exact",
    part: "whole",
    set: { id: "regatta-1" },
    image: { ref: "U2" },
    agree: ["size", "sum16", "crc32", "sha1"],
    differ: [],
  });
});
