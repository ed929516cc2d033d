// Literals that begin with a spread are built so that their objects share a description; they say the same.
import { execFileSync } from "node:child_process";
import { runInNewContext } from "node:vm";
import { expect, test } from "vitest";
import { withSharedShapes } from "../server/build/spreads.js";

const CASES = [
  "({ ...one, more: 1 })",
  "({ ...one })",
  "({ a: 0, ...one })",
  "({ ...one, deep: { ...one, ...two } })",
  "({ ...(one ? { ...two } : {}), b: { ...one }.a })",
  "(({ ...rest }) => ({ ...rest }))(one)",
  "'{ ...one }'",
];

test.each(CASES)("%s says the same", (code) => {
  const run = (text: string) => JSON.stringify(runInNewContext(text, { one: { a: 1, b: 2 }, two: { b: 3 } }));
  expect(run(withSharedShapes(code))).toBe(run(code));
});

test("only literals that begin with a spread are touched", () => {
  expect(withSharedShapes("f({ ...a, b }, { c, ...d }, '{ ...e }', ({ ...g }) => g)")).toBe(
    "f({ ...null,...a, b }, { c, ...d }, '{ ...e }', ({ ...g }) => g)",
  );
});

test("objects of one literal share their description", () => {
  const made = withSharedShapes("(one) => ({ ...one, more: 1 })");
  const code = `const make = ${made}; const keep = []; for (let i = 0; i < 100; i++) keep.push(make({ a: i }));
    console.log(keep.every((one) => %HaveSameMap(one, keep[50])));`;
  const ran = execFileSync(process.execPath, ["--allow-natives-syntax", "-e", code], { encoding: "utf8" });
  expect(ran.trim()).toBe("true");
});
