import { defined } from "../base/defined";
import { findRail } from "../judge/rail-name";
import { boardIndex } from "../knowledge/board-index";
import type { Board } from "../knowledge/types";
import type { LogDocument } from "../log/document";
import { statementsOfLog } from "../log/stated/of-block";
import { refOf } from "../review/board-draft";
import { boardOfFile, type SaidPart, saidParts } from "../review/said-parts";
import { type Span, shift } from "../text/span";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { linkNews } from "./link-news";
import { NEWS_FIXES, type News } from "./news-fixes";

interface Told {
  readonly span: Span;
  readonly fact: string;
  readonly data: News;
}

export default documentCheck({
  code: "not-in-board-file",
  title: "Something of the board that its file does not have",
  severity: "hint",
  scope: "document",
  why: "What a log says of its board counts for this log only. In the board file it counts for every later board of the type.",
  remedy:
    "Take it over with one of the fixes: the part, rail or net alone, or all that the log knows. Nothing in the file is changed by it.",
  examples: {
    bad: [
      {
        text: exampleLog(`## Diode check

| Ref | Device | Pin | Reading |
|-----|--------|-----|---------|
| U5  | 7404   | 1   | 0.58    |
        ^^^^ not-in-board-file: this log says 7404
`),
        fixes: [
          {
            title: "Add U5 (7404) to the board file",
            makes: `
//- example.board.yaml
   J3: { package: header 10 }
+  U5: { device: "7404" } # log log.md, line 10
 nets:
`,
          },
        ],
      },
      {
        text: exampleLog(`## Supply rails

| Rail | DC     |
|------|--------|
| +12V | 12.0 V |
  ^^^^ not-in-board-file: has no rail +12V
`),
        fixes: [
          {
            title: "Add rail +12V to the board file",
            makes: `
//- example.board.yaml
   "+24V": { nominal: 24 V, tolerance: 10 %, source: invented }
+  "+12V": { nominal: 12 V, tolerance: 5 %, ripple: 50 mV, net: "+12V", source: "its name; usual for a regulated rail: common practice, no source" } # log log.md, line 10
 parts:
@@
   D7: [U33.11, U34.17, U35.17]
+  "+12V": [] # log log.md, line 10
 matrices:
`,
          },
        ],
      },
      {
        text: exampleLog(`## Continuity

| From  | To   | Reading |
|-------|------|---------|
| U14-2 | J3-1 | beep    |
  ^^^^^ not-in-board-file: does not have J3.1 on net ROW_1
`),
        fixes: [
          {
            title: "Add J3.1 to net ROW_1 in the board file",
            makes: `
//- example.board.yaml
   VCC: [U14.14, U15.14, U20.14, R12.1]
-  ROW_1: [U14.2, U15.1]
+  ROW_1: [U14.2, U15.1, J3.1] # J3.1: log log.md, line 10
   PULLED: [U15.5, R12.2]
`,
          },
        ],
      },
      {
        text: exampleLog(`## Continuity

| From  | To   | Reading |
|-------|------|---------|
| U14-2 | J3-1 | beep    |
  ^^^^^ not-in-board-file: does not have J3.1 on net ROW_1
| U14-4 | J3-2 | beep    |
  ^^^^^ not-in-board-file: has no net of U14.4 and J3.2
`),
        fixes: [
          {
            title: "Add J3.1 to net ROW_1 in the board file",
            makes: `
//- example.board.yaml
   VCC: [U14.14, U15.14, U20.14, R12.1]
-  ROW_1: [U14.2, U15.1]
+  ROW_1: [U14.2, U15.1, J3.1] # J3.1: log log.md, line 10
   PULLED: [U15.5, R12.2]
`,
          },
          {
            title: "Add all that this log knows to the board file: 2 nets",
            leaves: 0,
            makes: `
//- example.board.yaml
   VCC: [U14.14, U15.14, U20.14, R12.1]
-  ROW_1: [U14.2, U15.1]
+  ROW_1: [U14.2, U15.1, J3.1] # J3.1: log log.md, line 10
   PULLED: [U15.5, R12.2]
@@
   D7: [U33.11, U34.17, U35.17]
+  U14-4: [U14.4, J3.2] # log log.md, line 11
 matrices:
`,
          },
          {
            title: "Add the net U14-4 (U14.4, J3.2) to the board file",
            makes: `
//- example.board.yaml
   D7: [U33.11, U34.17, U35.17]
+  U14-4: [U14.4, J3.2] # log log.md, line 11
 matrices:
`,
          },
        ],
      },
      {
        text: `//- b.board.yaml
mendlog-board: 1
id: example
title: Example board
parts:
  U5: { note: in a socket }
//- log.md
---
mendlog: 1
board: example
---

## Diode check U5 (7404)
                   ^^^^ not-in-board-file: does not say what U5 is

| Pin | Reading |
|-----|---------|
| 1   | 0.58    |
`,
        fixes: [
          {
            title: "Add U5 (7404) to the board file",
            makes: `
//- b.board.yaml
 parts:
-  U5: { note: in a socket }
+  U5: { note: in a socket, device: "7404" } # U5 device: log log.md, line 6
`,
          },
        ],
      },
      {
        text: exampleLog(`## Parts fitted

| Ref | Part |
|-----|------|
| R50 | 4k7  |
        ^^^ not-in-board-file: 4k7 was fitted there
`),
        fixes: [
          {
            title: "Add R50 (4k7) to the board file",
            makes: `
//- example.board.yaml
   J3: { package: header 10 }
+  R50: { value: 4k7 } # log log.md, line 10
 nets:
`,
          },
        ],
      },
    ],
    good: [
      exampleLog(`## Diode check

| Ref | Device | Pin | Reading |
|-----|--------|-----|---------|
| U14 | 74LS04 | 1   | 0.58    |
`),
    ],
  },
  *run({ doc, ctx }) {
    const file = boardOfFile(ctx);
    if (!file) return;
    for (const part of saidParts(doc).values()) yield* ofPart(part, file);
    yield* ofRails(doc, file);
    yield* ofLinks(doc, file);
  },
  fixes: NEWS_FIXES,
});

