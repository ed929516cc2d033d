import { expect, test } from "vitest";
import { boardFromWords, newLogText } from "../../server/src/features/new-log";
import { demoFiles, openDemo } from "../support/demo";
import { BOARD, CLEAN, type Files, run } from "./memory";

const bench: Files = {
  "mendlog.shop.yaml": "mendlog-shop: 1\nname: Test bench\n",
  "boards/a.board.yaml": BOARD,
  "logs/2026-001-example.md": CLEAN.replace("mendlog: 1\n", "mendlog: 1\njob: 2026-001\n"),
  "out/2026-002-example.md": "# Not a log\n",
  "out/to-nowhere.md": { link: "/else/new.md" },
};
const EXAMPLE = ["new", "--board", "example"];
const demo: Files = Object.fromEntries(
  [...demoFiles].map(([uri, text]) => [uri.replace("mem:/demo/", ""), text]),
);

test("prints the very text that the editor's new log has, and the checks have nothing against it", async () => {
  const facts = {
    board: "regatta-controller",
    owner: 'O\'Brien: <script> "x"',
    serial: "00942",
    revision: "B",
    symptoms: ["row-dead", "smells of lemon #3"],
    job: "2026-022",
    meter: "bench",
    received: "2026-03-20",
  };
  const { symptoms, ...single } = facts;
  const given = [
    ...Object.entries(single).flatMap(([name, value]) => [`--${name}`, value]),
    ...symptoms.flatMap((text) => ["--symptom", text]),
  ];
  const service = await openDemo();
  const { boards, library } = service.knowledge.snapshot();
  const { code, out, err, written } = await run(["new", ...given], demo);
  expect([code, err, written.size]).toEqual([0, "", 0]);
  expect(out).toBe(newLogText(facts, boardFromWords(facts.board, { boards, library, logs: [] }), library));

  service.open("mem:/demo/logs/new.md", out);
  expect(service.findings("mem:/demo/logs/new.md")).toEqual([]);
});

test("takes the next number and the day where none are given, and leaves blanks out", async () => {
  const { out, err } = await run([...EXAMPLE, "--owner", " ", "--symptom", ""], bench);
  expect(err).toBe("");
  expect(out).toMatch(
    /^---\nmendlog: 1\njob: 2026-002\nboard: example\nreceived: 2026-03-20\nstage: received\n---\n/,
  );
});

test.each([
  ["into the file named", "logs/mine.md", "logs/mine.md"],
  ["into a folder, called as the others are", "logs", "logs/2026-002-example.md"],
  ["beside a file that has that name already", "out", "out/2026-002-example-2.md"],
])("writes %s, and prints where", async (_, output, path) => {
  const { code, out, err, written } = await run([...EXAMPLE, "-o", output], bench);
  expect([code, err, out, [...written.keys()]]).toEqual([0, "", `${path}\n`, [`/w/${path}`]]);
  expect(written.get(`/w/${path}`)).toContain("job: 2026-002\n");
});

test.each([
  ["a file that is there", "out/2026-002-example.md", "is there already and stays as it is."],
  ["a log", "logs/2026-001-example.md", "is there already and stays as it is."],
  ["a link to nowhere", "out/to-nowhere.md", "is refused: it is a link."],
  ["another kind of file", "logs/new.txt", "logs are Markdown files"],
  ["a folder that is not there", "nowhere/new.md", "the folder nowhere is not there."],
])("never writes over or into %s", async (_, output, message) => {
  const { code, out, err, written } = await run([...EXAMPLE, "-o", output], bench);
  expect([code, out, written.size]).toEqual([2, "", 0]);
  expect(err).toContain(`mendlog: ${output} `);
  expect(err).toContain(message);
});

test.each([
  ["a day that is none", [...EXAMPLE, "--received", "2026-02-30"], 'not "2026-02-30"'],
  ["a path without --output", [...EXAMPLE, "logs/new.md"], "say --output"],
  ["an option that is none", [...EXAMPLE, "--sympton", "x"], "--sympton"],
  ["a blank path", [...EXAMPLE, "-o", ""], "A path is empty"],
])("refuses %s", async (_, args, message) => {
  const { code, out, err, written } = await run(args, bench);
  expect([code, out, written.size]).toEqual([2, "", 0]);
  expect(err).toContain(message);
  expect(err).not.toContain("\u001b");
});

const EMPTY: Files = { "notes.md": "# Nothing\n" };

test("a board in words gets an id, a title and what every job has, where no file describes it", async () => {
  const { code, out, err } = await run(["new", "--board", "Regatta controller", "--serial", "12"], EMPTY);
  expect(code).toBe(0);
  expect(err).toBe(
    'mendlog: no board file below the current folder describes "regatta-controller" yet. Readings are judged by the part numbers and rails that the log itself names.\n',
  );
  expect(out).toContain("\nboard: regatta-controller\n");
  expect(out).toContain("\n# Regatta controller 12\n");
  expect(out).toContain("## Parts on the board\n");
  expect(out).toMatch(/## Supply rails, loaded\n\n\| Rail .*\n.*\n\| \+5V /);
});

test.each([
  ["the title of a board that is there", "Example Controller", "example", ""],
  ["a name nearly like one", "exmaple", "exmaple", "Did you mean example?"],
  ["another name", "zzz\u001b[2J", "zzz-2j", 'describes "zzz-2j" yet.'],
  ["a name of other letters", "\u0440\u0435\u0433\u0430\u0442\u0430", "board", 'describes "board" yet.'],
])("%s is written down, and told where no file describes it", async (_, words, id, note) => {
  const { code, out, err } = await run(["new", "--board", words], {
    ...bench,
    "boards/a.board.yaml": BOARD.replace(/^title: .*$/m, "title: Example controller"),
  });
  expect([code, out.match(/^board: (.*)$/m)?.[1]]).toEqual([0, id]);
  if (note === "") expect(err).toBe("");
  else expect(err).toContain(note);
  expect(err).not.toContain("\u001b");
});

test.each([["none"], ["a blank one"]])(
  "without a board the log is written, and that is told: %s",
  async (given) => {
    const { code, out, err } = await run(["new", ...(given === "none" ? [] : ["--board", " "])], bench);
    expect([code, out.includes("board:")]).toEqual([0, false]);
    expect(err).toContain("mendlog: no board is named.");
  },
);

test("the second log of a board has the rails that the first one named", async () => {
  const first =
    "---\nmendlog: 1\njob: 2026-001\nboard: regatta\n---\n\n## Supply rails\n\n| Rail | Reading |\n|-|-|\n| -12V | -12.1 |\n";
  const { out, err } = await run(["new", "--board", "Regatta"], { "logs/one.md": first });
  expect(out).toMatch(/## Supply rails, loaded\n\n\| Rail .*\n.*\n\| -12V /);
  expect(out).toContain("\n# Regatta\n");
  expect(err).toContain("What its earlier logs say of it holds for this one too.");
});

test("what does not fit is told, and the log is written all the same", async () => {
  const given = ["--job", "2026-001", "--revision", "Q", "--symptom", "row-ded", "--meter", "nix"];
  const { code, out, err } = await run([...EXAMPLE, ...given], bench);
  expect(code).toBe(0);
  expect(out).toContain("job: 2026-001\n");
  expect(err).toMatchInlineSnapshot(`
    "mendlog: 2026-001 is the number of another log already.
    mendlog: the board file has no revision "Q"; it has A, B.
    mendlog: line 9 of the new log: No meter "nix" is described, so its accuracy is not known. Add it under meters in mendlog.shop.yaml.
    "
  `);
});
