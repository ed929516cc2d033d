// What the spoilt texts are made from: every check's own examples, each a small workspace, and the demo.
import { textOf } from "../../server/src/checks/example";
import { EXAMPLE_BOARD } from "../../server/src/checks/example-board";
import { CHECKS } from "../../server/src/checks/registry";
import { knowledgeKind } from "../../server/src/workspace/host";

/** Texts by path with forward slashes. */
export type Texts = Readonly<Record<string, string>>;

/** The lines of carets under what is found are no part of a log, but spoil nothing either. */
function filesOf(example: string): Texts {
  const parts = example.split(/^\/\/- (.+)\r?\n/m);
  const files: Record<string, string> = {};
  if (parts[0]!.trim() !== "") files["log.md"] = parts[0]!;
  for (let i = 1; i < parts.length; i += 2) files[parts[i]!.trim()] = parts[i + 1] ?? "";
  if (!Object.keys(files).some((path) => knowledgeKind(path) === "board"))
    files["example.board.yaml"] = EXAMPLE_BOARD;
  return files;
}

/** @param demo the demo's files by path, or nothing */
export function workspaces(demo: Texts): readonly Texts[] {
  const examples = CHECKS.flatMap(({ examples: { bad, good } }) =>
    [...bad, ...good].map((example) => filesOf(textOf(example))),
  );
  const boards = Object.entries(demo).filter(([path]) => knowledgeKind(path));
  const logs = Object.entries(demo).filter(([path]) => /^logs\/.*\.md$/.test(path));
  return [...examples, ...logs.map((log) => Object.fromEntries([...boards, log]))];
}
