// Whatever is changed, in whatever way the file is written: it still loads, and what a person typed is still there.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Document, isCollection, isMap, isScalar, Scalar, visit } from "yaml";
import { type BoardChange, editBoard } from "../../../server/src/knowledge/board-file";
import { loadBoard } from "../../../server/src/knowledge/load-board";
import { parseYaml, plainValue } from "../../../server/src/syntax/yaml";
import { applyEdits, type TextEdit } from "../../../server/src/text/edits";
import { demoText } from "../../support/demo";
import { change } from "./drafts";

const DEMOS = ["regatta-controller", "regatta-driver"].map((id) =>
  demoText(`mem:/demo/boards/${id}.board.yaml`),
);

/** For a long look: MENDLOG_SEED=random MENDLOG_RUNS=1000. */
const RUNS = Number(process.env.MENDLOG_RUNS ?? 30);

/** A small board in any way YAML can be written: flow and block, comments anywhere, any indentation. */
const DATA = {
  "mendlog-board": 1,
  id: "a",
  title: "A",
  grounds: ["GND"],
  rails: {
    "+5V": { nominal: "5 V", tolerance: "5 %", net: "VCC" },
    on: { nominal: "12 V", tolerance: "5 %" },
  },
  circuits: { reset: { title: "Reset" } },
  parts: {
    U1: { device: "7404", fits: ["7414"], note: "one\ntwo: # three\n" },
    U2: { device: "74LS04", circuit: "reset" },
    U5: {},
    R1: null,
  },
  nets: { GND: ["U1.7"], VCC: ["U1.14", "U2.14"], "-": [] },
  expected: [
    { procedure: "diode-check", ref: "U1", pin: "1", low: "0.4 V", high: "0.6 V", source: "ours" },
    { procedure: "resistance", rail: "on", low: "0.4 V", high: "0.6 V", source: "ours\n\n" },
  ],
  symptoms: { on: { title: "on" } },
};

const KEPT_ALWAYS = new Set(["mendlog-board", "id", "title", "rails"]);

const written: fc.Arbitrary<string> = fc
  .record({
    drawn: fc.infiniteStream(fc.nat(99)),
    indent: fc.constantFrom(2, 3, 4),
    indentSeq: fc.boolean(),
    lineWidth: fc.constantFrom(0, 30, 80),
    commas: fc.boolean(),
    head: fc.constantFrom("", "# ours\n", "---\n", "\uFEFF", "\uFEFF# ours\n\n"),
    tail: fc.constantFrom("", "# the end\n", "...\n", "\n\n"),
    end: fc.constantFrom("\n", "\r\n"),
    final: fc.boolean(),
  })
  .map(({ drawn, indent, indentSeq, lineWidth, head, tail, end, final }) => {
    const next = () => drawn.next().value as number;
    const data = Object.fromEntries(
      Object.entries(DATA).flatMap(([key, value]): [string, unknown][] => {
        if (KEPT_ALWAYS.has(key)) return [[key, value]];
        const chance = next();
        return chance < 10
          ? []
          : chance < 18
            ? [[key, null]]
            : chance < 24
              ? [[key, Array.isArray(value) ? [] : {}]]
              : [[key, value]];
      }),
    );
    const document = new Document(data, { version: "1.2", schema: "core" });
    visit(document, {
      Collection(_key, node, path) {
        if (path.length > 1 && next() < 45) node.flow = true;
        if (isMap(node) || path.length > 1) remark(node);
      },
      Scalar(key, node) {
        if (key !== "key" && typeof node.value === "string" && !node.value.includes("\n")) {
          const style = next();
          if (style < 15) node.type = Scalar.QUOTE_SINGLE;
          else if (style < 30) node.type = Scalar.QUOTE_DOUBLE;
        }
        if (key !== "key") remark(node);
      },
    });
    function remark(node: unknown) {
      if (!(isScalar(node) || isCollection(node))) return;
      const chance = next();
      if (chance < 10) node.comment = ` it's "so": { # [`;
      else if (chance < 20) node.commentBefore = " before, U9: {}";
      if (next() < 5) node.spaceBefore = true;
    }
    const text = document.toString({ indent, indentSeq, lineWidth, nullStr: next() < 50 ? "" : "~" });
    const whole = head + text + tail;
    return (final ? whole : whole.trimEnd()).replaceAll("\n", end);
  })
  .filter((text) => parseYaml(text).problems.length === 0 && loadBoard(text).value !== undefined);

const texts = fc.oneof(
  { weight: 8, arbitrary: written },
  {
    weight: 1,
    arbitrary: fc
      .tuple(fc.constantFrom(...DEMOS), fc.constantFrom("\n", "\r\n"), fc.constantFrom("", "\uFEFF"))
      .map(([text, end, mark]) => mark + text.replaceAll("\n", end)),
  },
);

