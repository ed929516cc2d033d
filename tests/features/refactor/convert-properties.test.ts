// Whatever stands in a table of readings: turned into the other shape and back, nothing is lost on the way.
import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { refactorsAt } from "../../../server/src/features/refactor";
import type { LogView } from "../../../server/src/features/view";
import type { Service } from "../../../server/src/service";
import { applyEdits } from "../../../server/src/text/edits";
import { openDemo, typedView } from "../../support/demo";

const HEAD = "---\nmendlog: 1\nboard: regatta-controller\n---\n\n## Diode check\n\n";
let service: Service;
beforeAll(async () => {
  service = await openDemo();
});

const viewOf = (text: string): LogView => typedView(service, text);

const ref = fc.constantFrom("U13", "U14", "U12 (74145)", "U12", "Q1", "U99", "odd name");
const pin = fc.oneof(fc.integer({ min: 1, max: 16 }).map(String), fc.constantFrom("pin 3", "E", "", "07"));
const value = fc.constantFrom(
  "0.58",
  ".5",
  "580 mV",
  "OL",
  "",
  "-",
  "short",
  "1.42 ?",
  "banana",
  "0,5",
  "`0.6`",
  "a \\| b",
);
const note = fc.oneof(
  { weight: 4, arbitrary: fc.constant("") },
  {
    weight: 2,
    arbitrary: fc.constantFrom(
      "twice",
      "U13: odd",
      "U14: a; U13: b",
      "a; b",
      "x \\| y",
      "基板",
      "U12: ",
      "-",
      ": ",
    ),
  },
);
const other = fc.oneof(
  { weight: 9, arbitrary: fc.constant("") },
  { weight: 1, arbitrary: fc.constant("stray") },
);
const long = fc
  .record({
    rows: fc.array(fc.tuple(ref, pin, value, note, other), { minLength: 1, maxLength: 10 }),
    unit: fc.constantFrom("Reading", "Reading", "Reading (mV)", "Drop (V)"),
    last: fc.constantFrom("", "Expected", "Remark 2"),
  })
  .map(({ rows, unit, last }) =>
    [
      `| Ref | Pin | ${unit} | Note | ${last} |`,
      "|-|-|-|:-:|-|",
      ...rows.map((cells) => `| ${cells.join(" | ")} |`),
    ].join("\n"),
  );
const header = fc.oneof(
  { weight: 12, arbitrary: fc.constantFrom("U13", "U14", "U12 (74145)", "Q1", "Note") },
  { weight: 1, arbitrary: fc.constantFrom("U14 (mV)", "Net", "", "U13") },
);
const wide = fc
  .uniqueArray(header, { minLength: 1, maxLength: 4 })
  .chain((headers) =>
    fc.record({
      headers: fc.constant(headers),
      rows: fc.array(
        fc.tuple(
          fc.oneof(
            { weight: 12, arbitrary: fc.integer({ min: 1, max: 16 }).map(String) },
            { weight: 1, arbitrary: pin },
          ),
          fc.tuple(...headers.map((name) => (name === "Note" ? note : value))),
          fc.oneof(
            { weight: 15, arbitrary: fc.constant([]) },
            { weight: 1, arbitrary: fc.constant(["beyond"]) },
          ),
        ),
        { minLength: 1, maxLength: 8 },
      ),
    }),
  )
  .map(({ headers, rows }) =>
    [
      `| Pin | ${headers.join(" | ")} |`,
      `|-|${headers.map(() => "-").join("|")}|`,
      ...rows.map(([first, cells, beyond]) => `| ${[first, ...cells, ...beyond].join(" | ")} |`),
    ].join("\n"),
  );

const readingsOf = ({ doc }: LogView): string[] =>
  doc.blocks
    .flatMap(({ block }) => block.tables)
    .flatMap(({ readings }) => readings)
    .filter(({ value: { kind } }) => kind !== "empty")
    .map(({ subject, measure, value: read }) =>
      JSON.stringify([subject.ref?.text, subject.pin?.text, measure, read]),
    )
    .sort();

/** What was typed into the cells, dashes apart: the words of a note count wherever they have got to. */
const wordsOf = (text: string): string[] => [...new Set(text.match(/[^\s|:;-]+/g) ?? [])].sort();

/** The text with its table turned round; undefined where that is not possible, and then there is a reason. */
function turned(text: string): string | undefined {
  const view = viewOf(text);
  const found = refactorsAt(view, { start: HEAD.length + 3, end: HEAD.length + 3 }).find(({ title }) =>
    title.startsWith("Convert"),
  );
  if (!found) return undefined;
  if (found.disabled !== undefined) {
    expect(found.disabled).toMatch(/\.$/);
    expect(found.edits).toEqual([]);
    return undefined;
  }
  return applyEdits(text, found.edits);
}

function checkTurning(table: string): number {
  const text = `${HEAD}${table}\n\nBehind.\n`;
  const before = readingsOf(viewOf(text));
  const other = turned(text);
  if (other === undefined) return 0;
  expect(readingsOf(viewOf(other))).toEqual(before);
  expect(other.endsWith("\n\nBehind.\n")).toBe(true);
  // Words are not lost; the header of a column that is empty may be.
  const lost = wordsOf(table.split("\n").slice(2).join("\n")).filter(
    (word) => !wordsOf(other).includes(word),
  );
  expect(lost.filter((word) => word !== "pin")).toEqual([]);
  const back = turned(other);
  if (back === undefined) return 1;
  expect(readingsOf(viewOf(back))).toEqual(before);
  return 2;
}

describe("turning a table round", () => {
  it.each([
    ["a long one", long],
    ["a wide one", wide],
  ])("keeps every reading and every word of %s, there and back", (_, tables) => {
    const done = [0, 0, 0];
    fc.assert(
      fc.property(tables, (table) => {
        const steps = checkTurning(table);
        done[steps] = (done[steps] ?? 0) + 1;
      }),
      { numRuns: 400 },
    );
    // Many are refused for good reasons, but by no means most.
    expect(done[2]).toBeGreaterThan(60);
  });

  it("gives the very same long table back, where its rows are in order", () => {
    const rows = fc.uniqueArray(
      fc.tuple(fc.constantFrom("U13", "U14"), fc.integer({ min: 1, max: 14 }), value, note),
      {
        selector: ([r, p]) => `${r} ${p}`,
        minLength: 1,
        maxLength: 12,
      },
    );
    fc.assert(
      fc.property(rows, (some) => {
        const kept = some
          .filter(([, , read, said]) => read !== "-" && !/^U1\d: |^-$/.test(said))
          .sort(([a, p], [b, q]) => a.localeCompare(b) || p - q);
        if (kept.length === 0) return;
        const lines = [
          "| Ref | Pin | Reading | Note |",
          "|-|-|-|-|",
          ...kept.map((cells) => `| ${cells.join(" | ")} |`),
        ];
        const text = `${HEAD}${lines.join("\n")}\n`;
        const back = turned(turned(text) ?? "");
        const cells = (of: string) =>
          of
            .split("\n")
            .filter((line) => /^\| U/.test(line))
            .map((line) =>
              line
                .split(/(?<!\\)\|/)
                .map((cell) => cell.trim())
                .slice(1, 5)
                .filter((cell, i) => i < 3 || cell),
            );
        expect(cells(back ?? "")).toEqual(cells(text));
      }),
      { numRuns: 150 },
    );
  });
});
