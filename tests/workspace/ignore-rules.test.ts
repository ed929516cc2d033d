import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import { IgnoreRules } from "../../server/src/workspace/ignore-rules";
import { nodeHost, uriOf } from "../../server/src/workspace/node-host";
import { run } from "../cli/memory";

let root = "";
afterEach(() => rmSync(root, { recursive: true, force: true }));

describe("files that are left out", () => {
  it("are told by the rules of the folders above them, the innermost last", () => {
    const rules = new IgnoreRules();
    expect(rules.ignores("logs/a.md")).toBe(false);
    rules.add("", "*.md\nold/\n");
    rules.add("logs/", "!a.md\n");
    expect(
      ["logs/a.md", "logs/b.md", "a.md", "old/x.board.yaml", "logs/"].map((path) => rules.ignores(path)),
    ).toEqual([false, true, true, true, false]);
  });

  it("are not checked unless they are named", async () => {
    const log =
      "---\nmendlog: 1\n---\n\n## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U1 | 1 | O.58 |\n";
    const files = { ".mendlogignore": "drafts/\n", "drafts/a.md": log, "b.md": log };
    expect((await run(["check", "."], files)).out).toContain("1 log and 0 knowledge files checked");
    expect((await run(["check", "drafts"], files)).out).toContain("1 log and 0 knowledge files checked");
    expect((await run(["check", "drafts/a.md"], files)).out).toContain("drafts/a.md:9:");
  });

  it("are not listed, nor taken in when they change; a change of the rules is heard", async () => {
    root = mkdtempSync(join(tmpdir(), "mendlog-rules-"));
    mkdirSync(join(root, "logs"));
    for (const name of ["a.md", "logs/b.md"]) writeFileSync(join(root, name), "");
    writeFileSync(join(root, ".gitignore"), "logs/\n");
    const host = nodeHost([uriOf(root)]);
    const uri = (name: string): string => uriOf(join(root, name));
    expect(await host.list()).toEqual([uri("a.md")]);
    host.fileChanged(uri("logs/b.md"), true);
    expect(await host.list()).toEqual([uri("a.md")]);
    writeFileSync(join(root, ".gitignore"), "a.md\n");
    host.fileChanged(uri(".gitignore"), true);
    expect(await host.list()).toEqual([uri("logs/b.md")]);
  });
});
