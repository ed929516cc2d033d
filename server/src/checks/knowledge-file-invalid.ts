import { knowledgeCheck } from "./check";

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
    for (const { span, message, suggestion, related } of problems) {
      const first = suggestion?.[0];
      yield {
        span,
        message,
        ...(first ? { data: { at: first.span, newText: first.newText } } : {}),
        ...(related && related.length > 0 ? { related: related.map((place) => ({ uri, ...place })) } : {}),
      };
    }
  },
  fixes(finding) {
    const data = finding.data as { at: { start: number; end: number }; newText: string } | undefined;
    if (!data) return [];
    return [
      {
        title: `Change to ${data.newText}`,
        edits: [{ span: data.at, newText: data.newText }],
        preferred: true,
      },
    ];
  },
});
