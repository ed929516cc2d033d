import { describe, expect, test } from "vitest";
import { version } from "../../package.json";
import { sarifErrors } from "../report/sarif-schema";
import { BOARD, BROKEN, CLEAN, FAULTY, type Files, run, runJson } from "./memory";

const SHOP = "mendlog-shop: 1\nname: Test bench\n";
const bench: Files = {
  "boards/a.board.yaml": BOARD,
  "logs/1.md": CLEAN,
  "logs/2.md": FAULTY,
  "notes.md": "# Not a log\n",
};

describe("exit status", () => {
  test.each([
    ["nothing found", ["logs/1.md"], 0],
    ["a warning", ["logs/2.md"], 1],
    ["a warning, failing on errors only", ["--fail-on", "error", "logs/2.md"], 0],
    [
      "a warning made an error",
      ["--fail-on", "error", "--severity", "unknown-designator=error", "logs/2.md"],
      1,
    ],
    ["a warning left out", ["--severity=unknown-designator=off", "logs/2.md"], 0],
    [
      "a warning left out and taken back",
      ["--severity=unknown-designator=off", "--severity=unknown-designator=default", "logs/2.md"],
      1,
    ],
    ["findings, never failing", ["--fail-on=never", "."], 0],
    ["a path that is not there", ["logs/1.md", "logs/9.md"], 2],
    ["an unknown option", ["--farmat", "json"], 2],
    ["an unknown format", ["--format", "xml"], 2],
    ["an option of no check", ["--option", "no-check.x=1"], 2],
    ["an option without a number", ["--option", "net-disagreement.margin=wide"], 2],
    ["an option out of its bounds", ["--option", "net-disagreement.margin=500"], 2],
    ["an unknown check", ["--severity", "unknown-desgnator=off"], 2],
    ["a severity without a level", ["--severity", "unknown-designator"], 2],
    ["a path with --stdin", ["--stdin", "logs/1.md"], 2],
    ["--stdin-path without --stdin", ["--stdin-path", "a.md"], 2],
  ])("%s", async (_, args, code) => {
    const ran = await run(["check", ...args], bench);
    expect(ran.code).toBe(code);
    expect(ran.err === "").toBe(code !== 2);
  });

  test("no command or an unknown one is wrong use, help and version are not", async () => {
    expect(await run([], bench)).toMatchObject({ code: 2, out: "" });
    const chek = await run(["chek"], bench);
    expect(chek).toMatchObject({ code: 2, err: expect.stringContaining("Did you mean check?") });
    expect(await run(["serve"], bench)).toMatchObject({ code: 2, err: expect.stringContaining("--stdio") });
    expect(await run(["serve", "--stdio"], bench)).toMatchObject({ code: 0, out: "served" });
    expect(await run(["--version"], bench)).toMatchObject({ code: 0, out: `${version}\n` });
  });

  test.each([[["--help"]], [["check", "--help"]], [["serve", "-h"]]])(
    "%j says how it is used, in lines that a terminal holds",
    async (args) => {
      const { code, out, err } = await run(args, bench);
      expect([code, err]).toEqual([0, ""]);
      expect(out.split("\n").every((line) => line.length <= 110)).toBe(true);
    },
  );

  test("wrong use says what is wrong and what would be right", async () => {
    const said = async (...args: string[]) => (await run(["check", ...args], bench)).err;
    expect(await said("--format", "xml")).toContain('--format takes human, json, sarif, not "xml".');
    expect(await said("--severity", "unknown-desgnator=off")).toContain("Did you mean unknown-designator?");
    expect(await said("--farmat")).toContain("--farmat");
    expect(await said("--severity", "unknown-heading=loud")).toContain("hint, off, default");
  });
});

