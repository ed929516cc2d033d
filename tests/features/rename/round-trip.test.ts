import fc from "fast-check";
import { expect, test } from "vitest";
import { asFixture, renamed } from "../../support/mentions";

const REFS = ["U1", "U14", "Q2", "RN1"];
/** None of them is in the texts. */
const FREE = ["U21", "IC7", "TR105", "Q22A", "R_9"];

const word = fc.constantFrom(
  ...REFS,
  ...REFS.map((ref) => ref.toLowerCase()),
  ...REFS.map((ref) => `${ref}.3`),
  ...REFS.map((ref) => `\`${ref}\``),
  "U140",
  "XU14",
  "U1/U14",
  "Q2-RN1",
  "U14.jpg",
  "photos/U1.png",
  "[U14](U14.md)",
  "<!-- U1 -->",
  "**Q2**",
  "-",
  "0.5",
  "\\|",
  "74LS04",
);
const words = fc.array(word, { maxLength: 5 }).map((some) => some.join(" "));
const row = fc
  .tuple(fc.constantFrom(...REFS, "", "U14 (74LS04)"), words)
  .map(([ref, note]) => `| ${ref} | 3 | 0.5 | ${note} |`);
const table = fc
  .array(row, { minLength: 1, maxLength: 4 })
  .map((rows) => ["| Ref | Pin | Reading | Note |", "| --- | --- | --- | --- |", ...rows].join("\n"));
const wide = fc.constantFrom("| Pin | U14 | Q2 |\n| --- | --- | --- |\n| 1 | 0.5 | 0.6 |");
const block = fc.oneof(
  words,
  table,
  wide,
  words.map((some) => `## Diode check ${some}`),
  fc.constantFrom("## Diode check", "## Diode check U14", "# U1"),
  words.map((some) => `\`\`\`\n${some}\n\`\`\``),
  words.map((some) => `> ${some}\n- ${some}`),
);
const log = fc
  .tuple(fc.array(block, { maxLength: 6 }), fc.constantFrom("\n", "\r\n"), fc.constantFrom("a", "b"))
  .map(([blocks, eol, board]) =>
    ["---", "mendlog: 1", `board: ${board}`, "---", "", blocks.join("\n\n")].join("\n").replaceAll("\n", eol),
  );

test("a name and back again restores every byte of every file, and code is never touched", async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(log, { minLength: 1, maxLength: 3 }),
      fc.constantFrom(...REFS),
      fc.constantFrom(...FREE),
      fc.boolean(),
      async (logs, ref, free, quoted) => {
        const pin = quoted ? '"' : "";
        const board = `mendlog-board: 1
id: a
title: Board
parts:
  U1: { value: 1k, note: beside U14 and Q2 } # RN1 and U1
  U14: { device: 74LS04 }
  Q2: { value: 1k }
  RN1: { value: 1k }
nets:
  N1: [${pin}U1.1${pin}, U14.3, Q2.2, RN1.1]
`;
        const before: Record<string, string> = { "a.board.yaml": board };
        logs.forEach((text, i) => {
          before[`log-${i}.md`] = `${text}\n`;
        });
        const there = await renamed(asFixture(before).replace(`  ${ref}: `, `  $0${ref}: `), free);
        if (typeof there === "string") throw new Error(there);
        expect(there.files["a.board.yaml"]).not.toBe(board);
        for (const [name, text] of Object.entries(before)) {
          expect(there.files[name]?.match(/`[^`]*`/g)).toEqual(text.match(/`[^`]*`/g));
          if (/^board: b/m.test(text)) expect(there.files[name]).toBe(text);
        }
        const back = await renamed(asFixture(there.files).replace(`  ${free}: `, `  $0${free}: `), ref);
        if (typeof back === "string") throw new Error(back);
        expect(back.files).toEqual(before);
      },
    ),
    { numRuns: 60 },
  );
});
