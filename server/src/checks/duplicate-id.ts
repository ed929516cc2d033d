import { defined } from "../base/defined";
import type { Known } from "../judge/context";
import type { Board } from "../knowledge/types";
import { nodeAt } from "../syntax/yaml";
import { knowledgeCheck } from "./check";

export default knowledgeCheck({
  code: "duplicate-id",
  title: "Two board files with one id",
  severity: "error",
  scope: "knowledge",
  why: "A log names its board by the id. Where two files carry it, only the first in order of path is used.",
  remedy: "Give each board file an id of its own.",
  examples: {
    bad: [
      `//- a.board.yaml
mendlog-board: 1
id: mini
title: Mini
//- b.board.yaml
mendlog-board: 1
id: mini
    ^^^^ duplicate-id: a.board.yaml
title: Mini again
`,
    ],
    good: [
      `//- a.board.yaml
mendlog-board: 1
id: mini
title: Mini
//- b.board.yaml
mendlog-board: 1
id: midi
title: Midi
`,
    ],
  },
  *run({ uri, kind, file, knowledge }) {
    if (kind !== "board" || !file) return;
    const board = file as Known<Board>;
    const used = knowledge.boards.get(board.value.id);
    const span = nodeAt(board.loaded.tree, ["id"])?.valueSpan;
    if (!used || used.uri === uri || !span) return;
    const first = nodeAt(used.loaded.tree, ["id"])?.valueSpan;
    yield defined({
      span,
      fact: `The id "${board.value.id}" is already used by ${used.uri.split("/").at(-1)}, so this file is left out.`,
      step: "Give it an id of its own.",
      related: first ? [{ uri: used.uri, span: first, message: "first used here" }] : undefined,
    });
  },
  noFix: "The new name is the writer's choice.",
});
