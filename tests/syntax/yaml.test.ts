import fc from "fast-check";
import { expect, test } from "vitest";
import { fitsOf } from "../../server/src/knowledge/schema-fits";
import { locate, nodeAt, parseYaml, plainValue } from "../../server/src/syntax/yaml";
import { applyEdits } from "../../server/src/text/edits";
import { expectCarets, readCarets } from "../support/carets";
import { cpuTime } from "../support/cpu-time";

/** Checks the problems against the fixture's caret lines and gives what was read all the same. */
function read(fixture: string): unknown {
  const marked = readCarets(fixture);
  const tree = parseYaml(marked.text);
  expectCarets(marked, tree.problems);
  return JSON.parse(JSON.stringify(plainValue(tree.root)));
}

test("keys, values and their spans", () => {
  const text = 'rails:\n  "+5V": { nominal: 5 V }\nfits: [7404, 00123e45]\n';
  const tree = parseYaml(text);
  const piece = (path: (string | number)[]) => {
    const found = nodeAt(tree, path)!;
    const key = found.keySpan && text.slice(found.keySpan.start, found.keySpan.end);
    return [key, text.slice(found.valueSpan.start, found.valueSpan.end)];
  };
  expect(piece(["rails", "+5V"])).toEqual(['"+5V"', "{ nominal: 5 V }"]);
  expect(piece(["rails", "+5V", "nominal"])).toEqual(["nominal", "5 V"]);
  expect(piece(["fits", 1])).toEqual([undefined, "00123e45"]);
  expect(nodeAt(tree, ["fits", "1"])?.node).toMatchObject({ source: "00123e45", value: 1.23e47 });
  expect(nodeAt(tree, ["fits", 2])).toBeUndefined();
  expect(nodeAt(tree, ["rails", "+5V", "nominal", "x"])).toBeUndefined();
  expect(locate(tree, ["fits"])).toEqual({ start: 33, end: 37 });
});

test("spans count from the base offset, past a byte order mark and over CRLF", () => {
  const text = "\uFEFFid: a\r\nparts:\r\n  U14: { device: 7404 }\r\n";
  const tree = parseYaml(text, 100);
  expect(tree.problems).toEqual([]);
  const at = locate(tree, ["parts", "U14"])!;
  expect(text.slice(at.start - 100, at.end - 100)).toBe("U14");
  const value = nodeAt(tree, ["id"])!.valueSpan;
  expect(text.slice(value.start - 100, value.end - 100)).toBe("a");
  const broken = "\uFEFFid: a\r\nmaker: @b\r\n";
  const [problem] = parseYaml(broken, 7).problems;
  expect(broken.slice(problem!.span.start - 7, problem!.span.end - 7)).toBe("@b");
});

test("block scalars end with their text", () => {
  const text = "note: |\n  one\n  two\n\n\nid: x\n";
  const { valueSpan } = nodeAt(parseYaml(text), ["note"])!;
  expect(text.slice(valueSpan.start, valueSpan.end)).toBe("|\n  one\n  two");
});

test("an entry that is never closed leaves its neighbours alone", () => {
  expect(
    read(`
parts:
  U1: { device: 7404
      ^^^^^^^^^^^^^^ yaml-unclosed: The \`{\` opened here is not closed before the next key. Put the \`}\`
  U2: { device: 7400 }
nets:
  A: [U1.1]
`),
  ).toEqual({ parts: { U1: { device: 7404 }, U2: { device: 7400 } }, nets: { A: ["U1.1"] } });
  expect(
    read(`
expected:
  - { low: 1 V }
  - { low: "2 V }
           ^^^^^^ yaml-unclosed: The quote \`"\` opened here is never closed.
  - { low: 3 V }
id: x
`),
  ).toEqual({ expected: [{ low: "1 V" }, { low: "2 V }" }, { low: "3 V" }], id: "x" });
  expect(
    read(`
title: "open
       ^^^^^ yaml-unclosed
id: x
a: [1, 2
   ^^^^^ yaml-unclosed: The \`[\` opened here
b: {c: 1]
   ^^^^^^ yaml-unclosed: The \`{\` opened here
`),
  ).toEqual({ title: "open", id: "x", a: [1, 2], b: { c: 1 } });
});

test("slips of the hand, each with what to do", () => {
  const value = read(`
id:regatta
^^^^^^^^^^ yaml-colon: \`id:regatta\` needs a space behind the colon: \`id: regatta\`.
note: at 5: 3
      ^^^^^^^ yaml-quote: \`at 5: 3\` has a colon and a space, so YAML takes it for another key. Put the value in quotes.
maker: @home
       ^^^^^ yaml-quote: YAML keeps the sign that "@home" begins with for itself. Put the value in quotes.
lone
^^^^ yaml-colon: \`lone\` is alone where a \`key: value\` belongs.
star: *bold* text
             ^^^^ yaml-quote: A value that begins with \`*\`
steps: - one
       ^ yaml-list: A list cannot begin on its key's line.
path: "a\\q"
        ^^ yaml-escape: \`\\q\` is no escape that YAML knows.
five: "5" nominal
          ^^^^^^^ yaml-syntax: \`nominal\` is out of place here.
one: 1
  two: 2
^^^^^^^^ yaml-indent: This line is indented by 2, the lines it belongs with by 0.
last: 3
`);
  expect(value).toMatchObject({ note: "at 5: 3", maker: "@home", one: 1, last: 3 });
});

