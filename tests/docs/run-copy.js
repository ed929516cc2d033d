// Runs in a copy of the sources. `build` makes its lists and bundles what answers questions; `ask QUESTION` prints the answer
// as JSON.
import { mkdirSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";

const ROOT = join(import.meta.dirname, "../..");
const OUT = join(ROOT, "dist", "in-copy.cjs");

async function bundle() {
  const { build } = await import("esbuild");
  const { libraryPlugin } = await import("../../server/build/library.js");
  const { lists } = await import("../../server/build/lists.js");
  for (const [path, text] of lists(ROOT)) writeFileSync(join(ROOT, path), text);
  mkdirSync(join(ROOT, "dist"), { recursive: true });
  await build({
    entryPoints: [join(import.meta.dirname, "in-copy.ts")],
    outfile: OUT,
    bundle: true,
    platform: "node",
    target: "node20",
    format: "cjs",
    mainFields: ["module", "main"],
    logLevel: "error",
    // The helpers hold things with its `expect`, which nothing here calls: no test runs in this process.
    alias: { vitest: "node:assert" },
    plugins: [libraryPlugin.esbuild()],
  });
}

const [what, question = ""] = process.argv.slice(2);
if (what === "build") {
  await bundle();
} else {
  const { answer } = createRequire(import.meta.url)(OUT);
  process.stdout.write(JSON.stringify(await answer(JSON.parse(question))), () => process.exit(0));
}
