// Makes the .vsix of what is built, the same bytes from the same files: the packer sorts its entries and gives all of them
// one time where SOURCE_DATE_EPOCH says which, and writes that time as the clock of the place has it, so the place is fixed
// as well (https://reproducible-builds.org/specs/source-date-epoch/).
//
//   node server/build/package.js [path of the .vsix] [--most BYTES]
import { spawnSync } from "node:child_process";
import { readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { withoutPictures } from "./readme.js";

/** The earliest that a zip can say: 1980-01-02, in seconds. */
const EARLIEST = "315619200";
const root = join(import.meta.dirname, "../..");
const {
  positionals: [path = "dist/mendlog.vsix"],
  values: { most },
} = parseArgs({ allowPositionals: true, options: { most: { type: "string" } } });

/**
 * The editor's gallery takes three numbers and no word behind them, and has no version twice: what npm calls 1.0.0-rc.2 is
 * 0.99.2 there, marked as a version before the release, so that 1.0.0 is still free and newer.
 */
function numberedFor(gallery) {
  const candidate = /^1\.0\.0-rc\.(\d+)$/.exec(gallery);
  if (!candidate) return [];
  return [`0.99.${candidate[1]}`, "--pre-release", "--no-update-package-json", "--no-git-tag-version"];
}

const README = "dist/README.md";
writeFileSync(join(root, README), withoutPictures(readFileSync(join(root, "README.md"), "utf8")));

const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
const { status } = spawnSync(
  process.execPath,
  [
    "--require",
    join(import.meta.dirname, "smaller.cjs"),
    join(root, "node_modules/@vscode/vsce/vsce"),
    "package",
    ...numberedFor(version),
    "--no-dependencies",
    "--no-rewrite-relative-links",
    "--allow-unused-files-pattern",
    "--readme-path",
    README,
    "--out",
    path,
  ],
  {
    cwd: root,
    stdio: ["ignore", "inherit", "inherit"],
    env: { ...process.env, TZ: "UTC", SOURCE_DATE_EPOCH: process.env.SOURCE_DATE_EPOCH ?? EARLIEST },
  },
);
process.exitCode = status ?? 1;
if (status === 0 && most !== undefined) {
  // What programs share must not be in each of them: this is where it would show.
  const { size } = statSync(join(root, path));
  console.log(`${path}: ${size} bytes, at most ${most}`);
  if (size > Number(most)) process.exitCode = 1;
}
