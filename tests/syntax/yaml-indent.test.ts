import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { builtinLibrary } from "../../server/src/knowledge/library";
import { loadBoard } from "../../server/src/knowledge/load-board";
import { fitsOf } from "../../server/src/knowledge/schema-fits";
import { parseYaml, plainValue, type YamlNode, type YamlTree } from "../../server/src/syntax/yaml";
import { applyEdits } from "../../server/src/text/edits";
import { boardHead } from "../support/boards";

const boardOf = (name: string) =>
  readFileSync(join(import.meta.dirname, `../../demo/boards/${name}.board.yaml`), "utf8");

const readAs = (tree: YamlTree): string => JSON.stringify(plainValue(tree.root));

/** The lines of the text, each once with its indentation changed by `by`; where that is nothing else, left out. */
function* shifted(text: string, by: number): Generator<{ line: number; text: string }> {
  const lines = text.split("\n");
  for (const [line, typed] of lines.entries()) {
    const indent = /^ */.exec(typed)![0].length;
    if (/^\s*(?:#.*)?$/.test(typed) || indent + by < 0) continue;
    yield { line, text: lines.with(line, " ".repeat(indent + by) + typed.trimStart()).join("\n") };
  }
}

/** A board file with the first two entries and the last of each of its sections: every way of writing, few of each. */
function fewOfEach(text: string): string {
  const sections = text.split(/^(?=\S)/m);
  return sections
    .map((section) => {
      const entries = section.split(/^(?= {2}[^ #])/m);
      return entries.filter((_, at) => at < 3 || at === entries.length - 1).join("");
    })
    .join("");
}

describe.each(["regatta-driver", "regatta-controller"])("every line of %s", (name) => {
  const text = fewOfEach(boardOf(name));
  const meant = parseYaml(text, 0, fitsOf("board"));

  test.each([1, -1])("indented by %i too much is one finding, whose fix says what was meant", (by) => {
    expect(meant.problems).toEqual([]);
    let told = 0;
    for (const { line, text: typed } of shifted(text, by)) {
      const tree = parseYaml(typed, 0, fitsOf("board"));
      const where = `line ${line + 1} of ${name}: ${typed.split("\n")[line]}`;
      // The rest is read as if nothing were wrong, and the line too.
      expect(readAs(tree), where).toBe(readAs(meant));
      if (tree.problems.length === 0) continue;
      told++;
      expect(
        tree.problems.map(({ code }) => code),
        where,
      ).toEqual(["yaml-indent"]);
      const mended = parseYaml(applyEdits(typed, tree.problems[0]?.suggestion ?? []), 0, fitsOf("board"));
      expect(mended.problems, where).toEqual([]);
      expect(readAs(mended), where).toBe(readAs(meant));
    }
    expect(told).toBeGreaterThan(40);
  });
});

test("of a whole board file too, with all that is checked of it", () => {
  const library = builtinLibrary();
  const load = (text: string) =>
    loadBoard(text, { deviceOf: (part) => library.device(part)?.device }).problems;
  const whole = boardOf("regatta-driver");
  const each = [1, -1, 2].flatMap((by) => [...shifted(whole, by)].filter((_, at) => at % 47 === 20));
  expect(each.length).toBeGreaterThan(20);
  for (const { line, text } of each) {
    const problems = load(text);
    expect(problems.length, `line ${line + 1}`).toBeLessThanOrEqual(1);
    for (const { suggestion } of problems) expect(load(applyEdits(text, suggestion ?? []))).toEqual([]);
  }
});

test("spans are those of what was typed, before and behind the line", () => {
  const text = "a: {x: 1}\nb:\n  c: 1\n   d: [2, '3']\n  e: 4\nf: *none\n";
  for (const base of [0, 100]) {
    const tree = parseYaml(text, base);
    const found: string[] = [];
    const visit = (node: YamlNode): void => {
      if (node.kind === "scalar") found.push(text.slice(node.span.start - base, node.span.end - base));
      if (node.kind === "list") for (const item of node.items) visit(item);
      if (node.kind !== "map") return;
      for (const { keySpan, value } of node.entries) {
        found.push(text.slice(keySpan.start - base, keySpan.end - base));
        visit(value);
      }
    };
    if (tree.root) visit(tree.root);
    expect(found).toEqual(["a", "x", "1", "b", "c", "1", "d", "2", "'3'", "e", "4", "f", "*none"]);
    expect(tree.problems.map((p) => text.slice(p.span.start - base, p.span.end - base))).toEqual([
      "   d: [2, '3']",
      "*none",
    ]);
  }
});

test("line ends and a byte order mark stay where they are", () => {
  const text = "\uFEFFa:\r\n  b: 1\r\n   c: 2\r\n  d: 3\r\n";
  const tree = parseYaml(text);
  expect(readAs(tree)).toBe('{"a":{"b":1,"c":2,"d":3}}');
  expect(applyEdits(text, tree.problems[0]?.suggestion ?? [])).toBe(
    "\uFEFFa:\r\n  b: 1\r\n  c: 2\r\n  d: 3\r\n",
  );
});

describe("leaves alone", () => {
  test.each([
    ["a block of text", "note: |\n  one\n    two\n   three: 3\nlast: 1\n"],
    ["folded text", "note: >-\n  one\n   - two\nlast: 1\n"],
    ["text of several lines", "note: one\n  two\n   three\nlast: 1\n"],
    ["quoted text of several lines", 'note: "one\n  two: 2\n   three"\nlast: 1\n'],
    ["brackets over several lines", "net: [U1.1,\n    U1.2,\n  U1.3]\nlast: 1\n"],
    ["braces over several lines", "a: { b: 1,\n       c: 2 }\nlast: 1\n"],
    ["a list in the column of its key", "a:\n- b: 1\n  c: 2\n- b: 3\nd: 4\n"],
    ["levels of different steps", "a:\n    b:\n     c: 1\nd:\n  e: 2\n"],
    ["comments wherever they stand", "a:\n     # one\n  b: 1\n# two\n  c: 2\n"],
    ["anchors and aliases", "a: &x\n  b: 1\nc: *x\n"],
    ["dashes within dashes", "a:\n  - - 1\n    - 2\n  - - 3\n"],
    ["quoted keys and keys with signs", 'a:\n  "b: c": 1\n  -12V: 2\n  +5V: 3\n'],
  ])("%s", (_, text) => {
    expect(parseYaml(text).problems).toEqual([]);
    expect(readAs(parseYaml(text, 0, () => "yes"))).toBe(readAs(parseYaml(text)));
  });

  test("what is broken in another way, which is told as before", () => {
    expect(parseYaml("a: [1\nb: 2\n").problems.map(({ code }) => code)).toEqual(["yaml-unclosed"]);
    expect(parseYaml("a: 1\nb 2\nc: 3\n").problems.map(({ code }) => code)).toEqual(["yaml-colon"]);
  });

  test("a key that no place has a name for, where nothing shows that it stood elsewhere", () => {
    const head = boardHead("t");
    const text = `${head}rails:\n  "+5V": { nominal: 5 V, tolerance: 5 % }\npartz: { }\n`;
    expect(loadBoard(text).problems.map(({ code }) => code)).toEqual(["unknown-key"]);
    const nets = `${head}parts:\n  U1: { device: 74LS00 }\nnets:\n  GND: [U1.7]\nnonsense:\n  blank: { title: B }\n`;
    expect(loadBoard(nets).problems.map(({ code }) => code)).toEqual(["unknown-key"]);
  });
});

test("entries of a list that would run into one text are told apart", () => {
  const head = `${boardHead("t")}cautions:\n`;
  const { value, problems } = loadBoard(`${head}  - Pull the plug.\n   - Wait a minute.\n  - Measure C1.\n`);
  expect(value?.cautions).toEqual(["Pull the plug.", "Wait a minute.", "Measure C1."]);
  expect(problems.map(({ message, step }) => [message, step])).toEqual([
    [
      "This line is indented by 3, the lines it belongs with by 2.",
      "Entries of one list must begin in the same column.",
    ],
  ]);
});
