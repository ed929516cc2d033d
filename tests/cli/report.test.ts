import { describe, expect, test } from "vitest";
import { BOARD, CLEAN, type Files, run } from "./memory";

const PNG = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0);
const LOG = `${CLEAN}\n![the board](../photos/board.png)\n`;
const bench: Files = {
  "mendlog.shop.yaml": "mendlog-shop: 1\nname: Test bench\nreport: { warranty: None at all. }\n",
  "boards/a.board.yaml": BOARD,
  "logs/1.md": LOG,
  "logs/notes.md": "# Not a log\n",
  "photos/board.png": PNG,
  "out/old.html": "mine",
};

describe("mendlog report", () => {
  test("writes a page to standard output, with the board, the shop and the picture in it", async () => {
    const { code, out, err, written } = await run(["report", "logs/1.md"], bench);
    expect([code, err, written.size]).toEqual([0, "", 0]);
    expect(out).toMatch(/^<!DOCTYPE html>/);
    expect(out).toContain("Example board");
    expect(out).toContain("None at all.");
    expect(out).toContain(`data:image/png;base64,${Buffer.from(PNG).toString("base64")}`);
  });

  test("takes the format asked for, else that of the file's ending", async () => {
    const md = await run(["report", "logs/1.md", "--format", "md"], bench);
    expect(md.out).toMatch(/^# Repair report: Example board\n/);
    const json = await run(["report", "logs/1.md", "-o", "out/1.json"], bench);
    expect(json.code).toBe(0);
    expect(JSON.parse(json.written.get("/w/out/1.json")!)).toMatchObject({ format: 1, shop: "Test bench" });
  });

  test.each([
    ["no log", ["report"], "Name the log"],
    ["two logs", ["report", "logs/1.md", "logs/1.md"], "one log"],
    ["another format", ["report", "logs/1.md", "--format", "pdf"], 'takes html, md, json, not "pdf"'],
    ["--force without a file", ["report", "logs/1.md", "--force"], "--output only"],
    ["a log that is not there", ["report", "logs/9.md"], "logs/9.md is not there"],
    ["a folder", ["report", "logs"], "logs is not a log"],
    ["other Markdown", ["report", "logs/notes.md"], 'no "mendlog: 1"'],
    ["a board file", ["report", "boards/a.board.yaml"], "is not a log"],
  ])("refuses %s", async (_, args, message) => {
    const { code, out, err } = await run(args, bench);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toContain(message);
  });
});

describe.each([
  ["bill", "Bill: Example board", "Name the log to write the bill of"],
  ["sheet", "Bench sheet: Example board", "Name the log to print the tables of"],
])("mendlog %s", (command, title, asked) => {
  test("writes it in every form, and to a file by its ending", async () => {
    for (const format of ["html", "md"])
      expect((await run([command, "logs/1.md", "--format", format], bench)).out).toContain(title);
    const json = await run([command, "logs/1.md", "-o", "out/1.json"], bench);
    expect(json.code).toBe(0);
    expect(JSON.parse(json.written.get("/w/out/1.json")!)).toMatchObject({ format: 1, title });
  });

  test("says what it needs, and writes over no log", async () => {
    expect((await run([command], bench)).err).toContain(asked);
    const over = await run([command, "logs/1.md", "-o", "logs/1.md", "--force"], bench);
    expect([over.code, over.written.size]).toEqual([2, 0]);
    expect((await run([command, "--help"], bench)).out).toMatch(new RegExp(`^mendlog ${command} `));
  });
});

test.each([
  ["check", ["check", "logs", "--fail-on", "never", "--force"]],
  ["parts", ["parts", "logs/1.md", "--force"]],
  ["order", ["order", "--force"]],
])("%s never writes over what it reads", async (_, args) => {
  for (const path of ["logs/1.md", "boards/a.board.yaml", "mendlog.shop.yaml"]) {
    const { code, err, written } = await run([...args, "-o", path], bench);
    expect([path, code, written.size]).toEqual([path, 2, 0]);
    expect(err).toContain(`${path} is refused: it is a `);
  }
  const other = await run([...args, "-o", "out/old.html"], bench);
  expect([other.code, [...other.written.keys()]]).toEqual([0, ["/w/out/old.html"]]);
});

describe("--output", () => {
  const into = (output: string, files: Files = bench, ...more: string[]) =>
    run(["report", "logs/1.md", "-o", output, ...more], files);

  test("never writes over a file without --force", async () => {
    const refused = await into("out/old.html");
    expect(refused).toMatchObject({ code: 2, err: expect.stringContaining("--force") });
    expect(refused.written.size).toBe(0);
    const forced = await into("out/old.html", bench, "--force");
    expect([forced.code, forced.err, [...forced.written.keys()]]).toEqual([0, "", ["/w/out/old.html"]]);
  });

  test.each(["logs/1.md", "boards/a.board.yaml", "mendlog.shop.yaml"])(
    "never writes over %s at all",
    async (path) => {
      const { code, err, written } = await into(path, bench, "--force", "--format", "html");
      expect([code, written.size]).toEqual([2, 0]);
      expect(err).toContain("is refused");
    },
  );

  test.each([
    ["above the folder", "../r.html", {}],
    ["elsewhere", "/else/r.html", { "/else/x.txt": "" }],
    ["elsewhere by a linked folder", "exit/r.html", { exit: { link: "/else" }, "/else/x.txt": "" }],
  ])("is refused %s", async (_, output, more) => {
    const { code, err, written } = await into(output, { ...bench, ...more });
    expect([code, written.size]).toEqual([2, 0]);
    expect(err).toContain("outside");
  });

  test("is refused on a link, even one that leads nowhere yet, and on a folder", async () => {
    const linked = await into(
      "out/new.html",
      { ...bench, "out/new.html": { link: "/else/new.html" } },
      "--force",
    );
    expect(linked).toMatchObject({ code: 2, err: expect.stringContaining("link") });
    expect(linked.written.size).toBe(0);
    expect(await into("out", bench, "--force")).toMatchObject({
      code: 2,
      err: expect.stringContaining("not a file"),
    });
    expect((await into("nowhere/r.html")).err).toContain("its folder is not there");
  });

  test("may go into the log's workspace from outside it", async () => {
    const { code, written } = await run(["report", "/w/logs/1.md", "-o", "/w/out/r.html"], absolute(bench), {
      cwd: "/home",
    });
    expect([code, [...written.keys()]]).toEqual([0, ["/w/out/r.html"]]);
  });
});

test("pictures outside the workspace are left out, reached by dots or by links", async () => {
  const files: Files = {
    ...bench,
    "photos/board.png": { link: "/else/secret.png" },
    "/else/secret.png": PNG,
    "logs/1.md": `${LOG}\n![up](../../else/secret.png) ![gone](nothing.png)\n`,
  };
  const { out } = await run(["report", "logs/1.md"], files);
  expect(out).not.toContain("data:image");
  expect(out.match(/because it is not in the workspace/g)).toHaveLength(2);
  expect(out).toContain("nothing.png, because it is not there");
});

const absolute = (files: Files): Files =>
  Object.fromEntries(Object.entries(files).map(([path, entry]) => [`/w/${path}`, entry]));
