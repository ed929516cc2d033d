import { addCircuit } from "../knowledge/board-file";
import { slice } from "../text/span";
import { type Finding, type Fix, knowledgeCheck } from "./check";
import { type ProblemData, problemData, suggestedFixes } from "./problem-fixes";

export default knowledgeCheck({
  code: "knowledge-file-invalid",
  title: "A board, device, procedure or shop file that cannot be used as written",
  severity: "error",
  scope: "knowledge",
  why: "What these files say is what the readings are judged by. An entry that cannot be read is left out; the rest of the file is used.",
  remedy: "Correct the entry at the place shown.",
  examples: {
    bad: [
      `//- mini.board.yaml
mendlog-board: 1
id: mini
title: Mini
rails:
  "+5V": { nominal: 5 V }
  ^^^^^ knowledge-file-invalid: tolerance
`,
      `//- mini.board.yaml
mendlog-board: 1
id: mini
title: Mini
partz: {}
^^^^^ knowledge-file-invalid: parts
`,
      `//- mini.board.yaml
- a list
^^^^^^^^ knowledge-file-invalid: list
`,
    ],
    good: [
      `//- mini.board.yaml
mendlog-board: 1
id: mini
title: Mini
rails:
  "+5V": { nominal: 5 V, tolerance: 5 % }
`,
    ],
  },
  *run({ uri, problems }) {
    for (const problem of problems) {
      const { span, message, related } = problem;
      yield {
        span,
        message,
        data: problemData(problem),
        ...(related && related.length > 0 ? { related: related.map((place) => ({ uri, ...place })) } : {}),
      };
    }
  },
  fixes: (finding, { text }) => [...suggestedFixes(finding), ...addedCircuit(finding, text)],
});

/** An entry for the circuit that is named and not there; its title is the name in words until a better one is typed. */
function addedCircuit({ data, span }: Finding, text: string): Fix[] {
  if ((data as Partial<ProblemData>).problem !== "unknown-circuit") return [];
  const id = slice(text, span).replace(/^["']|["']$/g, "");
  const edited = addCircuit(text, { id, title: inWords(id), from: "" });
  // Where the file cannot be added to, or no circuit can have that name, the nearest name is all there is.
  if (!edited.ok || edited.edits.length === 0) return [];
  return [{ title: `Add the circuit ${id} to this file`, edits: edited.edits }];
}

const inWords = (id: string): string => {
  const words = id.replace(/[-_]+/g, " ").trim();
  return words.charAt(0).toUpperCase() + words.slice(1);
};
