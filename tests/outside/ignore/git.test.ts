// What is left out of a folder, against git itself (`git ls-files --others --exclude-standard`, gitignore(5)), whose patterns
// these are. MENDLOG_REQUIRE_OUTSIDE=1 makes its absence a failure.
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { findFiles } from "../../../server/src/cli/find-files";
import { nodeDisk } from "../../../server/src/cli/node-disk";
import { nodeHost, pathOf } from "../../../server/src/workspace/node-host";

const hasGit = spawnSync("git", ["--version"]).status === 0;
const REQUIRED = process.env.MENDLOG_REQUIRE_OUTSIDE === "1";

const FOLDERS = ["", "logs/", "logs/2025/", "old/", "old/logs/"];
const FILES = FOLDERS.flatMap((folder) => ["a.md", "b.md", "x.board.yaml"].map((name) => `${folder}${name}`));
const PATTERNS = [
  "*.md",
  "!a.md",
  "!b.md",
  "b.md",
  "/a.md",
  "logs",
  "logs/",
  "/logs/",
  "!logs/2025/",
  "logs/*",
  "2025/b.md",
  "**/b.md",
  "old/**",
  "!old/logs/",
  "*.yaml",
  "# words",
  "",
  "\\!a.md",
  "a.m?",
  "[ab].md",
  "logs/2025/a.md",
];
const rules = fc.array(fc.constantFrom(...PATTERNS), { maxLength: 4 });
const said = fc.record(
  Object.fromEntries(FOLDERS.map((folder) => [folder, fc.option(rules, { nil: undefined })])),
);

describe.skipIf(!hasGit && !REQUIRED)("what a folder leaves out", () => {
  it("is what git leaves out, at the command line and in the editor", async () => {
    await fc.assert(
      fc.asyncProperty(said, async (all) => {
        const root = mkdtempSync(join(tmpdir(), "mendlog-ignore-"));
        try {
          for (const name of FILES) {
            mkdirSync(dirname(join(root, name)), { recursive: true });
            writeFileSync(join(root, name), "");
          }
          for (const [folder, lines] of Object.entries(all))
            if (lines) writeFileSync(join(root, folder, ".gitignore"), `${lines.join("\n")}\n`);
          const git = (...args: string[]) => spawnSync("git", args, { cwd: root, encoding: "utf8" });
          git("init", "-q");
          const kept = git("-c", "core.excludesFile=/dev/null", "ls-files", "--others", "--exclude-standard")
            .stdout.split("\n")
            .filter((name) => name !== "" && !name.endsWith(".gitignore"))
            .sort();
          const found = await findFiles(nodeDisk(), root);
          expect(found.files.map(({ path }) => path.slice(root.length + 1)).sort()).toEqual(kept);
          const listed = await nodeHost([pathToFileURL(root).href]).list();
          expect(listed.map((uri) => pathOf(uri)!.slice(root.length + 1)).sort()).toEqual(kept);
        } finally {
          rmSync(root, { recursive: true, force: true });
        }
      }),
      { numRuns: 60 * Number(process.env.MENDLOG_FUZZ ?? 1) },
    );
  });
});