test.each([
  ["id:regatta\nb: 1\n", "id: regatta\nb: 1\n"],
  ["note: at 5: 3\n", 'note: "at 5: 3"\n'],
  ["note: @home\n", 'note: "@home"\n'],
  ["a:\n\tb: 1\n", "a:\n  b: 1\n"],
])("the edit offered puts a slip right: %j becomes %j", (typed, mended) => {
  const [problem] = parseYaml(typed).problems;
  const [edit] = problem?.suggestion ?? [];
  expect(typed.slice(0, edit?.span.start) + edit?.newText + typed.slice(edit?.span.end)).toBe(mended);
  expect(parseYaml(mended).problems).toEqual([]);
});

test("lines that are indented wrongly are told, and read where they were meant", () => {
  expect(
    read(`
a:
  b: 1
 c: 2
^^^^^ yaml-indent: This line is indented by 1, the lines it belongs with by 2.
d: 3
`),
  ).toEqual({ a: { b: 1, c: 2 }, d: 3 });
  expect(
    read(`
list:
  - a
  b: 1
  ^ yaml-indent: This is among the entries of a list but is none.
  - c
d: 3
`),
  ).toEqual({ list: ["a", "c"], d: 3 });
});

test("tabs are reported on every line and still count as indentation", () => {
  const text = "a:\n\tb:\n\t\tc: 1\n\td: 2\ne: 3\n";
  const tree = parseYaml(text);
  expect(tree.problems.map((p) => [p.code, p.span.start, p.span.end])).toEqual([
    ["yaml-tab", 3, 4],
    ["yaml-tab", 7, 9],
    ["yaml-tab", 14, 15],
  ]);
  expect(JSON.stringify(plainValue(tree.root))).toBe('{"a":{"b":{"c":1},"d":2},"e":3}');
  expect(parseYaml("note: |\n  x\n  \ty\n").problems).toEqual([]);
});

test("duplicate keys: the first counts and both places are named", () => {
  const text = "id: a\nid: b\n";
  const tree = parseYaml(text);
  expectCarets(
    readCarets("id: a\nid: b\n^^ yaml-duplicate-key: `id` is in this mapping twice\n"),
    tree.problems,
  );
  expect(tree.problems[0]?.related).toEqual([
    { span: { start: 0, end: 2 }, message: "`id` was given here first" },
  ]);
  expect(nodeAt(tree, ["id"])?.node).toMatchObject({ source: "a" });
  // In a broken file the entries are read one by one, and duplicates must be found all the same.
  expect(parseYaml("id: a\nx: @\nid: b\n").problems.map((p) => p.code)).toEqual([
    "yaml-quote",
    "yaml-duplicate-key",
  ]);
});

test("keys of JavaScript's own objects are keys like any other", () => {
  const tree = parseYaml("__proto__: { polluted: true }\nconstructor: 1\ntoString: 2\n");
  expect(tree.problems).toEqual([]);
  const value = plainValue(tree.root) as Record<string, unknown>;
  expect(Object.keys(value)).toEqual(["__proto__", "constructor", "toString"]);
  expect(Object.getPrototypeOf(value)).toBeNull();
  expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  expect(nodeAt(tree, ["hasOwnProperty"])).toBeUndefined();
});

test("what YAML has and these files do not", () => {
  expect(
    read(`
a: 1
---
^^^ yaml-documents: A second YAML document begins here
b: 2
`),
  ).toEqual({ a: 1 });
  const marked = readCarets("%YAML 1.1\n^^^^^^^^^ yaml-directive: `%YAML 1.1`\n---\na: yes\n");
  const tree = parseYaml(marked.text);
  expectCarets(marked, tree.problems);
  expect(nodeAt(tree, ["a"])?.node).toMatchObject({ source: "yes", value: "yes" });
  expect(
    read(`
a: !!binary aGk=
            ^^^^ yaml-tag: \`!!binary\` is a YAML tag
? [k]
  ^^^ yaml-key: A key must be plain text
: b
c: *nowhere
   ^^^^^^^^ yaml-unknown-alias: \`*nowhere\` refers to an anchor \`&nowhere\`
d: &d [*d]
       ^^ yaml-unknown-alias
`),
  ).toEqual({ a: "aGk=", c: null, d: [null] });
});

