import { defined } from "../base/defined";
import type { Library } from "../knowledge/library";
import type { Procedure } from "../knowledge/types";
import { isMeasured, readHeader } from "../log/headers";
import type { ProseTable } from "../log/model";
import { nearest } from "../text/nearest";
import { blockCheck } from "./check";
import { exampleLog } from "./example-board";
import { replaceWithData } from "./fixes";

export default blockCheck({
  code: "unknown-heading",
  title: "Readings under a heading that does not say what was measured",
  severity: "information",
  scope: "block",
  why: "The nearest heading above a table says what was measured. Under any other heading a table is prose, and its readings are not checked.",
  remedy:
    "Name the procedure in the heading, with anything else that belongs there: `Diode check, lane 3`. A table that is not of readings can stay as it is.",
  examples: {
    bad: [
      {
        text: exampleLog(`## Diode chekc
   ^^^^^^^^^^^ unknown-heading: Did you mean Diode check?

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |
`),
        fixes: [
          {
            title: 'Change the heading to "Diode check"',
            makes: `

-## Diode chekc
+## Diode check

`,
          },
        ],
      },
      exampleLog(`## Lane 3 dead
   ^^^^^^^^^^^ unknown-heading: what was measured

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |
`),
      {
        text: exampleLog(`## Diode chekc U14 (mV)
   ^^^^^^^^^^^^^^^^^^^^ unknown-heading: Did you mean Diode check?

| Pin | Reading |
|-----|---------|
| 1   | 580     |
`),
        fixes: [
          {
            title: 'Change the heading to "Diode check U14 (mV)"',
            makes: `

-## Diode chekc U14 (mV)
+## Diode check U14 (mV)

`,
          },
        ],
      },
    ],
    good: [
      exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |

## Letters

| Date | From | About |
|------|------|-------|
| May  | owner | price |
`),
    ],
  },
  *run({ block, ctx }) {
    const told = new Set<unknown>();
    // A slip in a heading is told although the table is read by what it holds.
    for (const { section, procedure, isTurned } of block.tables) {
      const { heading } = section;
      if (!heading || section.procedure || isTurned || told.has(heading)) continue;
      const near = misspelt(heading.text, procedure);
      if (!near) continue;
      told.add(heading);
      yield {
        span: heading.contentSpan,
        fact: `The heading "${heading.text}" does not say what was measured.`,
        cause: `By its columns the table is read as ${procedure.title}.`,
        step: `Did you mean ${near.title}?`,
        data: { newText: near.title + near.rest },
      };
    }
    for (const table of block.proseTables) {
      const { heading } = table.section;
      if (told.has(heading)) continue;
      const shaped = shapedLike(table, ctx.library);
      if (shaped.length === 0) continue;
      told.add(heading);
      const near = heading && likelyHeading(heading.text, ctx.library, shaped);
      const says = heading
        ? `The heading "${heading.text}" does not say what was measured`
        : "No heading above this table says what was measured";
      yield defined({
        span: heading ? heading.contentSpan : table.source.header.span,
        fact: `${says}.`,
        cause: "So the readings below it are not checked.",
        step: near
          ? `Did you mean ${near.title}?`
          : `Name it in the heading: by its columns it could be ${some(shaped.map((p) => p.title))}.`,
        data: near ? { newText: near.title + near.rest } : undefined,
      });
    }
  },
  fixes: { change: (finding) => replaceWithData(finding, (title) => `Change the heading to "${title}"`) },
});

/**
 * The title that a heading was meant to be, and what stands behind it and is to stay: " U14 (mV)", ", lane 3". Known by
 * all of its letters, else by its first word where the table has the columns of that procedure.
 */
function likelyHeading(text: string, library: Library, shaped: readonly Procedure[]) {
  const titles = library.procedures.flatMap((p) => [p.title, ...p.aliases]);
  const at = /\s*(?:[,:;([–—]|\s-\s|\b[A-Z]{1,3}\d{1,4}\b)/.exec(text)?.index || text.length;
  const said = text.slice(0, at);
  const rest = text.slice(at);
  const near = nearest(said, titles);
  if (near) return { title: near, rest };
  const whole = rest === "" ? undefined : nearest(text, titles);
  if (whole) return { title: whole, rest: "" };
  const [first = ""] = said.toLowerCase().split(/\s+/);
  const begun = shaped.find(({ title }) => title.toLowerCase().split(/\s+/)[0] === first);
  return begun && first.length >= MIN_WORD ? { title: begun.title, rest } : undefined;
}

/** The title of the procedure that a heading misspells, and what stands behind it. */
function misspelt(text: string, { title, aliases }: Procedure) {
  const at = /\s*(?:[,:;([–—]|\s-\s|\b[A-Z]{1,3}\d{1,4}\b)/.exec(text)?.index || text.length;
  const near = nearest(text.slice(0, at), [title, ...aliases]);
  return near ? { title: near, rest: text.slice(at) } : undefined;
}

/** Letters of a first word that says enough. */
const MIN_WORD = 4;

const some = (titles: readonly string[]): string =>
  titles.length > 4
    ? `one of ${titles.length} kinds, such as ${titles.slice(0, 3).join(", ")}`
    : titles.join(" or ");

/** Procedures whose columns this table could be, or none where it does not look like readings at all. */
function shapedLike(table: ProseTable, library: Library): Procedure[] {
  return library.procedures.filter((procedure) => {
    const { shape, columns } = readHeader(procedure, table.source.header);
    if (shape === "wide") {
      const others = columns.slice(1).filter((c) => !c.spec);
      return (
        columns[0]?.spec !== undefined &&
        others.length > 0 &&
        (others.every((c) => isRef(c.header.text)) ||
          columns.some((c, at) => at > 0 && !c.spec && isNumbers(table, at)))
      );
    }
    const roles = new Set(columns.flatMap((c) => c.spec?.role ?? []));
    const placed = roles.has("ref") || roles.has("pin") || roles.has("rail");
    return (
      placed && ([...roles].some(isMeasured) || columns.some((c, at) => !c.spec && isNumbers(table, at)))
    );
  });
}

/** Several numbers with a decimal mark or a unit, and hardly anything else: readings, whatever the column is called. */
function isNumbers({ source }: ProseTable, at: number): boolean {
  if (MONEY_OR_TIME.test(source.header.cells[at]?.text ?? "")) return false;
  const cells = source.rows.flatMap(({ cells: all }) => all[at]?.text || []);
  const numbers = cells.filter((cell) =>
    /^[~<>≈−-]?\s*\d*[.,]?\d+\s*(?:[mkMµun]?(?:V|Ω|R|ohm|Hz|F|A))?$/.test(cell),
  );
  const marked = numbers.filter((cell) => /[^\d]/.test(cell));
  return marked.length >= 2 && numbers.length * 2 > cells.length;
}

const MONEY_OR_TIME = /price|cost|amount|total|sum|hour|time|date|each|rate|preis|stunde|datum/i;

const isRef = (text: string): boolean => /^[A-Z]{1,3}\d{1,4}\b/i.test(text);
