// The specification of a log, held to what is read: each example by what the page shows beside it, each typed value by its row.
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { loadFrontMatter, STAGES } from "../../server/src/knowledge/load-front-matter";
import type { LogDocument } from "../../server/src/log/document";
import { isLog } from "../../server/src/log/sniff";
import { expectCarets, readCarets } from "../support/carets";
import { readBody, readingsOf, readLog, valueText } from "../support/log";
import { checkFindings, openWorld } from "../support/workspace";
import { readPage, type Shown, sectionsOf } from "./page";

const PAGE = readPage("log-format.md");

interface Example {
  readonly text: string;
  /** What the page shows of it, by the language of the block. */
  readonly shows: ReadonlyMap<string, string>;
  readonly where: string;
}

/** A log or a piece of one, with the blocks behind it that say what is read. */
const EXAMPLES = sectionsOf(PAGE).flatMap(({ heading, blocks }) => examplesIn(heading, blocks));

function examplesIn(heading: string, blocks: readonly Shown[]): Example[] {
  return blocks.flatMap((block, at) => {
    if (block.language !== "markdown") return [];
    const rest = blocks.slice(at + 1);
    const next = rest.findIndex(({ language }) => language === "markdown");
    const shown = (next < 0 ? rest : rest.slice(0, next)).map(
      ({ language, text }) => [language, text] as const,
    );
    return { text: block.text, shows: new Map(shown), where: `${heading}, line ${block.line}` };
  });
}

const isWhole = ({ text }: Example): boolean => /^(?:---|\/\/- )/.test(text);
const docOf = ({ text }: Example): LogDocument => {
  const plain = readCarets(text).text;
  return plain.startsWith("---\n") ? readLog(plain) : readBody(plain);
};

/** "diode-check wide, after repair"; every table of the log in order, those that nobody reads among them. */
function tablesIn({ blocks }: LogDocument): string[] {
  const all = blocks.flatMap(({ start, block }) => [
    ...block.tables.map(({ span, procedure, shape, section: { qualifiers } }) => {
      const { repair, power, load } = qualifiers;
      const said = [repair && `${repair} repair`, power, load].filter(Boolean);
      return { at: start + span.start, text: [`${procedure.id} ${shape}`, ...said].join(", ") };
    }),
    ...block.proseTables.map(({ source }) => ({ at: start + source.span.start, text: "prose" })),
  ]);
  return all.sort((a, b) => a.at - b.at).map(({ text }) => text);
}

describe.each(EXAMPLES.map((example) => [example.where, example] as const))("%s", (_, example) => {
  const { text, shows } = example;
  const marked = readCarets(text);
  const body = `---\nmendlog: 1\nboard: example\n---\n\n${text}`;

  test("is held to something", () => {
    expect(isWhole(example) || marked.marks.length > 0 || shows.has("readings") || shows.has("tables")).toBe(
      true,
    );
  });

  if (isWhole(example))
    test("has the findings that are marked and no others", async () => {
      await checkFindings(text);
    });

  if (!isWhole(example) && marked.marks.length > 0)
    test("has the findings that are marked", async () => {
      const { service, files } = await openWorld(body);
      const codes = new Set(marked.marks.map(({ code }) => code));
      const [log] = files;
      expectCarets(
        log!.marked,
        service.findings(log!.uri).filter(({ code }) => codes.has(code)),
      );
    });

  if (shows.has("readings"))
    test("has the readings that are shown and no others", () => {
      expect(`${readingsOf(docOf(example)).join("\n")}\n`).toBe(shows.get("readings"));
    });

  if (shows.has("tables"))
    test("has the tables that are shown", () => {
      expect(`${tablesIn(docOf(example)).join("\n")}\n`).toBe(shows.get("tables"));
    });
});

/** A table with one cell of each kind of column that the page names. */
const COLUMNS: Readonly<Record<string, (typed: string) => string>> = {
  V: (typed) => `## Supply rails\n\n| Rail | DC |\n|-|-|\n| +5V | ${typed} |\n`,
  ohm: (typed) => `## Resistance\n\n| Ref | Reading |\n|-|-|\n| R1 | ${typed} |\n`,
  F: (typed) => `## Capacitance\n\n| Ref | Capacitance |\n|-|-|\n| C1 | ${typed} |\n`,
  state: (typed) => `## Logic states\n\n| Ref | Pin | State |\n|-|-|-|\n| U1 | 1 | ${typed} |\n`,
  result: (typed) => `## Chip test\n\n| Ref | Result |\n|-|-|\n| U1 | ${typed} |\n`,
  continuity: (typed) => `## Continuity\n\n| From | To | Reading |\n|-|-|-|\n| U1-1 | U2-1 | ${typed} |\n`,
};

const VALUES = [...PAGE.matchAll(/^\| `(.+?)` \| (\w+) \| (.+?) \|$/gm)]
  .map(([, typed = "", column = "", read = ""]) => [typed, column, read] as const)
  .filter(([, column]) => column in COLUMNS);

test("values of every kind of column are shown", () => {
  expect(new Set(VALUES.map(([, column]) => column))).toEqual(new Set(Object.keys(COLUMNS)));
});

test.each(VALUES)("%s in a column of %s is read as %s", (typed, column, read) => {
  const readings = readBody(COLUMNS[column]!(typed)).blocks.flatMap(({ block }) =>
    block.tables.flatMap((table) => table.readings),
  );
  expect(readings.map(({ value }) => valueText(value))).toEqual([read]);
});

test.each([
  ["a key above broken YAML", "---\nmendlog: 1\nboard: [\n---\n", true],
  ["front matter that is never closed", "---\nmendlog: 1\n\n## Diode check\n", true],
  ["a key within the first 20,000 characters", `---\nx: ${"y".repeat(19_000)}\nmendlog: 1\n---\n`, true],
  ["a key behind them", `---\nx: ${"y".repeat(20_000)}\nmendlog: 1\n---\n`, false],
  ["a key in the text", "---\ntitle: Notes\n---\n\nmendlog: 1\n", false],
  ["a blank line first", "\n---\nmendlog: 1\n---\n", false],
])("what makes a file a log: %s", (_, text, is) => {
  expect(isLog(text)).toBe(is);
});

test("the fields of the front matter are those of its schema, and the stages those of the code", () => {
  const schema = JSON.parse(
    readFileSync(new URL("../../schemas/front-matter.schema.json", import.meta.url), "utf8"),
  );
  const table = PAGE.slice(PAGE.indexOf("| Field | What it says |"), PAGE.indexOf("`stage` is one of"));
  const fields = [...table.matchAll(/^\| (.+?) \|/gm)].flatMap(([, cell = ""]) =>
    [...cell.matchAll(/`(.+?)`/g)].map(([, name = ""]) => name),
  );
  expect(fields.sort()).toEqual(Object.keys(schema.properties).sort());
  expect(PAGE).toContain(`\`stage\` is one of ${STAGES.map((stage) => `\`${stage}\``).join(", ")}.`);
});

test.each([...PAGE.matchAll(/^```yaml\n([\s\S]*?)^```$/gm)].map(([, text = ""]) => text))(
  "a piece of front matter is read without a problem: %s",
  (text) => {
    expect(loadFrontMatter(`mendlog: 1\n${text}`).problems.map(({ message }) => message)).toEqual([]);
  },
);
