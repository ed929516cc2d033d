// What must hold at every place of every demo log, as it stands and half-typed.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { completeLog } from "../../server/src/features/completion";
import { definitionInLog } from "../../server/src/features/definition";
import { highlightsAt } from "../../server/src/features/document-highlight";
import { foldingRanges } from "../../server/src/features/folding";
import { hoverLog } from "../../server/src/features/hover";
import { everywhere, hintsOf } from "../../server/src/features/inlay-hints";
import { selectionsAt } from "../../server/src/features/selection-range";
import { tokensOf } from "../../server/src/features/semantic-tokens";
import { symbolsOf } from "../../server/src/features/symbols";
import type { DocumentSymbol } from "../../server/src/features/types";
import type { LogView } from "../../server/src/features/view";
import type { Service } from "../../server/src/service";
import { applyEdits } from "../../server/src/text/edits";
import { slice, touches } from "../../server/src/text/span";
import { bigLog, type PlainBoard } from "../fixtures/big-log.js";
import { demoLogs, demoText, openDemo } from "../support/demo";

const board = parse(demoText("mem:/demo/boards/regatta-controller.board.yaml")) as PlainBoard;
const texts = [
  ...demoLogs.map(([, text]) => text),
  bigLog({ lines: 120, board, seed: 3, trouble: 0.2, meter: "bench" }),
];
const URI = "mem:/demo/logs/typed.md";

/** Pieces a technician types, and some that break what stands around them. */
const PIECES = [
  ..."|#-:`~<>[]{}\"'\\0159 .UOLkm",
  "\n",
  "\r\n",
  "\n\n",
  "| ",
  " |",
  "\\|",
  "U14",
  "0.58",
  "## Diode check\n",
  "---\n",
  "```\n",
  "<!-- ",
  " -->",
  "\uFEFF",
  "µ",
  "🙂",
  "symptoms: [",
  "board:",
];

const edits = fc.array(
  fc.record({
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    remove: fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 30 })),
    insert: fc.constantFrom("", ...PIECES),
  }),
  { minLength: 1, maxLength: 12 },
);

const spanOf = (text: string, at: number, remove: number) => {
  const start = Math.min(text.length, Math.floor(at * (text.length + 1)));
  return { start, end: Math.min(text.length, start + remove) };
};