describe("what is checked", () => {
  test("logs and knowledge files below the path; other Markdown is counted and left alone", async () => {
    const { codes, json } = await runJson(["."], {
      ...bench,
      "boards/b.board.yaml": "mendlog-board: 1\nid: 3\n",
    });
    expect(Object.keys(codes)).toEqual([
      "boards/a.board.yaml",
      "boards/b.board.yaml",
      "logs/1.md",
      "logs/2.md",
    ]);
    expect(codes["boards/b.board.yaml"]).toContain("knowledge-file-invalid");
    expect(codes["logs/2.md"]).toEqual(["unknown-designator"]);
    expect(json.summary).toMatchObject({ logs: 2, knowledgeFiles: 2, otherMarkdown: 1 });
  });

  test("without a path, the current folder is", async () => {
    expect((await runJson([], bench)).codes).toEqual((await runJson(["."], bench)).codes);
  });

  test("a file named twice, or reached by a link too, is checked once", async () => {
    const files: Files = { ...bench, "logs/twin.md": { link: "2.md" }, again: { link: "logs" } };
    const { codes } = await runJson([".", "logs", "logs/2.md"], files);
    expect(Object.values(codes).flat()).toEqual(["unknown-designator"]);
    expect(Object.keys(codes)).toHaveLength(3);
  });

  test("a link that leads out of the folder is not followed, and is told where it has the name of a file of ours", async () => {
    const files: Files = {
      ...bench,
      "/else/9.md": FAULTY,
      "/else/x.board.yaml": BOARD,
      "logs/away": { link: "/else" },
      "logs/x.board.yaml": { link: "/else/x.board.yaml" },
    };
    const { json } = await runJson(["logs/1.md", "logs"], files);
    expect(json.summary.logs).toBe(2);
    expect(json.problems).toEqual([
      { path: "logs/x.board.yaml", message: "is a link that leads out of the folder, so it is not read" },
    ]);
  });

  test("a link back up the tree does not make the walk go on for ever", async () => {
    const { code, codes } = await runJson(["."], {
      ...bench,
      "logs/up": { link: "../.." },
      "logs/me": { link: "me" },
    });
    expect(code).toBe(1);
    expect(Object.keys(codes)).toHaveLength(3);
  });

  test("node_modules and hidden folders are entered only where they are named", async () => {
    const files = { ...bench, ".old/3.md": FAULTY, "node_modules/x/4.md": FAULTY };
    expect(Object.keys((await runJson(["."], files)).codes)).not.toContain(".old/3.md");
    expect(Object.keys((await runJson([".old"], files)).codes)).toEqual([".old/3.md"]);
  });

  test("a file outside the current folder is shown by its whole path", async () => {
    const { codes } = await runJson(["../else"], { "/else/logs/2.md": FAULTY, "/else/a.board.yaml": BOARD });
    expect(codes).toEqual({ "/else/a.board.yaml": [], "/else/logs/2.md": ["unknown-designator"] });
  });
});

describe("what a path is judged by", () => {
  test("the nearest folder with a shop file, and nothing outside it", async () => {
    const files: Files = {
      "one/mendlog.shop.yaml": SHOP,
      "one/boards/a.board.yaml": BOARD,
      "one/logs/2.md": FAULTY,
      "two/mendlog.shop.yaml": SHOP,
      "two/logs/2.md": FAULTY,
    };
    const { codes } = await runJson(["one/logs", "two/logs/2.md"], files);
    expect(codes).toEqual({ "one/logs/2.md": ["unknown-designator"], "two/logs/2.md": ["unknown-board"] });
  });

  test("without a shop file, the current folder where it holds the path, else the path's folder", async () => {
    const inside = await runJson(["logs/2.md"], bench);
    expect(inside.codes).toEqual({ "logs/2.md": ["unknown-designator"] });
    const beside = await runJson(
      ["/w/logs/2.md"],
      { "/w/logs/2.md": FAULTY, "/w/a.board.yaml": BOARD },
      { cwd: "/x" },
    );
    expect(beside.codes).toEqual({ "/w/logs/2.md": ["unknown-board"] });
  });

  test("a knowledge file that is needed and cannot be read is said, though it was not asked for", async () => {
    const files = { ...bench, "boards/a.board.yaml": { reason: "cannot be opened: you have no permission" } };
    const { code, json } = await runJson(["logs/1.md"], files);
    expect(code).toBe(2);
    expect(json.problems).toEqual([
      { path: "boards/a.board.yaml", message: "cannot be opened: you have no permission" },
    ]);
  });
});

