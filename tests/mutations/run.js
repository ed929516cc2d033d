// Are the tests worth anything? Each mutation of list.js is made in a copy of the tree, and the tests that are named with it
// are run: they must fail. Ends with status 1 where more than one in twenty is not noticed, or one can no longer be made.
//
//   node tests/mutations/run.js [part of a file's name]
//
// Not part of .ci/run: it takes about a quarter of an hour on one core. To be run when tests are taken away or made shorter.
import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { MUTATIONS } from "./list.js";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
/** What is not copied: what is fetched, made or of no use to the tests. */
const LEFT = new Set(["node_modules", ".git", "tests/editor/out", ".vscode-test"]);
const [wanted = ""] = process.argv.slice(2);

const copy = mkdtempSync(join(tmpdir(), "mendlog-mutations-"));
cpSync(ROOT, copy, { recursive: true, filter: (path) => !LEFT.has(relative(ROOT, path)) });
symlinkSync(join(ROOT, "node_modules"), join(copy, "node_modules"));

function run(command, args) {
  const { status, stdout, stderr } = spawnSync(command, args, {
    cwd: copy,
    encoding: "utf8",
    timeout: 8 * 60_000,
    env: { ...process.env, CI: "", NO_COLOR: "1" },
  });
  return { status, said: `${stdout}\n${stderr}` };
}
/** These talk to the built programs. */
const needsBuild = (tests) => tests.some((path) => /tests\/(protocol|cli\/process)/.test(path));

const survived = [];
let made = 0;
try {
  for (const { file, from, to, tests } of MUTATIONS) {
    if (!file.includes(wanted)) continue;
    const path = join(copy, "server/src", file);
    const text = readFileSync(path, "utf8");
    if (text.split(from).length !== 2) {
      survived.push(`${file}: "${from}" does not stand there once`);
      continue;
    }
    made++;
    writeFileSync(
      path,
      text.replace(from, () => to),
    );
    const broken = needsBuild(tests) && run(process.execPath, ["esbuild.config.js"]).status !== 0;
    const { status, said } = broken
      ? { status: 1, said: "does not build" }
      : run("npx", ["vitest", "run", ...tests]);
    const isCaught = status !== 0 && (broken || /\bFAIL\b/.test(said));
    const by = /FAIL\s+(.*)/.exec(said)?.[1] ?? "";
    console.log(
      `${isCaught ? "caught  " : "SURVIVED"}  ${file}: ${JSON.stringify(from.trim()).slice(0, 70)}  ${by.slice(0, 110)}`,
    );
    if (!isCaught) survived.push(`${file}: ${from} -> ${to}${status === 0 ? "" : `\n${said.slice(-800)}`}`);
    writeFileSync(path, text);
  }
} finally {
  rmSync(copy, { recursive: true, force: true });
}
console.log(`${made} mutations, ${made - survived.length} caught.`);
for (const one of survived) console.log(`not caught: ${one}`);
process.exitCode = survived.length * 20 > made ? 1 : 0;
