import { defined } from "../base/defined";
import { addCircuit, idOf } from "../knowledge/board-file";
import { slice } from "../text/span";
import { type Finding, type Fix, knowledgeCheck } from "./check";
import { missingLimits } from "./missing-limits";
import { COMMA_FIX, PROBLEM_FIXES, type ProblemData, problemData, saidOf } from "./problem-fixes";

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
      {
        text: `//- mini.board.yaml
mendlog-board: 1
id: mini
title: Mini
partz: {}
^^^^^ knowledge-file-invalid: parts
`,
        fixes: [
          {
            title: "Change to parts",
            makes: `
 title: Mini
-partz: {}
+parts: {}
`,
          },
        ],
      },
      `//- mendlog.shop.yaml
mendlog-shop: 1
name: Bench
limits-from: pool.limits.yaml
             ^^^^^^^^^^^^^^^^ knowledge-file-invalid: no pooled limits are used
`,
      `//- mini.board.yaml
- a list
^^^^^^^^ knowledge-file-invalid: list
`,
      {
        text: `//- mini.board.yaml
mendlog-board: 1
id: mini
title: Mini
parts:
  U1: { device: 74LS00 }
   U2: { device: 74LS04 }
^^^^^^^^^^^^^^^^^^^^^^^^^ knowledge-file-invalid: indented by 3, the lines it belongs with by 2
  U3: { device: 74LS08 }
`,
        fixes: [
          {
            title: "Indent this line by 2",
            makes: `
   U1: { device: 74LS00 }
-   U2: { device: 74LS04 }
+  U2: { device: 74LS04 }
   U3: { device: 74LS08 }
`,
          },
        ],
      },
      {
        text: `//- mini.board.yaml
mendlog-board: 1
id: mini
title: Mini
parts:
  U1: { device: 74LS00 }
  nets:
^^^^^^^ knowledge-file-invalid: indented by 2, the lines it belongs with by 0
  GND: [U1.7]
`,
        fixes: [
          {
            title: "Take the indentation of this line away",
            makes: `
   U1: { device: 74LS00 }
-  nets:
+nets:
   GND: [U1.7]
`,
          },
        ],
      },
      {
        text: `//- mini.board.yaml
mendlog-board: 1
id: mini
title: Mini
circuits:
\tdisplay: { title: Display }
^ knowledge-file-invalid: tab
`,
        fixes: [
          {
            title: "Put spaces in the place of the tab",
            makes: `
 circuits:
-\tdisplay: { title: Display }
+  display: { title: Display }
`,
          },
        ],
      },
      {
        text: `//- mini.board.yaml
mendlog-board: 1
id: mini
title: Mini
maker:unknown
^^^^^^^^^^^^^ knowledge-file-invalid: space behind the colon
`,
        fixes: [
          {
            title: "Put a space behind the colon",
            makes: `
 title: Mini
-maker:unknown
+maker: unknown
`,
          },
        ],
      },
      {
        text: `//- mini.board.yaml
mendlog-board: 1
id: mini
title: Mini
parts:
  U1: { device: 74LS04 package: DIP-14 }
                       ^^^^^^^ knowledge-file-invalid: comma is missing
`,
        fixes: [
          {
            title: "Put the comma in",
            makes: `
 parts:
-  U1: { device: 74LS04 package: DIP-14 }
+  U1: { device: 74LS04, package: DIP-14 }
`,
          },
        ],
      },
      {
        text: `//- mini.board.yaml
mendlog-board: 1
id: mini
title: Mini: first issue
       ^^^^^^^^^^^^^^^^^ knowledge-file-invalid: Put the value in quotes
`,
        fixes: [
          {
            title: 'Change to "Mini: first issue"',
            makes: `
 id: mini
-title: Mini: first issue
+title: "Mini: first issue"
`,
          },
        ],
      },
      {
        text: `//- mini.board.yaml
mendlog-board: 1
id: mini
title: Mini
circuits:
  address-decode: { title: Address decode }
parts:
  U1: { device: 74LS138, circuit: adress-decode }
                                  ^^^^^^^^^^^^^ knowledge-file-invalid: address-decode
`,
        fixes: [
          {
            title: "Change to address-decode",
            makes: `
 parts:
-  U1: { device: 74LS138, circuit: adress-decode }
+  U1: { device: 74LS138, circuit: address-decode }
`,
          },
          {
            title: "Add the circuit adress-decode to this file",
            makes: `
   address-decode: { title: Address decode }
+  adress-decode: { title: Adress decode }
 parts:
`,
          },
        ],
      },
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
  *run(input) {
    const { uri, problems } = input;
    const missing = missingLimits(input);
    if (missing)
      yield {
        span: missing.span,
        fact: `There is no file \`${missing.path}\` that could be read, so no pooled limits are used.`,
        step: "Correct the path, or make the file with `mendlog pool`.",
        data: { problem: "no-limits-file" },
      };
    for (const problem of problems) {
      const { span, related } = problem;
      yield defined({
        span,
        ...saidOf(problem),
        data: problemData(problem),
        related: related && related.length > 0 ? related.map((place) => ({ uri, ...place })) : undefined,
      });
    }
  },
  fixes: {
    ...PROBLEM_FIXES,
    comma: COMMA_FIX,
    addCircuit: (finding, { text }) => addedCircuit(finding, text),
  },
});

/** An entry for the circuit that is named and not there; its title is the name in words until a better one is typed. */
function addedCircuit({ data, span }: Finding, text: string): Fix[] {
  if ((data as Partial<ProblemData>).problem !== "unknown-circuit") return [];
  const typed = slice(text, span).replace(/^["']|["']$/g, "");
  const id = /\s/.test(typed.trim()) ? idOf(typed.trim().toLowerCase()) : typed;
  const edited = addCircuit(text, {
    id,
    title: id === typed ? inWords(id) : capital(typed.trim()),
    from: "",
  });
  // Where the file cannot be added to, or no circuit can have that name, the nearest name is all there is.
  if (!edited.ok || edited.edits.length === 0) return [];
  // Words with blanks are a title; the part then has the circuit's id.
  const own = id === typed ? [] : [{ span, newText: id }];
  return [{ title: `Add the circuit ${id} to this file`, edits: [...edited.edits, ...own] }];
}

const inWords = (id: string): string => {
  const words = id.replace(/[-_]+/g, " ").trim();
  return capital(words);
};

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
