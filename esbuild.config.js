// Bundles the programs that are shipped. `--production` minifies, `--watch` builds again on every change.
import { existsSync } from "node:fs";
import { build, context } from "esbuild";
import { libraryPlugin } from "./server/build/library.js";

const production = process.argv.includes("--production");
const watch = process.argv.includes("--watch");

/** Everything but the editor's own module goes into the bundle, so that the package needs no node_modules. */
const shared = {
  bundle: true,
  platform: "node",
  target: "node20",
  format: "cjs",
  // Some dependencies carry a build whose `require` calls no bundler can follow; their ES module build is plain.
  mainFields: ["module", "main"],
  minify: production,
  sourcemap: production ? false : "linked",
  legalComments: "none",
  logLevel: "info",
  plugins: [libraryPlugin.esbuild()],
};

/** For an editor that runs in a browser alone: there is no Node. */
const web = { platform: "browser", target: "es2022", mainFields: ["browser", "module", "main"] };

const programs = [
  { entry: "client/src/extension.ts", outfile: "dist/extension.cjs", external: ["vscode"] },
  { entry: "server/src/main.node.ts", outfile: "dist/server.cjs" },
  {
    ...web,
    entry: "client/src/extension.browser.ts",
    outfile: "dist/web/extension.cjs",
    external: ["vscode"],
  },
  {
    ...web,
    entry: "server/src/main.browser.ts",
    outfile: "dist/web/server.js",
    format: "iife",
    // A worker has no document; what comes in two kinds for the browser is to be the one for workers.
    conditions: ["worker"],
  },
  { entry: "server/src/cli.ts", outfile: "dist/cli.cjs", banner: { js: "#!/usr/bin/env node" } },
];

const options = programs
  .filter(({ entry }) => existsSync(entry))
  .map(({ entry, ...own }) => ({ ...shared, ...own, entryPoints: [entry] }));

try {
  if (watch) {
    const contexts = await Promise.all(options.map((one) => context(one)));
    await Promise.all(contexts.map((one) => one.watch()));
  } else {
    await Promise.all(options.map((one) => build(one)));
  }
} catch {
  // esbuild has printed what was wrong, with its place.
  process.exitCode = 1;
}