test("aliases share what they name, up to a bound", () => {
  expect(read("a: &x { b: [1, 2] }\nc: *x\n")).toEqual({ a: { b: [1, 2] }, c: { b: [1, 2] } });
  const row = (name: string, of: string) => `${name}: &${name} [${Array(9).fill(`*${of}`).join(", ")}]`;
  const names = ["b", "c", "d", "e", "f", "g", "h", "i"];
  const text = ["a: &a [lol, lol, lol]", ...names.map((n, i) => row(n, i === 0 ? "a" : names[i - 1]!))].join(
    "\n",
  );
  let tree = parseYaml("");
  let size = 0;
  const spent = cpuTime(() => {
    tree = parseYaml(text);
    size = JSON.stringify(plainValue(tree.root)).length;
  });
  expect(spent).toBeLessThan(500);
  expect(size).toBeLessThan(200_000);
  const [first] = tree.problems;
  expect(first?.code).toBe("yaml-alias-bomb");
  expect(first?.message).toMatch(/^`\*d` repeats \d+ values; aliases may add at most 10000 to a file/);
  expect(text.slice(first!.span.start, first!.span.end)).toBe("*d");
});

test("what is not text is refused where it begins", () => {
  const binary = "id: a\nb: \u0000\u0001\n";
  const [control] = parseYaml(binary).problems;
  expect(control).toMatchObject({ code: "yaml-not-text", span: { start: 9, end: 10 } });
  expect(control?.message).toContain("control character (hexadecimal 00)");
});

// Given to the YAML parser unguarded, this one ends the whole process.
test.each([
  ["braces", "{".repeat(20_000)],
  ["brackets in mappings", "a: [".repeat(20_000)],
  ["lists", "- ".repeat(20_000)],
  ["mappings", "a: ".repeat(20_000)],
  ["mappings in brackets", `x: [${"a: ".repeat(20_000)}]`],
  ["keys of several lines", "? ".repeat(20_000)],
  ["indentation", Array.from({ length: 1500 }, (_, i) => `${" ".repeat(i)}a:`).join("\n")],
])("too deep, by %s, is refused, and what stands before it is kept", (_by, deep) => {
  const tree = parseYaml(`id: kept\n${deep}\n`);
  expect(tree.problems.map((p) => p.code)).toContain("yaml-too-deep");
  expect(nodeAt(tree, ["id"])?.node).toMatchObject({ value: "kept" });
});

test("too long is refused, and what stands before it is kept", () => {
  const long = parseYaml(`id: kept\n${"# x\n".repeat(600_000)}`);
  expect(long.problems.map((p) => p.code)).toEqual(["yaml-too-long"]);
  expect(nodeAt(long, ["id"])?.node).toMatchObject({ value: "kept" });
});

test("an open bracket above a long block does not count as depth", () => {
  const parts = Array.from({ length: 300 }, (_, i) => `  R${i}: { value: 4k7 }\n  Q${i}:\n    note: x`);
  const tree = parseYaml(`fits: [7404\nparts:\n${parts.join("\n")}\n`);
  expect(tree.problems.map((p) => p.code)).toEqual(["yaml-unclosed"]);
  expect(nodeAt(tree, ["parts", "Q299", "note"])?.node).toMatchObject({ value: "x" });
});

test("a megabyte in one scalar is read", () => {
  const tree = parseYaml(`note: "${"x".repeat(1_000_000)}"\nid: a\n`);
  expect(tree.problems).toEqual([]);
  expect(nodeAt(tree, ["id"])?.node).toMatchObject({ value: "a" });
});

test("a flood of errors is cut short, saying so", () => {
  const tree = parseYaml("a: @\n".repeat(300));
  expect(tree.problems).toHaveLength(50);
  expect(tree.problems.at(-1)?.message).toMatch(/\(\d+ more places in this file are not valid YAML/);
});

test("any text: no exception, every span inside the text", () => {
  const piece = fc.oneof(
    fc.constantFrom(
      "a: ",
      "- ",
      "\n",
      "  ",
      "\t",
      "{",
      "}",
      "[",
      "]",
      '"',
      "'",
      "&a ",
      "*a",
      ": ",
      "|\n",
      "#",
      "\r\n",
      "---\n",
      "? ",
      "nets:\n",
      "\n  ",
      "\n   - ",
      "!t ",
      "%YAML 1.2\n",
      ",",
    ),
    fc.string({ maxLength: 5, unit: "binary" }),
  );
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 40 }), fc.nat(50), (pieces, base) => {
      const text = pieces.join("");
      const tree = parseYaml(text, base);
      JSON.stringify(plainValue(tree.root));
      for (const { span } of tree.problems) {
        expect(span.start).toBeGreaterThanOrEqual(base);
        expect(span.end).toBeGreaterThanOrEqual(span.start);
        expect(span.end).toBeLessThanOrEqual(base + text.length + 1);
      }
      for (const { suggestion } of parseYaml(text, 0, fitsOf("board")).problems)
        applyEdits(text, suggestion ?? []);
    }),
    { numRuns: 1500 },
  );
});
