import { describe, expect, test } from "vitest";
import { applyEdits } from "../../server/src/text/edits";
import { openWorld } from "../support/workspace";

const URI = "mem:/ws/log.md";
const TABLE = "\n## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U14 | 1 | 1.42 |\n";
const board = (id: string, symptom = "") =>
  `//- ${id}.board.yaml\nmendlog-board: 1\nid: ${id}\ntitle: The ${id}\n${
    symptom ? `symptoms:\n  ${symptom}: { title: Nothing to see }\n` : ""
  }`;

async function asked(front: string, { body = TABLE, boards = "" } = {}) {
  const { service } = await openWorld(`${boards}//- log.md\n---\n${front}---\n${body}`);
  const found = service.findings(URI).filter(({ code }) => code === "board-not-named");
  const text = service.text(URI) ?? "";
  const fixes = found.flatMap((finding) => service.fixes(URI, finding));
  return {
    found,
    at: found.map(({ span }) => text.slice(span.start, span.end)),
    fixes,
    fronts: fixes.map(({ edits }) => /^---\n([\s\S]*?\n)---\n/.exec(applyEdits(text, edits))?.[1]),
  };
}

test.each([
  ["mendlog: 1\n", "mendlog: 1", "mendlog: 1\nboard: example\n"],
  ["mendlog: 1\njob: 4\nserial: 7\n", "mendlog: 1", "mendlog: 1\njob: 4\nboard: example\nserial: 7\n"],
  [
    "mendlog: 1\njob: >\n  two\n  lines\n",
    "mendlog: 1",
    "mendlog: 1\nboard: example\njob: >\n  two\n  lines\n",
  ],
  ["mendlog: 1\nboard:\njob: 4\n", "board:", "mendlog: 1\nboard: example\njob: 4\n"],
  ["mendlog: 1\nboard: # ask him\n", "board:", "mendlog: 1\nboard: example # ask him\n"],
  ['board: ""\nmendlog: 1\n', 'board: ""', "board: example\nmendlog: 1\n"],
  ["board: ~\nmendlog: 1\n", "board: ~", "board: example\nmendlog: 1\n"],
])("%j gets its board", async (front, at, mended) => {
  const found = await asked(front);
  expect(found.at).toEqual([at]);
  expect(found.fronts).toEqual([mended]);
  expect(found.fixes[0]).toMatchObject({ title: "Name the board: example (Example board)", preferred: true });
});

test("the line ends of the log are kept", async () => {
  const { service } = await openWorld(`---\nmendlog: 1\n---\n${TABLE}`);
  service.open(URI, `---\nmendlog: 1\n---\n${TABLE}`.replaceAll("\n", "\r\n"));
  const [finding] = service.findings(URI).filter(({ code }) => code === "board-not-named");
  const [fix] = finding ? service.fixes(URI, finding) : [];
  expect(applyEdits(service.text(URI) ?? "", fix?.edits ?? [])).toMatch(
    /^---\r\nmendlog: 1\r\nboard: example\r\n---\r\n/,
  );
});

test("of many boards three are offered, those with the symptom of the log first, and none is preferred", async () => {
  const boards = board("a") + board("b") + board("c") + board("d", "blank");
  const { fixes, found } = await asked("mendlog: 1\nsymptoms: [blank]\n", { boards });
  expect(fixes.map(({ title }) => title)).toEqual([
    "Name the board: d (The d)",
    "Name the board: a (The a)",
    "Name the board: b (The b)",
  ]);
  expect(fixes.some(({ preferred }) => preferred)).toBe(false);
  expect(found[0]?.message).toContain("Known boards: d, a, b, c.");
});

test("where there is no board file it says so and offers nothing", async () => {
  const { found, fixes } = await asked("mendlog: 1\n", { boards: "//- empty.board.yaml\n\n" });
  expect(found[0]?.message).toContain("no *.board.yaml file");
  expect(fixes).toEqual([]);
});

describe("nothing is said", () => {
  test.each([
    ["of a board that is named", "mendlog: 1\nboard: example\n", TABLE],
    ["of one that no file describes", "mendlog: 1\nboard: other\n", TABLE],
    ["of one that cannot be read", "mendlog: 1\nboard: [a, b]\n", TABLE],
    ["where nothing is measured", "mendlog: 1\n", "\n# Notes\n\nIt came in wet.\n"],
    [
      "of what the eye found",
      "mendlog: 1\n",
      "\n## Inspection\n\n| Item | Result |\n|-|-|\n| Battery | leaked |\n",
    ],
    [
      "of a table that is prose",
      "mendlog: 1\n",
      "\n## Shelf\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U1 | 1 | 2 |\n",
    ],
  ])("%s", async (_, front, body) => {
    expect((await asked(front, { body })).found).toEqual([]);
  });
});
