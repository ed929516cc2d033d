// General-purpose language servers from npm, to be measured beside ours: put into a cache folder outside of the project, so
// that none of them weighs on its own packages. A second call costs one file read.
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { homedir } from "node:os";
import { join } from "node:path";

/** The only place a version is named; a change here installs again. */
export const VERSIONS = {
  "unified-language-server": "4.1.0",
  unified: "11.0.5",
  "remark-parse": "11.0.0",
  "remark-gfm": "4.0.1",
  "remark-frontmatter": "5.0.0",
  "remark-lint": "10.0.1",
  "remark-lint-no-duplicate-headings": "4.0.1",
  "yaml-language-server": "2.0.0",
  "vscode-json-languageserver": "1.3.4",
  "vscode-markdown-languageserver": "0.5.0",
  "markdown-it": "14.1.0",
};

/** @returns {string} absolute path of the folder that holds `node_modules` */
export function install() {
  const folder = process.env.MENDLOG_SERVERS_CACHE || join(homedir(), ".cache", "mendlog-servers");
  const stamp = join(folder, "complete.json");
  const wanted = JSON.stringify(VERSIONS);
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === wanted) return folder;
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, "package.json"), JSON.stringify({ private: true, dependencies: VERSIONS }));
  const { status, stderr } = spawnSync("npm", ["install", "--no-audit", "--no-fund"], {
    cwd: folder,
    encoding: "utf8",
  });
  if (status !== 0) throw new Error(`The servers could not be installed:\n${stderr}`);
  writeFileSync(stamp, wanted);
  return folder;
}
