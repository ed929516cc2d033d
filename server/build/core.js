// The language core as a module, bundled in memory: what is generated comes from the code that runs, not from
// a second reading of it.
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { compileFunction } from "node:vm";
import { build } from "esbuild";
import { libraryPlugin } from "./library.js";

const SOURCE = join(dirname(fileURLToPath(import.meta.url)), "..", "src");

const ENTRY = `
export { CHECKS } from "./checks/registry";
export { fixesIn, madeBy, textOf } from "./checks/example";
export { EXAMPLE_BOARD } from "./checks/example-board";
export { builtinLibrary } from "./knowledge/library";
export { Service } from "./service";
export { EXPORT_TABLES, EXPORT_VERSION } from "./report/export/schema";
export { lineIndex } from "./text/line-index";
export { knowledgeKind } from "./workspace/host";
`;

/** Throws where the core does not bundle; esbuild's message has the place. */
export async function loadCore() {
  const { outputFiles } = await build({
    stdin: { contents: ENTRY, resolveDir: SOURCE, loader: "ts" },
    bundle: true,
    write: false,
    platform: "node",
    target: "node20",
    format: "cjs",
    mainFields: ["module", "main"],
    logLevel: "silent",
    plugins: [libraryPlugin.esbuild()],
  });
  const module = { exports: {} };
  const run = compileFunction(outputFiles[0].text, ["module", "exports", "require"], {
    filename: "core.cjs",
  });
  run(module, module.exports, createRequire(import.meta.url));
  return module.exports;
}
