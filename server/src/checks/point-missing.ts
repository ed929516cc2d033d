import { isJudgedAs, type Judgement } from "../judge";
import type { TextEdit } from "../text/edits";
import { span } from "../text/span";
import { blockCheck, type Draft } from "./check";
import { exampleLog } from "./example-board";
import { draftOf } from "./from-judgements";

/** What the fixes need: what this reading may be, and the readings of its table that can be only one each. */
interface Meant {
  readonly possible: readonly string[];
  /** Each such cell, by its offset from this finding's, and what to write there. */
  readonly sure: readonly { readonly from: number; readonly length: number; readonly newText: string }[];
}

export default blockCheck({
  code: "point-missing",
  title: "Digits without their point",
  severity: "information",
  scope: "block",
  why: "Digits are copied off the meter without the point. 558 can only be 0.558 V, but 142 may be 0.142 V or 1.42 V, and 58 may be 0.58 V or 0.058 V: one of the two can be a fault. So nothing is judged until the point is there.",
  remedy: "Put the point where the meter showed it. The quick fixes offer each reading that it can be.",
  examples: {
    bad: [
      {
        text: exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 558     |
              ^^^ point-missing: 0.558 V?
| U14 | 2   | 0.574   |
`),
        fixes: [
          {
            title: "Change to 0.558 V",
            makes: `
 |-----|-----|---------|
-| U14 | 1   | 558     |
+| U14 | 1   | 0.558 V     |
 | U14 | 2   | 0.574   |
`,
          },
        ],
      },
      {
        text: exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 142     |
              ^^^ point-missing: 0.142 V (out of limits) or 1.42 V (out of limits)?
| U14 | 2   | 0.574   |
`),
        fixes: [
          {
            title: "Change to 0.142 V",
            makes: `
 |-----|-----|---------|
-| U14 | 1   | 142     |
+| U14 | 1   | 0.142 V     |
 | U14 | 2   | 0.574   |
`,
          },
          {
            title: "Change to 1.42 V",
            makes: `
 |-----|-----|---------|
-| U14 | 1   | 142     |
+| U14 | 1   | 1.42 V     |
 | U14 | 2   | 0.574   |
`,
          },
        ],
      },
      {
        text: exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 558     |
              ^^^ point-missing: 0.558 V?
| U14 | 3   | 574     |
              ^^^ point-missing: 0.574 V?
`),
        fixes: [
          {
            title: "Change to 0.558 V",
            makes: `
 |-----|-----|---------|
-| U14 | 1   | 558     |
+| U14 | 1   | 0.558 V     |
 | U14 | 3   | 574     |
`,
          },
          {
            title: "Put the point into 2 readings of this table",
            makes: `
 |-----|-----|---------|
-| U14 | 1   | 558     |
-| U14 | 3   | 574     |
+| U14 | 1   | 0.558 V     |
+| U14 | 3   | 0.574 V     |
`,
            leaves: 0,
          },
          {
            title: "Change to 0.574 V",
            makes: `
 | U14 | 1   | 558     |
-| U14 | 3   | 574     |
+| U14 | 3   | 0.574 V     |
`,
          },
        ],
      },
    ],
    good: [
      exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.558   |
| U14 | 2   | 574 mV  |
`),
    ],
  },
  *run(input): Iterable<Draft> {
    const { block, ctx } = input;
    if (!isJudgedAs(block, ctx, "point-missing")) return;
    const all = [...input.judgements.values()].filter(({ code }) => code === "point-missing");
    for (const judgement of all) yield { ...draftOf(judgement, ctx), data: meantBy(judgement, all) };
  },
  fixes: {
    change: ({ span: at, data }) =>
      (data as Meant).possible.map((reading, i, every) => ({
        title: `Change to ${reading}`,
        edits: [{ span: at, newText: reading }],
        preferred: i === 0 && every.length === 1,
      })),
    table: ({ span: at, data }) => {
      const { sure } = data as Meant;
      if (sure.length < 2) return [];
      const edits = sure.map(
        ({ from, length, newText }): TextEdit => ({
          span: span(at.start + from, at.start + from + length),
          newText,
        }),
      );
      return [{ title: `Put the point into ${sure.length} readings of this table`, edits }];
    },
  },
});

function meantBy({ reading, mayBe = [] }: Judgement, all: readonly Judgement[]): Meant {
  const { table, cell } = reading;
  return {
    possible: mayBe.map(({ text }) => text),
    sure: all.flatMap((other) => {
      const [only, ...more] = other.mayBe ?? [];
      if (other.reading.table !== table || !only || more.length > 0) return [];
      const { start, end } = other.reading.cell.span;
      return [{ from: start - cell.span.start, length: end - start, newText: only.text }];
    }),
  };
}
