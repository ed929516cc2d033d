// Every command by files that cannot be read: what is wrong with them, by their names, and the exit code 2.
import { describe, expect, test } from "vitest";
import { BOARD, CLEAN, type Entry, type Files, run } from "./memory";

const LATIN = new Uint8Array([...new TextEncoder().encode("---\nmendlog: 1\n---\n\n4.7 "), 0xb5, 0x46, 10]);
const UTF16 = new Uint8Array([
  0xff,
  0xfe,
  ...new Uint8Array(new Uint16Array([...CLEAN].map((c) => c.charCodeAt(0))).buffer),
]);

const ODD: readonly (readonly [string, Entry, string])[] = [
  ["binary", new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0, 0, 0, 13]), "is not text: it holds zero bytes"],
  ["Latin-1", LATIN, "is not UTF-8 text: see line 5. Save it as UTF-8"],
  ["UTF-16", UTF16, "is not read: it is UTF-16 text. Save it as UTF-8"],
  ["no permission", { reason: "cannot be opened: you have no permission" }, "you have no permission"],
  ["a link to nowhere", { link: "nowhere.md" }, "is not there"],
];
const bench: Files = { "boards/a.board.yaml": BOARD, "logs/1.md": CLEAN };
const COMMANDS = ["check", "report", "diagnose", "parts", "order"];

describe.each(COMMANDS)("mendlog %s", (command) => {
  test.each(ODD)("of a log that is %s", async (_, entry, reason) => {
    const { code, out, err, written } = await run([command, "logs/odd.md"], {
      ...bench,
      "logs/odd.md": entry,
    });
    expect([code, written.size]).toEqual([2, 0]);
    expect(err).toContain("mendlog: logs/odd.md ");
    expect(err).toContain(reason);
    expect(`${out}${err}`).not.toContain("a fault in Mendlog");
  });

  test.each([
    ["is not there", "logs/none.md", /logs\/none\.md is not there/],
    ["is in a file", "logs/1.md/x.md", /logs\/1\.md\/x\.md is not there/],
  ])("of a log that %s", async (_, path, reason) => {
    const { code, err } = await run([command, path], bench);
    expect(code).toBe(2);
    expect(err).toMatch(reason);
  });

  test.each(ODD)("beside a board file that is %s", async (_, entry, reason) => {
    const { code, err } = await run([command, "logs/1.md"], { ...bench, "boards/a.board.yaml": entry });
    expect(err).toContain("mendlog: boards/a.board.yaml ");
    expect(err).toContain(reason);
    expect(code).toBe(2);
  });
});

test.each(ODD)("a new log by a board file that is %s", async (_, entry, reason) => {
  const files = { ...bench, "boards/a.board.yaml": entry };
  const { code, out, err, written } = await run(["new", "--board", "example", "-o", "logs"], files);
  expect([code, out, written.size]).toEqual([2, "", 0]);
  expect(err).toContain('describes "example"');
  expect(err).toContain(reason);
});

test.each(["check", "report", "parts", "order"])(
  "what %s writes goes to no folder and to none that is not there",
  async (command) => {
    for (const output of ["logs", "nowhere/out.json", "logs/1.md/out.json"]) {
      const { code, err, written } = await run([command, "logs/1.md", "-o", output], bench);
      expect([output, code, written.size]).toEqual([output, 2, 0]);
      expect(err).toContain(`mendlog: ${output} `);
    }
  },
);