function lookEverywhere(view: LogView, offsets: Iterable<number>): void {
  const { text } = view.doc;
  for (const offset of offsets) {
    const hover = hoverLog(view, offset);
    if (hover) {
      expect(touches(hover.span, offset), around(text, offset)).toBe(true);
      expect(hover.markdown, around(text, offset)).not.toMatch(/undefined|NaN|\[object|∞/);
    }
    const definition = definitionInLog(view, offset);
    if (definition) {
      expect(touches(definition.origin, offset), around(text, offset)).toBe(true);
      expect(definition.targets).not.toHaveLength(0);
    }
    for (const { span, label } of completeLog(view, offset)) {
      if (!touches(span, offset) || /[\r\n]/.test(slice(text, span)))
        expect.fail(`${label} replaces "${slice(text, span)}" at ${around(text, offset)}`);
    }
  }
}

const around = (text: string, offset: number): string =>
  JSON.stringify(`${text.slice(Math.max(0, offset - 30), offset)}¦${text.slice(offset, offset + 20)}`);

function checkOutline(view: LogView): void {
  const { text } = view.doc;
  const visit = (symbols: readonly DocumentSymbol[], start: number, end: number): void => {
    let last = start;
    for (const { name, span, selection, children } of symbols) {
      expect(name).not.toBe("");
      expect(span.start).toBeGreaterThanOrEqual(last);
      expect(span.end).toBeLessThanOrEqual(end);
      expect(selection.start).toBeGreaterThanOrEqual(span.start);
      expect(selection.end).toBeLessThanOrEqual(span.end);
      visit(children, span.start, span.end);
      last = span.end;
    }
  };
  visit(symbolsOf(view), 0, text.length);
  for (const { span } of foldingRanges(view)) expect(slice(text, span).trimEnd()).toMatch(/\n/);
}

describe.each(demoLogs.map(([uri]) => [uri.split("/").at(-1) ?? "", uri] as const))("%s", (_, uri) => {
  it("answers at every offset, about what is there", async () => {
    const service = await openDemo();
    const text = demoText(uri);
    service.open(uri, text);
    const view = viewOf(service, uri);
    // Every offset of a long log takes seconds; every second one still meets each cell, word and line end.
    const step = text.length > 5_000 ? 2 : 1;
    lookEverywhere(view, offsetsBy(text, step));
    checkOutline(view);
    checkMarks(view, offsetsBy(text, 37));
  });
});

/** No cursor stands between a carriage return and its line feed. */
function* offsetsBy(text: string, step: number): Iterable<number> {
  for (let offset = 0; offset <= text.length; offset += step) if (isPlace(text, offset)) yield offset;
}

/** Colours, hints, highlights and selections: inside the document, in order, and of one shape with each other. */
function checkMarks(view: LogView, offsets: Iterable<number>): void {
  const { text } = view.doc;
  let last = 0;
  const tokens = tokensOf(view);
  for (const { span } of tokens) {
    expect(span.start).toBeGreaterThanOrEqual(last);
    expect(span.end).toBeGreaterThan(span.start);
    expect(span.end).toBeLessThanOrEqual(text.length);
    expect(slice(text, span)).not.toMatch(/[\r\n]/);
    last = span.end;
  }
  const settings = { pins: true, verdicts: "all" } as const;
  const hints = hintsOf(view, everywhere(view), settings);
  for (const [i, { at, label }] of hints.entries()) {
    expect(label).not.toMatch(/undefined|[\r\n]/);
    expect(at).toBeGreaterThanOrEqual(hints[i - 1]?.at ?? 0);
    expect(at).toBeLessThanOrEqual(text.length);
  }
  for (const offset of offsets) {
    const range = { start: offset, end: Math.min(text.length, offset + 200) };
    const part = hintsOf(view, range, settings);
    expect(part, around(text, offset)).toEqual(
      hints.filter(({ at }) => at >= range.start && at <= range.end),
    );
    const seen = tokens.filter(({ span }) => span.start < range.end && span.end > range.start);
    expect(tokensOf(view, range), around(text, offset)).toEqual(seen);
    const boxes = highlightsAt(view, offset);
    if (boxes)
      expect(
        boxes.some(({ span }) => touches(span, offset)),
        around(text, offset),
      ).toBe(true);
    for (const { span } of boxes ?? []) expect(slice(text, span)).not.toMatch(/^$|[\r\n]/);
    const grown = selectionsAt(view, offset);
    for (const [i, span] of grown.entries()) {
      const inner = grown[i - 1] ?? { start: offset, end: offset };
      const holds = span.start <= inner.start && span.end >= inner.end;
      const grows = span.end - span.start > inner.end - inner.start;
      if (!holds || !grows) expect.fail(`${JSON.stringify(grown)} at ${around(text, offset)}`);
    }
    if (text !== "") expect(grown.at(-1)).toEqual({ start: 0, end: text.length });
  }
}

const isPlace = (text: string, offset: number): boolean => text.slice(offset - 1, offset + 1) !== "\r\n";

function viewOf(service: Service, uri: string): LogView {
  const view = service.view(uri);
  if (!view) throw new Error(`${uri} is not a log`);
  return view;
}

describe("while it is typed", () => {
  it("finds after any edits what it finds in the text opened afresh, and answers wherever it is asked", async () => {
    const stepwise = await openDemo();
    const fresh = await openDemo();
    fc.assert(
      fc.property(fc.constantFrom(...texts), edits, (original, list) => {
        let last: { view: LogView; seen: readonly number[] } | undefined;
        stepwise.open(URI, original);
        let text = original;
        for (const { at, remove, insert } of list) {
          const span = spanOf(text, at, remove);
          const edit = { span, newText: insert };
          stepwise.edit(URI, [edit]);
          text = applyEdits(text, [edit]);
          expect(stepwise.text(URI)).toBe(text);
          const found = stepwise.findings(URI);
          expect(found).toEqual(fresh.findingsOf(URI, text));
          for (const finding of found) {
            expect(finding.span.start).toBeLessThanOrEqual(finding.span.end);
            expect(finding.span.end).toBeLessThanOrEqual(text.length);
            for (const fix of stepwise.fixes(URI, finding)) applyEdits(text, fix.edits);
          }
          const view = stepwise.view(URI);
          if (!view) continue;
          checkOutline(view);
          const here = span.start + insert.length;
          const places = [here, span.start, Math.floor(at * text.length), text.length];
          const seen = places.filter((offset) => isPlace(text, offset));
          lookEverywhere(view, seen);
          last = { view, seen };
        }
        // Once is enough: what stands there is what all the edits left.
        if (last) checkMarks(last.view, last.seen);
      }),
      { numRuns: 150 },
    );
  });

  it("still reads the log after anything offered is taken", async () => {
    const service = await openDemo();
    fc.assert(
      fc.property(
        fc.constantFrom(...texts),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.nat(),
        (text, at, pick) => {
          service.open(URI, text);
          const view = viewOf(service, URI);
          const offset = spanOf(text, at, 0).start;
          const items = completeLog(view, offset);
          const item = items[pick % Math.max(1, items.length)];
          // Putting another key in place of the format's own makes the file another kind of file.
          if (!item || slice(text, item.span) === "mendlog") return;
          service.open(URI, applyEdits(text, [item]));
          const after = service.view(URI);
          if (!after) return expect.fail(`no log after "${item.label}" at ${around(text, offset)}`);
          expect(after.doc.frontMatter.value).toBeDefined();
          // What is taken is readable: no table is lost by it.
          const tables = (v: LogView) => v.doc.parsed.blocks.flatMap(({ source }) => source.tables).length;
          expect(tables(after)).toBeGreaterThanOrEqual(tables(view) - (item.kind === "heading" ? 1 : 0));
        },
      ),
      { numRuns: 600 },
    );
  });
});