function* ofPart({ first }: SaidPart, file: Board): Iterable<Told> {
  const { ref: typed, device, value, by, span } = first;
  const what = device ?? value;
  const known = boardIndex(file).part(typed);
  const ref = refOf(typed, file);
  if (what === undefined || !/^[A-Za-z0-9][\w-]*$/.test(ref)) return;
  const said = by === "fitted" ? `this log says that ${what} was fitted there` : `this log says ${what}`;
  const data: News = defined({ kind: "part", ref, what, device });
  if (!known) yield { span, fact: `The board file does not list ${ref}; ${said}.`, data };
  else if (known.device === undefined && device !== undefined && by !== "fitted")
    yield { span, fact: `The board file does not say what ${ref} is; ${said}.`, data };
}

function* ofRails(doc: LogDocument, file: Board): Iterable<Told> {
  const told = new Set<string>();
  for (const { start, found } of statementsOfLog(doc)) {
    for (const one of found.all) {
      if (one.kind !== "rail" || told.has(one.name) || findRail(file, one.name)) continue;
      told.add(one.name);
      yield {
        span: shift(one.span, start),
        fact: `The board file has no rail ${one.name}; this log has readings of it.`,
        data: { kind: "rail", name: one.name },
      };
    }
  }
}

function* ofLinks(doc: LogDocument, file: Board): Iterable<Told> {
  const told = new Set<string>();
  const newsOf = linkNews(doc, file);
  for (const { start, found } of statementsOfLog(doc)) {
    for (const one of found.all) {
      const news = one.kind === "link" ? newsOf(one) : undefined;
      if (!news || told.has(JSON.stringify(news))) continue;
      told.add(JSON.stringify(news));
      const { name, pins, isNew } = news;
      yield {
        span: shift(one.span, start),
        fact: isNew
          ? `The board file has no net of ${pins.join(" and ")}, which this log found joined.`
          : `The board file does not have ${pins[0]} on net ${name}, where this log found it.`,
        data: news,
      };
    }
  }
}
