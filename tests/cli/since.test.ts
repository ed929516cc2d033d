import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { changedSince } from "../../server/src/cli/git";
import { run } from "./memory";

let root = "";
const git = (...args: string[]) =>
  execFileSync("git", ["-c", "user.name=Bench", "-c", "user.email=bench@example.org", ...args], {
    cwd: root,
    stdio: "pipe",
  });
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), "mendlog-since-"));
  mkdirSync(join(root, "logs"));
  for (const name of ["a.md", "logs/b.md", "logs/c d.md"]) writeFileSync(join(root, name), "one\n");
  git("init", "-q");
  git("add", "-A");
  git("commit", "-qm", "one");
  writeFileSync(join(root, "logs/c d.md"), "two\n");
  writeFileSync(join(root, "logs/new.md"), "two\n");
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

describe("what changed since a revision", () => {
  it("is what git says has changed and what it does not know, below the folder", async () => {
    const all = await changedSince("HEAD", root);
    expect(all.ok && [...all.value].sort()).toEqual(
      ["logs/c d.md", "logs/new.md"].map((name) => join(root, name)),
    );
    const below = await changedSince("HEAD", join(root, "logs"));
    expect(below.ok && below.value.length).toBe(2);
  });

  it.each(["nowhere", "--output=x", "HEAD~7", ""])("is told of what is no revision: %j", async (revision) => {
    const { ok, ...rest } = await changedSince(revision, root);
    expect(ok).toBe(false);
    expect(rest).toMatchObject({ reason: expect.stringMatching(/is no revision|could not be looked up/) });
  });

  it("is all that is checked, judged by the rest", async () => {
    const log = (n: number) =>
      `---\nmendlog: 1\njob: ${n}\n---\n\n## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U1 | 1 | O.58 |\n`;
    const files = { "a.md": log(1), "b.md": log(2) };
    const since = async () => ({ ok: true as const, value: ["/w/b.md", "/w/gone.md"] });
    const { out, code } = await run(["check", "--since", "main"], files, { changedSince: since });
    expect(out).toContain("b.md:10:");
    expect(out).not.toContain("a.md:10:");
    expect(code).toBe(1);
  });

  it("cannot be asked for without git: that is said, and nothing is called checked", async () => {
    const { err, code } = await run(["check", "--since", "main"], { "a.md": "" });
    expect(err).toContain("--since main needs git, which is not here");
    expect(code).toBe(2);
  });
});
