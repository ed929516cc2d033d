// The core as the benches load it: bundled from its sources as it is for what is shipped, without a server in front of it.
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { threadId } from "node:worker_threads";
import { build } from "esbuild";
import { libraryPlugin } from "../../server/build/library.js";
import { withSharedShapes } from "../../server/build/spreads.js";

/**
 * @param {string} contents TypeScript that exports what is wanted
 * @param {URL} folder its imports are relative to
 * @param {Record<string, string>} [define] as esbuild has it
 * @returns {Promise<any>} what it exports
 */
export async function load(contents, folder, define = {}) {
  const outfile = join(tmpdir(), `bench-${process.pid}-${threadId}.cjs`);
  try {
    await build({
      stdin: { contents, resolveDir: folder.pathname, loader: "ts" },
      outfile,
      bundle: true,
      platform: "node",
      format: "cjs",
      logLevel: "error",
      define,
      plugins: [libraryPlugin.esbuild()],
    });
    writeFileSync(outfile, withSharedShapes(readFileSync(outfile, "utf8")));
    return createRequire(import.meta.url)(outfile);
  } finally {
    rmSync(outfile, { force: true });
  }
}