test("what cannot be read beside a file that was asked for is of no concern, unless it is knowledge", async () => {
  const files: Files = { ...bench, "odd.md": { link: "nowhere" }, "b.board.yaml": { link: "nowhere" } };
  const { json } = await runJson(["logs/1.md"], files);
  expect(json.problems.map((problem) => problem.path)).toEqual(["b.board.yaml"]);
});

describe("files that cannot be read", () => {
  const odd: Files = {
    ...bench,
    "odd/binary.md": new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0, 0, 0, 13]),
    "odd/latin.md": new Uint8Array([
      ...new TextEncoder().encode("---\nmendlog: 1\n---\n\n4.7 "),
      0xb5,
      0x46,
      10,
    ]),
    "odd/utf16.md": new Uint8Array([0xff, 0xfe, 0x2d, 0]),
    "odd/locked.md": { reason: "cannot be opened: you have no permission" },
    "odd/dangling.md": { link: "nowhere.md" },
    "odd/circle.md": { link: "circle.md" },
    "odd/huge.md": { size: 40 * 1024 * 1024, head: "---\nmendlog: 1\n---\n" },
    "odd/huge-book.md": { size: 40 * 1024 * 1024, head: "# A book\n" },
  };

  test("each is named with the reason, in every format, and the others are checked", async () => {
    const { code, json, codes, err } = await runJson(["."], odd);
    expect(code).toBe(2);
    expect(codes["logs/2.md"]).toEqual(["unknown-designator"]);
    expect(Object.fromEntries(json.problems.map((p) => [p.path, p.message]))).toEqual({
      "odd/binary.md": "is not text: it holds zero bytes",
      "odd/latin.md": "is not UTF-8 text: see line 5. Save it as UTF-8",
      "odd/utf16.md": "is not read: it is UTF-16 text. Save it as UTF-8",
      "odd/locked.md": "cannot be opened: you have no permission",
      "odd/dangling.md": "is a link that leads nowhere: its end is not there",
      "odd/circle.md": "is a link that leads nowhere: its end cannot be opened: its links lead in a circle",
      "odd/huge.md": "is not read: it is 40 MiB large, and 16 MiB is the most. Split it by job",
    });
    expect(err.split("\n").filter(Boolean)).toHaveLength(7);
    const sarif = JSON.parse((await run(["check", "--format", "sarif"], odd)).out);
    expect(sarifErrors(sarif)).toEqual([]);
    expect(sarif.runs[0].invocations[0].executionSuccessful).toBe(false);
    expect(sarif.runs[0].invocations[0].toolExecutionNotifications).toHaveLength(7);
    expect((await run(["check"], odd)).out).toContain("7 files not read");
  });

  test("a file that is neither Markdown nor knowledge is refused where it is named", async () => {
    const files = { ...bench, "picture.png": "x" };
    const ran = await run(["check", "picture.png", "logs/1.md"], files);
    expect(ran).toMatchObject({
      code: 2,
      err: "mendlog: picture.png is neither Markdown nor a knowledge file.\n",
    });
    expect((await run(["check", "."], files)).code).toBe(1);
  });
});

