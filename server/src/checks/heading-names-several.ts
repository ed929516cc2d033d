import type { LogTable, Section } from "../log/model";
import type { Table } from "../syntax/tables";
import { span } from "../text/span";
import { blockCheck } from "./check";
import { exampleLog } from "./example-board";

export default blockCheck({
  code: "heading-names-several",
  title: "Readings of one of several chips, without saying which",
  severity: "warning",
  scope: "block",
  why: "A heading that names one chip says which chip the readings below are of. One that names two does not, and no check can use the readings.",
  remedy: "Add a column Ref that says of each row which chip it is of, or make a section for each chip.",
  examples: {
    bad: [
      {
        text: exampleLog(`## Diode check U14 and U15
               ^^^ heading-names-several: names U14 and U15

| Pin | Reading |
|-----|---------|
| 1   | 0.58    |
| 2   | 0.57    |
`),
        fixes: [
          {
            title: "Add a column Ref",
            makes: `

-| Pin | Reading |
-|-----|---------|
-| 1   | 0.58    |
-| 2   | 0.57    |
+| Ref | Pin | Reading |
+|-----|-----|---------|
+|     | 1   | 0.58    |
+|     | 2   | 0.57    |
`,
          },
        ],
      },
    ],
    good: [
      exampleLog(`## Diode check U14 and U15

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |
| U15 | 1   | 0.57    |
`),
      exampleLog(`## Diode check U14 and U15

| Pin | U14  | U15  |
|-----|------|------|
| 2   | 0.58 | 0.57 |
`),
    ],
  },
  *run({ block }) {
    const told = new Set<Section>();
    for (const table of block.tables) {
      const { section } = table;
      const [first, ...others] = section.refs ?? [];
      const last = others.pop();
      if (!first || !last || told.has(section) || !isOfNone(table)) continue;
      told.add(section);
      const names = [...[first, ...others].map(({ text }) => text)].join(", ");
      yield {
        span: first.span,
        fact: `The heading names ${names} and ${last.text}, so no row says which part it is.`,
        cause: "The readings are not checked.",
        step: "Add a column Ref.",
        data: { inserts: refColumn(table.source, block.source.text, first.span.start) },
      };
    }
  },
  fixes: {
    addRefColumn({ data, span: { start } }) {
      const { inserts } = data as { readonly inserts: readonly Insert[] };
      const edits = inserts.map(({ at, newText }) => ({ span: span(start + at, start + at), newText }));
      return edits.length === 0 ? [] : [{ title: "Add a column Ref", edits }];
    },
  },
});

/** Readings of places, of whose rows none names its part, nor may a column that is not read. */
function isOfNone({ procedure, shape, columns, readings, rows, source }: LogTable): boolean {
  if (shape === "wide" || !procedure.columns.some(({ role, required }) => role === "ref" && required))
    return false;
  const mayTell = columns.some(
    ({ spec }, at) =>
      spec?.role === "ref" || (!spec && source.rows.some(({ cells }) => (cells[at]?.text ?? "") !== "")),
  );
  return (
    !mayTell && readings.some(({ value }) => value.kind !== "empty") && rows.every(({ cells }) => !cells.ref)
  );
}

interface Insert {
  /** From where the finding begins. */
  readonly at: number;
  readonly newText: string;
}

/** An empty column in front; none where a row begins without its bar, since its first cell could not be empty. */
function refColumn({ header, delimiter, rows }: Table, text: string, from: number): Insert[] {
  const lines = [header, delimiter, ...rows].map((row) => row.span.start);
  if (lines.some((start) => text[start] !== "|")) return [];
  return lines.map((start, i) => ({
    at: start - from,
    newText: i === 0 ? "| Ref " : i === 1 ? "|-----" : "|     ",
  }));
}
