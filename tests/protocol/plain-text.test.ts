import { expect, test } from "vitest";
import { markdownToPlainText } from "../../server/src/protocol/plain-text";
import { ownMarkdown } from "../../server/src/text/markdown";

test.each([
  ["**U14** pin 2: *output* of `A`", "U14 pin 2: output of A"],
  ["1\\*2 \\_x\\_ \\[a\\] 3\\|4", "1*2 _x_ [a] 3|4"],
  ["| Pin | Name |\n|---|:--:|\n| 1 | A\\|B |", "Pin | Name\n1 | A|B"],
  [
    "[the sheet](https://example.org/a) and [https://b.org](https://b.org)",
    "the sheet (https://example.org/a) and https://b.org",
  ],
  ["above\n\n---\n\nbelow  \nnext", "above\n\nbelow\nnext"],
  ["**\\+5V**: 5 V ± 5 %", "+5V: 5 V ± 5 %"],
  ["### Found\n- **Output** open\n1. 2 * 3 * 4", "Found\n- Output open\n1. 2 * 3 * 4"],
  ["", ""],
])("%j reads %j", (text, plain) => {
  expect(markdownToPlainText(ownMarkdown(text))).toBe(plain);
});
