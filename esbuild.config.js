// Bundles the programs that are shipped. `--production` minifies, `--watch` builds again on every change.
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { build, context } from "esbuild";
import { isFile, LAYERS, layersOf } from "./server/build/layers.js";
import { libraryPlugin } from "./server/build/library.js";
import { noticesText, packagesOf, withoutLicence } from "./server/build/notices.js";
import { sbomText } from "./server/build/sbom.js";
import { withSharedShapes } from "./server/build/spreads.js";

const production = process.argv.includes("--production");
const watch = process.argv.includes("--watch");

/**
 * Writes every bundle in ASCII. One sign beyond it, in a regular expression say, makes the engine hold all five million
 * characters in two bytes each and read them so at every start, which is a tenth of it. Escapes mean the same in strings
 * and in regular expressions; in a raw template they would not, and `tests/bundles.test.ts` looks for one.
 */
const inAscii = {
  name: "in-ascii",
  setup(build) {
    build.onEnd(({ outputFiles = [] }) => {
      for (const { path, contents, text } of outputFiles) {
        mkdirSync(dirname(path), { recursive: true });
        if (path.endsWith(".map")) writeFileSync(path, contents);
        else {
          const escaped = text.replace(/[^\0-\x7f]/g, escapeOf);
          // Where a source map says what stands in which column, nothing is moved.
          writeFileSync(path, production ? withSharedShapes(escaped) : escaped);
        }
      }
    });
  },
};

const escapeOf = (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, "0")}`;

/** Leaves the examples of checks out: their pages and the tests are made from them, and no program shows one. */
const withoutExamples = {
  name: "without-examples",
  setup(build) {
    build.onLoad({ filter: /\/server\/src\/checks\/[a-z-]+\.ts$/ }, ({ path }) => ({
      // As the formatter lays it out; of anything else the rest would be no program.
      contents: readFileSync(path, "utf8").replace(EXAMPLES, "  examples: { good: [], bad: [] },\n"),
      loader: "ts",
    }));
  },
};

const EXAMPLES = /^ {2}examples: \{\n[\s\S]*?^ {2}\},\n/m;

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
  write: false,
  metafile: true,
  plugins: [libraryPlugin.esbuild(), ...(production ? [withoutExamples] : []), inAscii],
};

/** What is loaded when it is needed stays a file of its own beside the program, and may be left out of a package. */
const ownFile = (module, file) => ({
  name: `own-file-${file}`,
  setup(build) {
    build.onResolve({ filter: module }, ({ kind }) =>
      kind === "dynamic-import" ? { path: `./${file}`, external: true } : undefined,
    );
  },
});

/** For an editor that runs in a browser alone: there is no Node. */
const web = { platform: "browser", target: "es2022", mainFields: ["browser", "module", "main"] };

const layers = layersOf();
const names = Object.keys(LAYERS);

const programs = [
  {
    entry: "client/src/extension.ts",
    outfile: "dist/extension.cjs",
    external: ["vscode"],
    // In it are the client's library for Node and that for a browser; either is read where it is asked for.
    conditions: ["browser"],
  },
  { entry: "server/src/main.node.ts", outfile: "dist/server.cjs", plugins: [layers.plugin] },
  {
    ...web,
    entry: "server/src/main.browser.ts",
    outfile: "dist/web/server.js",
    format: "iife",
    // A worker has no document; what comes in two kinds for the browser is to be the one for workers.
    conditions: ["worker"],
    plugins: [layers.plugin],
  },
  {
    entry: "server/src/cli.ts",
    outfile: "dist/cli.cjs",
    banner: { js: "#!/usr/bin/env node" },
    plugins: [ownFile(/\/shop\/parquet$/, "parquet.cjs"), layers.plugin],
  },
  { entry: "server/src/cli/shop/parquet.ts", outfile: "dist/parquet.cjs" },
];

const optionsOf = ({ entry, plugins = [], ...own }) => ({
  ...shared,
  ...own,
  ...(entry === undefined ? {} : { entryPoints: [entry] }),
  plugins: [...plugins, ...shared.plugins],
});

/** Beside the bundles, the licences of what is in them and its list; nothing is built of a package that has none. */
function passOnLicences(inputs) {
  const packages = packagesOf(new Set(inputs.filter(isFile)), import.meta.dirname);
  const without = withoutLicence(packages);
  if (without.length > 0)
    throw new Error(`No licence text in: ${without.map(({ name }) => name).join(", ")}`);
  writeFileSync("dist/THIRD-PARTY-NOTICES.txt", noticesText(packages));
  writeFileSync("dist/sbom.cdx.json", sbomText(packages, JSON.parse(readFileSync("package.json", "utf8"))));
}

/** Layers are built when what stands above them has been read: only then is it known what is asked of them. */
async function buildAll() {
  const built = await Promise.all(programs.map((one) => build(optionsOf(one))));
  for (const name of names) built.push(await build(optionsOf(layers.layer(name))));
  passOnLicences(built.flatMap(({ metafile }) => Object.keys(metafile.inputs)));
}

/** A layer is built again, too, where something above it begins to ask for more of it. */
async function watchAll() {
  await buildAll();
  let known = layers.size;
  const contexts = new Map();
  const growing = (below) => ({
    name: "growing",
    setup(build) {
      build.onEnd(async () => {
        if (layers.size === known) return;
        known = layers.size;
        for (const name of below) await contexts.get(name).rebuild();
      });
    },
  });
  const watched = async ({ plugins = [], ...one }, below) => {
    const made = await context(optionsOf({ ...one, plugins: [...plugins, growing(below)] }));
    await made.watch();
    return made;
  };
  for (const name of names.toReversed())
    contexts.set(name, await watched(layers.layer(name), LAYERS[name].below));
  await Promise.all(programs.map((one) => watched(one, names)));
}

try {
  await (watch ? watchAll() : buildAll());
} catch (error) {
  if (error.errors === undefined) throw error;
  // esbuild has printed what was wrong, with its place.
  process.exitCode = 1;
}
