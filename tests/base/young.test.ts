// What is worked out for a log is gone with it when only what is young is cleared, which costs a fiftieth of clearing all. In a
// process of its own, in which nothing else is cleared.
import { execFileSync } from "node:child_process";
import { join } from "node:path";
import { buildSync } from "esbuild";
import { expect, test } from "vitest";

const BASE = join(import.meta.dirname, "../../server/src/base");

/** Bytes that are left of 60 calls, which together make more than three megabytes. */
function leftOf(imports: string, make: string): number {
  const contents = `${imports}
    const rows = () => Array.from({ length: 2000 }, (_, i) => ({ i }));
    const make = ${make};
    const cleared = () => {
      make();
      gc({ type: "minor" });
      gc({ type: "minor" });
    };
    for (let n = 0; n < 20; n++) cleared();
    gc();
    const before = process.memoryUsage().heapUsed;
    for (let n = 0; n < 60; n++) cleared();
    console.log(process.memoryUsage().heapUsed - before);`;
  const { outputFiles } = buildSync({
    stdin: { contents, resolveDir: BASE, loader: "ts" },
    bundle: true,
    platform: "node",
    write: false,
  });
  return Number(
    execFileSync(process.execPath, ["--expose-gc", "-e", outputFiles[0]!.text], { encoding: "utf8" }),
  );
}

test("a result that leads back to its key", () => {
  const imports = `import { memo } from "./memo"; const of = memo((k) => ({ k, rows: rows() }));`;
  expect(leftOf(imports, "() => void of({})")).toBeLessThan(1_000_000);
});

test("results of results", () => {
  const imports = `import { memo } from "./memo"; const of = memo((k) => ({ rows: rows() })); const over = memo((of) => ({ of, rows: rows() }));`;
  expect(leftOf(imports, "() => void over(of({}))")).toBeLessThan(1_000_000);
});

test("what a field holds that is worked out later", () => {
  const imports = `import { withLater } from "./later";`;
  const make = `() => { const held = rows(); return withLater({ name: "a" }, { rows: () => held }).rows.length; }`;
  expect(leftOf(imports, make)).toBeLessThan(1_000_000);
});

test("a getter of a literal does hold it: it is measured what these are held to", () => {
  const make = `() => { const held = rows(); return { name: "a", get rows() { return held; } }.rows.length; }`;
  expect(leftOf("", make)).toBeGreaterThan(2_000_000);
});
