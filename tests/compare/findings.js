// What changed in the findings between two commits, or between a commit and the tree as it stands: those of the demo, as the command line prints
// them, and those of every example of every check. Every finding is compared as JSON, with its place, words and fixes.
//
//   node tests/compare/findings.js COMMIT [COMMIT] [--all]
//
// Examples are the first commit's; those that only the other has are new and have nothing to be compared with. Ends with
// status 1 where anything differs.
import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";

const HERE = resolve(fileURLToPath(import.meta.url), "../../..");
/** Differences printed unless `--all` is given. */
const SHOWN = 40;

const all = process.argv.includes("--all");
const [commit, other] = process.argv.slice(2).filter((it) => !it.startsWith("-"));
if (commit === undefined) {
  console.error("usage: node tests/compare/findings.js COMMIT [COMMIT] [--all]");
  process.exit(2);
}

/** The examples that both are held to: by name, their files. */
let ours = new Map();

const work = mkdtempSync(join(tmpdir(), "compare-"));
const trees = [];
try {
  const before = tree("before", commit);
  const after = other === undefined ? HERE : tree("after", other);
  // The same demo is read by both, so that only the code differs.
  cpSync(join(before, "demo"), join(work, "demo"), { recursive: true });
  const [old, now] = [await findingsOf(before, "before"), await findingsOf(after, "after")];
  process.exitCode = report(old, now);
} finally {
  for (const it of trees) execFileSync("git", ["worktree", "remove", "--force", it], { cwd: HERE });
  rmSync(work, { recursive: true, force: true });
}

function tree(name, of) {
  const path = join(work, name);
  execFileSync("git", ["worktree", "add", "--detach", "--quiet", path, of], { cwd: HERE });
  trees.push(path);
  symlinkSync(join(HERE, "node_modules"), join(path, "node_modules"));
  return path;
}

/** @returns {Promise<Map<string, string[]>>} findings as JSON, by the demo's file or the example */
async function findingsOf(path, name) {
  const { cli, core } = await bundled(path, name);
  // What a program shares with others lies beside it, and it looks at all of it to know itself; here it is one file.
  for (const shared of ["core.cjs", "protocol.cjs"]) writeFileSync(join(work, shared), "");
  const printed = execFileSync(
    process.execPath,
    [cli, "check", "--format", "json", "--fail-on", "never", "."],
    {
      cwd: join(work, "demo"),
      encoding: "utf8",
      maxBuffer: 1 << 28,
      // Neither is to find what the other kept.
      env: { ...process.env, XDG_CACHE_HOME: join(work, `cache-${name}`) },
    },
  );
  const found = new Map(
    JSON.parse(printed).files.map(({ path, findings }) => [
      `demo ${path}`,
      findings.map((it) => JSON.stringify(it)),
    ]),
  );
  if (name === "before") ours = examplesOf(core);
  for (const [example, files] of ours) found.set(example, await inExample(core, files));
  return found;
}

/** The tree's command line, as a file, and its core, loaded. */
async function bundled(path, of) {
  const { libraryPlugin } = await import(pathToFileURL(join(path, "server/build/library.js")).href);
  const bundle = async (name, contents) => {
    const outfile = join(work, `${name}-${of}.cjs`);
    await build({
      stdin: { contents, resolveDir: join(path, "server/src"), loader: "ts" },
      outfile,
      bundle: true,
      platform: "node",
      mainFields: ["module", "main"],
      format: "cjs",
      logLevel: "error",
      plugins: [libraryPlugin.esbuild()],
    });
    return outfile;
  };
  const core = await bundle(
    "core",
    `export { Service } from "./service"; export { CHECKS } from "./checks/registry"; export { EXAMPLE_BOARD } from "./checks/example-board";`,
  );
  return { cli: await bundle("cli", `import "./cli";`), core: createRequire(import.meta.url)(core) };
}

/** Examples as the files they are made of, without their caret lines. */
function examplesOf({ CHECKS, EXAMPLE_BOARD }) {
  const found = new Map();
  for (const { code, examples } of CHECKS) {
    for (const kind of ["good", "bad"]) {
      examples[kind].forEach((example, i) => {
        // With the fixes it shows, or the text alone.
        const fixture = typeof example === "string" ? example : example.text;
        const parts = fixture.split(/^\/\/- (.+)\r?\n/m);
        const files = parts[0].trim() === "" ? [] : [["log.md", parts[0]]];
        for (let at = 1; at < parts.length; at += 2) files.push([parts[at].trim(), parts[at + 1] ?? ""]);
        if (!files.some(([name]) => name.endsWith(".board.yaml")))
          files.push(["example.board.yaml", EXAMPLE_BOARD]);
        const plain = files.map(([name, text]) => [
          `mem:/bench/${name}`,
          text.replace(/^[ \t]*\^+ [a-z0-9-]+(?:: .*)?\r?\n?/gm, ""),
        ]);
        found.set(`example ${code} ${kind} ${i + 1}`, plain);
      });
    }
  }
  return found;
}

async function inExample({ Service }, files) {
  const texts = new Map(files);
  const service = new Service({
    read: async (uri) => texts.get(uri),
    list: async () => [...texts.keys()],
    async readBytes(uri, most) {
      if (!uri.startsWith("mem:/bench/")) return { ok: false, reason: "outside" };
      const text = texts.get(uri);
      if (text === undefined) return { ok: false, reason: "absent" };
      const bytes = Uint8Array.from(text, (char) => char.charCodeAt(0));
      return bytes.length > most
        ? { ok: false, reason: "too-large", size: bytes.length }
        : { ok: true, bytes };
    },
  });
  await service.load();
  for (const [uri, text] of files) if (uri.endsWith(".md")) service.open(uri, text);
  for (const [uri] of files) await service.prepareImages(uri);
  if (files.filter(([uri]) => uri.endsWith(".md")).length > 1) for await (const _ of service.index());
  return files.flatMap(([uri]) =>
    service
      .findings(uri)
      .map((finding) => JSON.stringify({ uri, ...finding, fixes: service.fixes(uri, finding) })),
  );
}

function report(old, now) {
  const differences = [];
  for (const name of new Set([...old.keys(), ...now.keys()])) {
    const [a, b] = [old.get(name) ?? [], now.get(name) ?? []];
    for (const it of a) if (!b.includes(it)) differences.push(`- ${name}: ${it}`);
    for (const it of b) if (!a.includes(it)) differences.push(`+ ${name}: ${it}`);
  }
  const count = [...old.values()].reduce((n, all) => n + all.length, 0);
  for (const line of all ? differences : differences.slice(0, SHOWN)) console.log(line);
  if (differences.length > SHOWN && !all)
    console.log(`... and ${differences.length - SHOWN} more: --all shows them`);
  console.log(
    `${count} findings in ${old.size} files and examples compared, ${differences.length} differences.`,
  );
  return differences.length === 0 ? 0 : 1;
}