/** Lines that no edit reaches into; what is put in at a line's end on lines of its own does not. */
function untouched(text: string, edits: readonly TextEdit[]): string[] {
  let at = 0;
  return text.split("\n").filter((line) => {
    const start = at;
    const end = start + line.replace(/\r$/, "").length;
    at += line.length + 1;
    return !edits.some(({ span, newText }) => {
      if (span.end < start || span.start > end) return false;
      return !(span.start === span.end && span.start === end && /^\r?\n/.test(newText));
    });
  });
}

function expectInOrder(wanted: readonly string[], found: readonly string[]) {
  // A last line may have had no end.
  const bare = found.map((line) => line.replace(/\r$/, ""));
  let at = 0;
  for (const line of wanted) {
    const next = bare.indexOf(line.replace(/\r$/, ""), at);
    expect(next, `${JSON.stringify(line)} is gone`).toBeGreaterThanOrEqual(0);
    at = next + 1;
  }
}

/** Everything of `before` is in `after`, but for the fields that a change may replace. */
function expectWithin(before: unknown, after: unknown, path: string) {
  if (before === null || before === undefined) return;
  if (Array.isArray(before)) {
    const list = after as unknown[];
    for (const [index, item] of before.entries()) expectWithin(item, list[index], `${path}.${index}`);
  } else if (typeof before === "object") {
    for (const [key, value] of Object.entries(before)) {
      const replaced = /^expected\.\d+$/.test(path)
        ? /^(low|high|source)$/
        : /^parts\.[^.]+$/.test(path)
          ? /^device$/
          : /^$/;
      if (replaced.test(key)) continue;
      expect(Object.keys(after as object), path).toContain(key);
      expectWithin(value, (after as Record<string, unknown>)[key], path === "" ? key : `${path}.${key}`);
    }
  } else expect(after, path).toBe(before);
}

const problemsOf = (text: string) =>
  loadBoard(text).problems.map(
    ({ code, message }) => `${code} ${message.replace(/ (?:Did you mean|Add it there).*/, "")}`,
  );
const data = (text: string) => plainValue(parseYaml(text).root);

function check(text: string, changes: readonly BoardChange[]): string {
  const made = editBoard(text, changes);
  if (!made.ok) throw new Error(`${made.reason}\n${text}`);
  const { edits, text: after } = made;
  expect(applyEdits(text, edits)).toBe(after);
  const before = new Set(problemsOf(text));
  expect(problemsOf(after).filter((problem) => !before.has(problem))).toEqual([]);
  expectInOrder(untouched(text, edits), after.split("\n"));
  expectWithin(data(text), data(after), "");
  if (/\r\n/.test(text)) expect(after).not.toMatch(/[^\r]\n/);
  else expect(after).not.toContain("\r");
  expect(/\n$/.test(after)).toBe(/\n$/.test(text));
  expect(after.startsWith("\uFEFF")).toBe(text.startsWith("\uFEFF"));
  return after;
}

describe("after any changes", () => {
  test("made one after another", () => {
    fc.assert(
      fc.property(texts, fc.array(change, { minLength: 1, maxLength: 5 }), (text, changes) => {
        let now = text;
        for (const one of changes) {
          now = check(now, [one]);
          const again = editBoard(now, [one]);
          expect(again).toMatchObject({ ok: true, edits: [] });
        }
      }),
      { numRuns: RUNS },
    );
  });

  test("made together", () => {
    fc.assert(
      fc.property(texts, fc.array(change, { minLength: 2, maxLength: 12 }), (text, changes) => {
        const after = check(text, changes);
        const made = editBoard(text, changes);
        // What was left out for want of a part that came later finds it now.
        if (made.ok && made.leftOut.length === 0) {
          expect(editBoard(after, changes)).toMatchObject({ ok: true, edits: [] });
        }
      }),
      { numRuns: RUNS },
    );
  });

  test("a broken file is never changed, and nothing is thrown", () => {
    fc.assert(
      fc.property(
        texts,
        fc.nat(),
        fc.constantFrom("", "\t", "{", '"', ": ", "- ", "\n", "# ", "&a ", "*"),
        change,
        (text, at, typed, one) => {
          const place = at % (text.length + 1);
          const broken = text.slice(0, place) + typed + text.slice(place + 1);
          const made = editBoard(broken, [one]);
          if (made.ok)
            expect(parseYaml(made.text).problems.filter(({ code }) => code !== "yaml-duplicate-key")).toEqual(
              [],
            );
          else expect(made.reason.length).toBeGreaterThan(20);
        },
      ),
      { numRuns: RUNS },
    );
  });
});
