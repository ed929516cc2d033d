import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import { changesBelow } from "../../server/src/cli/changes";
import { run } from "./memory";

const LOG =
  "---\nmendlog: 1\n---\n\n## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U1 | 1 | O.58 |\n";

describe("checking again after every change", () => {
  it("checks what bears on it, and ends with the last status", async () => {
    async function* changes() {
      yield ["/w/notes.txt"];
      yield ["/w/a.md", "/w/b.md"];
      yield ["/w/notes.txt", "/w/x.board.yaml"];
      yield [".gitignore"];
    }
    const { out, code } = await run(["check", "--watch"], { "a.md": LOG }, { changes });
    expect(out.match(/1 log and 0 knowledge files checked/g)).toHaveLength(4);
    expect(code).toBe(1);
  });

  it.each([
    [["--watch", "--stdin"], "--watch goes with neither"],
    [["--watch", "-o", "x.txt"], "--watch goes with neither"],
    [["--watch"], "needs a system that tells of changes"],
  ])("is refused with %j where it cannot be", async (args, said) => {
    const { err, code } = await run(["check", ...args], { "a.md": LOG });
    expect(err).toContain(said);
    expect(code).toBe(2);
  });
});

describe("changes on the disk", () => {
  let folder = "";
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  it("are told together, from the call on, also those that come while nobody waits", async () => {
    folder = mkdtempSync(join(tmpdir(), "mendlog-changes-"));
    mkdirSync(join(folder, "logs"));
    const changes = changesBelow([folder, join(folder, "nowhere")])[Symbol.asyncIterator]();
    const seen = new Set<string>();
    const until = async (name: string): Promise<void> => {
      while (!seen.has(join(folder, name))) for (const path of (await changes.next()).value) seen.add(path);
    };
    await new Promise((go) => setTimeout(go, 300));
    writeFileSync(join(folder, "logs", "a.md"), "1");
    writeFileSync(join(folder, "b.md"), "1");
    await until("logs/a.md");
    await until("b.md");
    writeFileSync(join(folder, "c.md"), "1");
    await new Promise((go) => setTimeout(go, 400));
    await until("c.md");
    await changes.return?.();
  });
});
