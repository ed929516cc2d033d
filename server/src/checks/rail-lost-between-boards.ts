import { judgeBlock } from "../judge";
import { hasBoardFile, type LogContext } from "../judge/context";
import { railAt } from "../judge/rail-name";
import { tablesOf } from "../log/document";
import type { LogDocument, Reading } from "../log/model";
import { type Span, shift } from "../text/span";
import { documentCheck } from "./check";

interface RailRead {
  readonly rail: string;
  readonly typed: string;
  readonly state: "within" | "low";
  readonly span: Span;
}

const TWO_BOARDS = `//- driver.board.yaml
mendlog-board: 1
id: driver-1
title: Driver board
rails: { "+5V": { nominal: 5 V, tolerance: 5 % } }
//- supply.board.yaml
mendlog-board: 1
id: supply-1
title: Supply board
rails: { "+5V": { nominal: 5 V, tolerance: 5 % } }
//- log.md
---
mendlog: 1
boards: { supply: supply-1, driver: driver-1 }
---

`;

export default documentCheck({
  code: "rail-lost-between-boards",
  title: "A rail that is there on one board of the set and not on the next",
  severity: "information",
  scope: "document",
  ofSet: "once",
  why: "Boards of a set share a rail through a connector and its wires. Where the rail is within limits on one board and low on the other, the loss may be between them and on neither board.",
  remedy:
    "Measure the drop along the connector, its wires and its ground while the rail is loaded, before a part of either board is blamed.",
  examples: {
    bad: [
      `${TWO_BOARDS}## Supply

### Supply rails

| Rail | Reading |
|------|---------|
| +5V  | 5.02 V  |

## Driver

### Supply rails

| Rail | Reading |
|------|---------|
| +5V  | 4.31 V  |
         ^^^^^^ rail-out-of-tolerance: reads 4.31 V
         ^^^^^^ rail-lost-between-boards: +5V reads 4.31 V on driver and 5.02 V on supply
`,
    ],
    good: [
      `${TWO_BOARDS}## Supply

### Supply rails

| Rail | Reading |
|------|---------|
| +5V  | 5.02 V  |

## Driver

### Supply rails

| Rail | Reading |
|------|---------|
| +5V  | 4.97 V  |
`,
    ],
  },
  *run({ boards }) {
    const all = (boards ?? []).map(({ doc, ctx }) => ({
      name: doc.ofSet?.name ?? "",
      uri: doc.uri,
      rails: railsIn(doc, ctx),
    }));
    for (const own of all) {
      for (const low of own.rails.values()) {
        if (low.state !== "low") continue;
        const other = all.find((one) => one !== own && one.rails.get(low.rail)?.state === "within");
        const good = other?.rails.get(low.rail);
        if (!other || !good) continue;
        yield {
          span: low.span,
          fact: `${low.rail} reads ${low.typed} on ${own.name} and ${good.typed} on ${other.name}.`,
          cause: "The loss may be in the connector between them, its wires or its ground.",
          step: "Measure the drop along them under load.",
          related: [{ uri: other.uri, span: good.span, message: `${low.rail} on ${other.name}` }],
        };
      }
    }
  },
  noFix: "Where the voltage is lost has to be measured.",
});

/** What was read last of each rail that the board's own file has, by the rail's name. */
function railsIn(doc: LogDocument, ctx: LogContext): ReadonlyMap<string, RailRead> {
  const found = new Map<string, RailRead>();
  const board = ctx.board?.value;
  if (!board || !hasBoardFile(ctx)) return found;
  for (const { start, block, table } of tablesOf(doc)) {
    const judged = judgeBlock(block, ctx);
    for (const reading of table.readings) {
      const rail = isVoltage(reading) ? railAt(reading.subject, board)?.name : undefined;
      const judgement = judged.get(reading);
      if (rail === undefined || !judgement) continue;
      const state =
        judgement.verdict === "within-limits" ? "within" : judgement.side === "low" ? "low" : undefined;
      if (state === undefined) found.delete(rail);
      else
        found.set(rail, { rail, state, typed: reading.value.typed, span: shift(reading.cell.span, start) });
    }
  }
  return found;
}

const isVoltage = ({ spec, value, measure }: Reading): boolean =>
  spec.role === "reading" && spec.quantity === "voltage" && !/ripple/.test(measure) && value.kind !== "empty";
