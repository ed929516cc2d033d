// The package for npm, in a folder of its own: the command line and the language server, and nothing of the editor's side.
// The package.json at the top is the extension's; it says `private`, so that the wrong one is never published.
//
//   npm run package:npm, then: npm publish dist/npm
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { withoutPictures } from "./readme.js";

/** What it holds, by the path it has in both. */
const FILES = [
  "dist/cli.cjs",
  "dist/core.cjs",
  "dist/protocol.cjs",
  "dist/parquet.cjs",
  "dist/THIRD-PARTY-NOTICES.txt",
  "dist/sbom.cdx.json",
  "schemas",
  "docs",
  "CHANGELOG.md",
  "LICENSE",
];

/** What only whoever changes the program reads stays where its source is. */
const FOR_DEVELOPERS = new Set(["pictures", "architecture.md", "adding.md", "performance.md"]);
const isForUsers = (path) => !FOR_DEVELOPERS.has(basename(path));

/**
 * Writes the folder anew.
 * @param {string} root the project
 * @param {string} target the folder
 */
export function writeNpmPackage(root, target) {
  rmSync(target, { recursive: true, force: true });
  for (const path of FILES) {
    mkdirSync(dirname(join(target, path)), { recursive: true });
    cpSync(join(root, path), join(target, path), { recursive: true, filter: isForUsers });
  }
  const readme = readFileSync(join(root, "README.md"), "utf8");
  writeFileSync(join(target, "README.md"), withoutPictures(readme));
  const own = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
  const described = {
    name: own.name,
    version: own.version,
    description: "Checks repair logs of vintage electronics: command line and language server.",
    license: own.license,
    keywords: own.keywords,
    homepage: own.homepage,
    repository: own.repository,
    bugs: own.bugs,
    engines: { node: own.engines.node },
    bin: own.bin,
    files: FILES,
  };
  writeFileSync(join(target, "package.json"), `${JSON.stringify(described, null, 2)}\n`);
}

if (process.argv[1] === import.meta.filename) {
  const root = join(import.meta.dirname, "../..");
  writeNpmPackage(root, join(root, "dist/npm"));
}
