// Whatever is pressed wherever: nothing but cells and new rows is touched, and the text stays one that can be read.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  nextCell,
  pasteCells,
  startRow,
  type TypingStep,
  writeCell,
} from "../../../server/src/features/typing";
import { lineSpanAt } from "../../../server/src/features/typing/sheet";
import type { LogView } from "../../../server/src/features/view";
import { tablesOf } from "../../../server/src/log/document";
import { isLog } from "../../../server/src/log/sniff";
import { applyEdits } from "../../../server/src/text/edits";
import { demoLogs, openDemo } from "../../support/demo";

const URI = "mem:/demo/logs/typed.md";
const service = await openDemo();
/** With half a table at the end of one, as it stands while it is typed. */
const logs = demoLogs.map(([, text]) => text).filter(isLog);
logs.push(`${logs[0]}\n## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U1\n0.58\nU2 | 3 |`);
const shapes: readonly ((text: string) => string)[] = [
  (text) => text,
  (text) => text.replace(/\r?\n/g, "\r\n"),
  (text) => `\uFEFF${text}`,
  (text) => text.trimEnd(),
];

const place = fc.record({
  log: fc.nat({ max: logs.length - 1 }),
  shape: fc.nat({ max: shapes.length - 1 }),
  at: fc.double({ min: 0, max: 1, noNaN: true }),
});

function viewAt({ log, shape, at }: { log: number; shape: number; at: number }) {
  const text = shapes[shape]!(logs[log]!);
  service.open(URI, text);
  return { view: service.view(URI)!, offset: Math.floor(at * (text.length + 1)), text };
}

/** Every line that is not of the table at the cursor stays as it is, and so do the line ends of the text. */
function check(view: LogView, offset: number, step: TypingStep | undefined): void {
  if (!step) return;
  const { text } = view.doc;
  const after = applyEdits(text, step.edits);
  const table = [...tablesOf(view.doc)].find(
    ({ start, table: { span } }) =>
      span.start + start <= lineSpanAt(text, offset).end &&
      offset <= lineSpanAt(text, span.end + start).end + 2,
  );
  const own = table && {
    start: lineSpanAt(text, table.start + table.table.span.start).start,
    end: lineSpanAt(text, table.start + table.table.span.end).end,
  };
  for (const { span } of step.edits) {
    expect(
      own && span.start >= own.start && span.end <= Math.max(own.end, lineSpanAt(text, offset).end),
    ).toBe(true);
  }
  if (/\r\n/.test(text)) expect(after.replace(/\r\n/g, "")).not.toMatch(/[\r\n]/);
  else expect(after).not.toContain("\r");
  expect(step.cursor).toBeGreaterThanOrEqual(0);
  expect(step.cursor).toBeLessThanOrEqual(after.length);
}

/** Of every table that is one, whatever it is told to be by what it holds: one odd cell of three may make it another. */
const readingsIn = ({ doc }: LogView) =>
  doc.blocks.flatMap(({ block }) =>
    block.source.tables.flatMap(({ rows }) => rows.flatMap(({ cells }) => cells.map(({ text }) => text))),
  );

describe("everywhere in every demo log, with LF, CRLF, a byte order mark and no last line end", () => {
  it("a key leaves every other line as it is, and no cell of a row loses what it holds", () => {
    fc.assert(
      fc.property(
        place,
        fc.constantFrom("row", "next", "previous"),
        fc.boolean(),
        (at, direction, started) => {
          const { view, offset } = viewAt(at);
          const before = readingsIn(view).filter((text) => text !== "");
          const step = nextCell(view, offset, direction as "row", started);
          check(view, offset, step);
          check(view, offset, startRow(view, offset, started));
          if (!step || started) return;
          service.open(URI, applyEdits(view.doc.text, step.edits));
          const left = readingsIn(service.view(URI)!).filter((text) => text !== "");
          for (const text of new Set(before)) {
            const count = (list: readonly string[]) => list.filter((each) => each === text).length;
            expect(count(left), text).toBeGreaterThanOrEqual(count(before));
          }
        },
      ),
      { numRuns: 300 },
    );
  });

  it("a value written into a cell is read back from it", () => {
    const value = fc.string({
      minLength: 1,
      maxLength: 12,
      unit: fc.constantFrom(..."0123456789.|\\ VmOL\t\n"),
    });
    fc.assert(
      fc.property(place, value, (at, text) => {
        const { view, offset } = viewAt(at);
        const step = writeCell(view, offset, text);
        check(view, offset, step);
        if (!step) return;
        const wanted = text
          .replace(/\s+/g, " ")
          .trim()
          .replace(/\\(?=\|)/g, "\\ ");
        service.open(URI, applyEdits(view.doc.text, step.edits));
        expect(readingsIn(service.view(URI)!)).toContain(wanted);
      }),
      { numRuns: 300 },
    );
  });

  it("no value that is pasted gets lost", () => {
    const values = fc.array(
      fc.string({ minLength: 1, maxLength: 8, unit: fc.constantFrom(..."0123456789.|\\x") }),
      {
        minLength: 2,
        maxLength: 30,
      },
    );
    fc.assert(
      fc.property(place, values, (at, column) => {
        const { view, offset } = viewAt(at);
        const result = pasteCells(view, offset, column.join("\n"));
        if (!result?.ok) return;
        check(view, offset, result.step);
        service.open(URI, applyEdits(view.doc.text, result.step.edits));
        const cells = readingsIn(service.view(URI)!);
        for (const value of column) expect(cells).toContain(value.replace(/\\(?=\|)/g, "\\ "));
      }),
      { numRuns: 200 },
    );
  });
});
