// What must hold at every place of every demo log, as it stands and half-typed.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { completeLog } from "../../server/src/features/completion";
import { defineLog } from "../../server/src/features/definition";
import { foldsOf } from "../../server/src/features/folding";
import { hoverLog } from "../../server/src/features/hover";
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
    const definition = defineLog(view, offset);
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
  for (const { span } of foldsOf(view)) expect(slice(text, span).trimEnd()).toMatch(/\n/);
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
  });
});

/** No cursor stands between a carriage return and its line feed. */
function* offsetsBy(text: string, step: number): Iterable<number> {
  for (let offset = 0; offset <= text.length; offset += step) if (isPlace(text, offset)) yield offset;
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
          lookEverywhere(
            view,
            places.filter((offset) => isPlace(text, offset)),
          );
        }
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