describe("standard input", () => {
  test("is checked as the file named, by the knowledge around it, and instead of what is on disk", async () => {
    const { code, codes } = await runJson(["--stdin", "--stdin-path", "logs/1.md"], bench, { stdin: FAULTY });
    expect(codes).toEqual({ "logs/1.md": ["unknown-designator"] });
    expect(code).toBe(1);
  });

  test("needs no file of that name", async () => {
    const { codes } = await runJson(["--stdin"], bench, { stdin: BROKEN });
    expect(codes).toEqual({ "stdin.md": ["unreadable-value"] });
  });

  test("may be a knowledge file", async () => {
    const args = ["--stdin", "--stdin-path", "boards/a.board.yaml"];
    const { codes } = await runJson(args, bench, { stdin: "mendlog-board: 1\nid: 3\n" });
    expect(codes["boards/a.board.yaml"]).toContain("knowledge-file-invalid");
    expect((await runJson(args, bench, { stdin: BOARD })).codes).toEqual({ "boards/a.board.yaml": [] });
  });

  test("that is not text is said", async () => {
    const ran = await run(["check", "--stdin"], bench, { stdin: new Uint8Array([0, 1]) });
    expect(ran).toMatchObject({
      code: 2,
      err: "mendlog: stdin.md (standard input) is not text: it holds zero bytes.\n",
    });
  });

  test("may begin with a byte order mark, which counts for nothing", async () => {
    const { json } = await runJson(["--stdin"], bench, { stdin: `\ufeff${BROKEN}` });
    const plain = await runJson(["--stdin"], bench, { stdin: BROKEN });
    expect(json).toEqual(plain.json);
    expect(json.files[0]!.findings).toHaveLength(1);
  });
});

describe("output", () => {
  test("every format shows the same findings", async () => {
    const files = { ...bench, "logs/3.md": BROKEN.replace("U14", "U41") };
    const places = (await runJson(["."], files)).json.files.flatMap(({ path, findings }) =>
      findings.map((f) => `${path}:${f.start.line}:${f.start.column} ${f.code}`),
    );
    expect(places.length).toBe(3);
    const human = (await run(["check", "."], files)).out;
    const shown = [...human.matchAll(/^(\S+:\d+:\d+): .* \[([a-z-]+)\]$/gm)].map((m) => `${m[1]} ${m[2]}`);
    expect(shown).toEqual(places);
    const sarif = JSON.parse((await run(["check", "--format=sarif", "."], files)).out);
    expect(sarifErrors(sarif)).toEqual([]);
    const results = sarif.runs[0].results.map(
      // biome-ignore lint/suspicious/noExplicitAny: SARIF is read as it comes
      ({ ruleId, locations: [{ physicalLocation: at }] }: any) =>
        `${at.artifactLocation.uri}:${at.region.startLine}:${at.region.startColumn} ${ruleId}`,
    );
    expect(results).toEqual(places);
  });

  test("--output writes the file and leaves standard output empty", async () => {
    const ran = await run(["check", "-o", "out.json", "--format=json", "logs/2.md"], bench);
    expect(ran).toMatchObject({ code: 1, out: "", err: "" });
    expect(JSON.parse(ran.written.get("/w/out.json")!).files).toHaveLength(1);
    const nowhere = await run(["check", "-o", "no/such/out.json", "logs/1.md"], bench);
    expect(nowhere).toMatchObject({
      code: 2,
      err: "mendlog: no/such/out.json cannot be written: its folder is not there.\n",
    });
  });

  test("colours are for terminals, unless something else is said", async () => {
    const coloured = async (args: string[], terminal: boolean, env: Record<string, string> = {}) =>
      (await run(["check", "logs/2.md", ...args], bench, { terminal, env })).out.includes("\u001b[");
    expect(await coloured([], true)).toBe(true);
    expect(await coloured([], false)).toBe(false);
    expect(await coloured([], true, { NO_COLOR: "1" })).toBe(false);
    expect(await coloured([], true, { NO_COLOR: "" })).toBe(true);
    expect(await coloured(["--color=always"], false, { NO_COLOR: "1" })).toBe(true);
    expect(await coloured(["--color=never"], true)).toBe(false);
  });

  test("progress shows on a terminal in a long run only, and is taken away", async () => {
    const long = await run(["check"], bench, { terminal: true, tick: 400 });
    expect(long.err).toMatch(/^\r\d of 4 files checked[\s\S]*\r\u001b\[K$/);
    expect((await run(["check"], bench, { terminal: true, tick: 1 })).err).toBe("");
    expect((await run(["check"], bench, { terminal: false, tick: 400 })).err).toBe("");
    expect((await run(["check", "--quiet"], bench, { terminal: true, tick: 400 })).err).toBe("");
  });
});
