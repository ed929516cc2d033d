// What is read of plain YAML without the parser is what the parser's own nodes make of it, to the last position.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { plainYaml } from "../../server/src/syntax/plain-yaml";
import { createBuilder } from "../../server/src/syntax/yaml-build";
import { yamlDocument } from "../../server/src/syntax/yaml-document";

const KEYS = [
  "mendlog",
  "job",
  "board",
  "comeback-of",
  "null",
  "true",
  "a1_b",
  "0",
  "-",
  '"job"',
  "rom set",
  "y",
];
const VALUES = [
  ..."1 0 01 -1 +1 1.5 1e5 1_000 0x1F 0o17 0b1 123456789012345678901 2024-00017 2024-02-30 2024-02-30T10:00:00Z 1.2.3".split(
    " ",
  ),
  ..."true True FALSE null Null NULL ~ yes no on .inf .nan nan inf regatta-driver Müller U5/U6 a#b a:b".split(
    " ",
  ),
  ..."& * ! | > % @ ` ? - 'x' {a} {a:b} [a] [a,b] [] [,] [a,] [a,,b] ---".split(" "),
  "Owner 7",
  "a - b",
  "a #b",
  "# none",
  "a: b",
  "a, b",
  "two  blanks",
  "blank behind ",
  "(in the machine)",
  '""',
  '"a b"',
  '"1"',
  '"a # b: c"',
  '"a" b',
  '"a\\nb"',
  '"a\u00e9"',
  "[no display]",
  "[row 3 dead, 12, true]",
  "[a, b ]",
  "[ a, b]",
  "[a,  b]",
  "[a, [b]]",
  "[a: b]",
  "[a, 2024-01-01, 0x1f]",
  "[a] # b",
  "[a",
  "a]",
  "",
  " ",
];
const line = fc
  .tuple(
    fc.constantFrom(...KEYS),
    fc.constantFrom(": ", ": ", ": ", ":  ", ":", " : ", ":\t"),
    fc.constantFrom(...VALUES),
  )
  .map((parts) => parts.join(""));
const other = fc.constantFrom(
  "",
  "  more",
  "- item",
  "# words",
  "  a: 1",
  "words",
  "...",
  "---",
  "\ta: 1",
  "? a",
  "%YAML 1.2",
);
const text = fc
  .tuple(
    fc.array(fc.oneof({ weight: 12, arbitrary: line }, other), { maxLength: 5 }),
    fc.constantFrom("\n", "\n", "\r\n"),
    fc.boolean(),
  )
  .map(([lines, end, isEnded]) => lines.join(end) + (isEnded ? end : ""));

/** Texts that may well be plain from their first line to their last, and of which a single sign may not be. */
const plainer = fc
  .tuple(
    fc.uniqueArray(fc.stringMatching(/^[A-Za-z][A-Za-z0-9_-]{0,5}$/), { minLength: 1, maxLength: 4 }),
    fc.array(
      fc.oneof(
        fc.constantFrom("1845", "2026-06-27", "returned", "[a, b c]", '"0012"', "Owner 7", "0", "1.5.2"),
        fc.stringMatching(/^[A-Za-z0-9][A-Za-z0-9 ./_+()é-]{0,8}$/),
        fc.stringMatching(/^[0-9][0-9eExXoO._+-]{0,5}$/),
        fc.stringMatching(/^\[[a-z0-9 ,.-]{1,9}\]$/),
        fc.stringMatching(/^"[a-z0-9 ,.:#-]{0,6}"$/),
      ),
      { minLength: 4, maxLength: 4 },
    ),
    fc.boolean(),
  )
  .map(([keys, values, isEnded]) => {
    const lines = keys.map((key, i) => `${key}: ${values[i]}`);
    return lines.join("\n") + (isEnded ? "\n" : "");
  });

function parsed(yaml: string, at: number) {
  const doc = yamlDocument(yaml);
  const builder = createBuilder({ partial: false });
  return { root: builder.build(doc, yaml, at), errors: [...doc.errors, ...builder.problems] };
}

describe("plain YAML", () => {
  it("is read as the parser reads it, where it is read at all", () => {
    let read = 0;
    fc.assert(
      fc.property(fc.oneof(text, plainer), fc.constantFrom(0, 4), (yaml, at) => {
        const plain = plainYaml(yaml, at);
        if (!plain) return;
        read++;
        const { root, errors } = parsed(yaml, at);
        expect(errors).toEqual([]);
        expect(plain).toEqual(root);
      }),
      { numRuns: 4000 },
    );
    // A reader that reads nothing would hold all the same.
    expect(read).toBeGreaterThan(300);
  });

  it("reads the front matter that a log begins with", () => {
    const yaml = `mendlog: 1
job: 2026-00017
board: regatta-controller
serial: 1845
owner: Owner 340
symptoms: [no display, row 3 dead]
received: 2026-06-27
stage: returned
`;
    expect(plainYaml(yaml, 4)).toEqual(parsed(yaml, 4).root);
    expect(plainYaml(yaml, 4)?.entries.map(({ value }) => value.kind === "scalar" && value.value)).toEqual([
      1,
      "2026-00017",
      "regatta-controller",
      1845,
      "Owner 340",
      false,
      "2026-06-27",
      "returned",
    ]);
  });
});
