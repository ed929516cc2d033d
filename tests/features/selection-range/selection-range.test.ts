import { expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { selectedAt } from "../../support/features";

const LOG = exampleLog(
  `# Board 7

Words *before* it.

## Diode check

| Ref | Pin | Note      |
|-----|-----|-----------|
| U14 | 2   | hot part  |
| U15 | 1   |           |

# Later
`,
  "symptoms: [dead, hums a lot]\nstage: diagnosing\n",
);
const at = (word: string): string => LOG.replace(word, `${word.slice(0, 1)}$0${word.slice(1)}`);

test("from the word through cell, row, body, table and sections to the log", async () => {
  const grown = await selectedAt(at("hot part"));
  expect(grown.slice(0, 5)).toEqual([
    "hot",
    "hot part",
    " hot part  ",
    "| U14 | 2   | hot part  |",
    "| U14 | 2   | hot part  |\n| U15 | 1   |           |",
  ]);
  expect(grown.slice(5).map((text) => text.split("\n")[0])).toEqual([
    "| Ref | Pin | Note      |",
    "## Diode check",
    "# Board 7",
    "---",
  ]);
  expect(grown.at(-1)).toBe(LOG);
});

test("in a header there is no body to select; in a heading its words come first", async () => {
  expect((await selectedAt(at("Note"))).slice(0, 4)).toEqual([
    "Note",
    " Note      ",
    "| Ref | Pin | Note      |",
    expect.stringMatching(/^\| Ref[\s\S]*U15 \| 1 {3}\| {11}\|$/),
  ]);
  expect((await selectedAt(at("Diode"))).slice(0, 3)).toEqual(["Diode", "Diode check", "## Diode check"]);
});

test("in prose: word, emphasis, paragraph", async () => {
  expect((await selectedAt(at("before"))).slice(0, 3)).toEqual(["before", "*before*", "Words *before* it."]);
});

test("in the front matter: scalar, list, pair, mapping, front matter", async () => {
  expect((await selectedAt(at("hums a lot"))).map((text) => text.split("\n")[0])).toEqual([
    "hums",
    "hums a lot",
    "[dead, hums a lot]",
    "symptoms: [dead, hums a lot]",
    "mendlog: 1",
    "mendlog: 1",
    "---",
    "---",
  ]);
});

test("an empty cell, and a place outside everything", async () => {
  expect((await selectedAt(LOG.replace("| 1   |           |", "| 1   |     $0      |"))).slice(0, 2)).toEqual(
    ["           ", "| U15 | 1   |           |"],
  );
  expect((await selectedAt(LOG.replace("# Later\n", "# Later\n\n\n$0"))).at(-1)).toContain("# Later");
});
