import { defined } from "../base/defined";
import type { Knowledge } from "../judge/context";
import type { Board } from "../knowledge/types";
import { frontSpan } from "../log/front";
import { logLineSource, symptomOf } from "../review/board-draft";
import { nearest } from "../text/nearest";
import { boardFileFix } from "./board-fixes";
import { documentCheck, toBeChosen } from "./check";
import { replaceWithData } from "./fixes";

/** What a finding's fixes need to know. */
interface Unlisted {
  readonly typed: string;
  /** Where it is written like an id: the same in plain words. */
  readonly words?: string;
}

export default documentCheck({
  code: "unknown-symptom",
  title: "A symptom the board file does not list",
  severity: "warning",
  scope: "document",
  ofSet: "all-agree",
  why: "A symptom written as an id leads to the circuits that make the function, to its suspects and to the earlier jobs that had the same. One that the board file does not have leads nowhere, and nothing else would say so.",
  remedy:
    "Correct the id, add the symptom to the board file, or write it in plain words: a symptom in words is kept as it is and asked nothing of.",
  examples: {
    bad: [
      {
        text: `//- b.board.yaml
mendlog-board: 1
id: example
title: Example board
source: invented
circuits: { display: { title: Display }, reset: { title: Reset } }
symptoms:
  blank-display: { title: Display stays blank, circuits: [display, reset] }
  no-sound: { title: No sound, circuits: [reset] }
//- log.md
---
mendlog: 1
board: example
symptoms: [blank-dispaly, smells-of-fish, hums loudly]
           ^^^^^^^^^^^^^ unknown-symptom: Did you mean blank-display?
                          ^^^^^^^^^^^^^^ unknown-symptom: write it in plain words
---
`,
        fixes: [
          {
            title: "Change to blank-display",
            makes: `
 board: example
-symptoms: [blank-dispaly, smells-of-fish, hums loudly]
+symptoms: [blank-display, smells-of-fish, hums loudly]
 ---
`,
          },
          {
            title: "Write it in words: blank dispaly",
            makes: `
 board: example
-symptoms: [blank-dispaly, smells-of-fish, hums loudly]
+symptoms: [blank dispaly, smells-of-fish, hums loudly]
 ---
`,
          },
          {
            title: "Add the symptom blank-dispaly to the board file",
            makes: `
//- b.board.yaml
   no-sound: { title: No sound, circuits: [reset] }
+  blank-dispaly: { title: Blank dispaly } # log log.md, line 4
`,
          },
          {
            title: "Write it in words: smells of fish",
            makes: `
 board: example
-symptoms: [blank-dispaly, smells-of-fish, hums loudly]
+symptoms: [blank-dispaly, smells of fish, hums loudly]
 ---
`,
          },
          {
            title: "Add the symptom smells-of-fish to the board file",
            makes: `
//- b.board.yaml
   no-sound: { title: No sound, circuits: [reset] }
+  smells-of-fish: { title: Smells of fish } # log log.md, line 4
`,
          },
        ],
      },
    ],
    good: [
      `//- b.board.yaml
mendlog-board: 1
id: example
title: Example board
source: invented
circuits: { display: { title: Display } }
symptoms:
  blank-display: { title: Display stays blank, circuits: [display] }
//- log.md
---
mendlog: 1
board: example
symptoms: [blank-display, lane 3 never scores, dead, Self-test stops]
---
`,
    ],
  },
  *run({ doc, ctx, knowledge, front }) {
    const board = ctx.board?.value;
    // A board file that lists no symptom knows none, and nobody meant one of its ids.
    if (!board || board.symptoms.size === 0) return;
    const known = [...board.symptoms.keys()];
    for (const [i, typed] of (front.symptoms ?? []).entries()) {
      const span = frontSpan(doc, ["symptoms", i]);
      if (!span || board.symptoms.has(typed)) continue;
      const near = /^\S+$/.test(typed) ? nearest(typed, known) : undefined;
      const shaped = /^[a-z0-9]+(?:[-_][a-z0-9]+)+$/i.test(typed);
      // A single word may be an id or a word: it is one's own unless it is nearly an id.
      if (!shaped && near === undefined) continue;
      yield defined({
        span,
        severity: near === undefined ? ("information" as const) : undefined,
        fact: `${board.title} has no symptom "${typed}", so it leads to no suspects.`,
        step: near ? `Did you mean ${near}?` : hint(typed, board, knowledge),
        data: defined({ typed, newText: near || undefined, words: shaped ? asWords(typed) : undefined }),
      });
    }
  },
  fixes: {
    change: (finding) => replaceWithData(finding, (id) => `Change to ${id}`),
    writeInWords({ data, span }) {
      const { words } = data as Unlisted;
      return words === undefined
        ? []
        : [{ title: `Write it in words: ${words}`, edits: [{ span, newText: words }] }];
    },
    addToBoardFile: toBeChosen(({ data, span }, { ctx, log }) => {
      const { words, typed } = data as Unlisted;
      const symptom = words === undefined ? undefined : symptomOf(typed);
      if (!symptom || !ctx || !log) return [];
      const entry = { ...symptom, from: logLineSource(log, span.start) };
      return boardFileFix(`Add the symptom ${typed} to the board file`, [{ kind: "symptom", entry }], ctx);
    }),
  },
});

const asWords = (id: string): string => id.replace(/[-_]+/g, " ");

function hint(typed: string, own: Board, { boards }: Knowledge): string {
  const other = [...boards.values()].find(({ value }) => value.id !== own.id && value.symptoms.has(typed));
  return other
    ? `It is a symptom of ${other.value.title}. Write it in plain words here, or add it to this board's file.`
    : "Add it to the board file, or write it in plain words.";
}
