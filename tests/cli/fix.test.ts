import { describe, expect, it } from "vitest";
import { run } from "./memory";

/** A table without its delimiter row, which is certain, and a letter for a digit, which is a guess at what was read. */
const LOG = `---
mendlog: 1
---

## Diode check

| Ref | Pin | Reading |
| U1  | 1   | 0.58    |
| U1  | 2   | O.58    |
`;
const FIXED = LOG.replace("| Reading |\n", "| Reading |\n| --- | --- | ------- |\n");

describe("the fixes that leave no doubt", () => {
  it("are made in the file, and what is left is told", async () => {
    const { written, out, err } = await run(["check", "--fix", "a.md"], { "a.md": LOG });
    expect([...written.values()]).toEqual([FIXED]);
    expect(err).toMatch(/^mendlog: a\.md has a fix made: /m);
    expect(out).toContain("a.md:10:");
    expect(out).toContain("O.58");
  });

  it("keep a byte order mark and the ends of the lines", async () => {
    const marked = `\uFEFF${LOG.replaceAll("\n", "\r\n")}`;
    const { written } = await run(["check", "--fix", "a.md"], { "a.md": marked });
    expect([...written.values()]).toEqual([`\uFEFF${FIXED.replaceAll("\n", "\r\n")}`]);
  });

  it("are told and not made in a dry run", async () => {
    const { written, err, out } = await run(["check", "--fix-dry-run", "a.md"], { "a.md": LOG });
    expect(written.size).toBe(0);
    expect(err).toMatch(/a\.md has a fix that would be made: /);
    expect(out).toContain("a.md:");
  });

  it("are none where only guesses are left", async () => {
    const { written, err } = await run(["check", "--fix", "a.md"], { "a.md": FIXED });
    expect(written.size).toBe(0);
    expect(err).toBe("");
  });

  it("are not made through a link or in a file that cannot be written, which is told", async () => {
    const linked = await run(["check", "--fix", "b.md"], { "a.md": LOG, "b.md": { link: "a.md" } });
    expect(linked.written.size).toBe(0);
    expect(linked.err).toContain("b.md stays as it is: it is a link");
    expect(linked.code).toBe(2);
    const kept = await run(["check", "--fix", "a.md"], {
      "a.md": { text: LOG, kept: "cannot be opened: you have no permission" },
    });
    expect(kept.written.size).toBe(0);
    expect(kept.err).toContain("a.md cannot be opened: you have no permission");
    expect(kept.code).toBe(2);
  });

  it.each([
    [["--fix", "--fix-dry-run"], "not both"],
    [["--fix", "--stdin"], "--fix is for files"],
  ])("are refused with %j", async (args, said) => {
    const { err, code } = await run(["check", ...args], { "a.md": LOG });
    expect(err).toContain(said);
    expect(code).toBe(2);
  });
});
