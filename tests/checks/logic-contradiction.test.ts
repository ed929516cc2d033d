import { expect, test } from "vitest";
import { boardHead, logOf } from "../support/boards";
import { header } from "../support/tables";
import { checkFindings } from "../support/workspace";

const BOARD = `${boardHead()}parts:
  U1: { device: 74LS138 }
  U2: { device: 74LS244 }
`;

const log = (rows: string) => logOf(BOARD, `## Logic states\n\n${header("Ref | Pin | State")}${rows}`);

test("a decoder whose enabled output stays high is told by its truth table", async () => {
  // Enabled (pin 6 high, 4 and 5 low), address 0: pin 15 has to be low.
  const found = await checkFindings(
    log(`| U1  | 1   | L     |
| U1  | 2   | L     |
| U1  | 3   | L     |
| U1  | 4   | L     |
| U1  | 5   | L     |
| U1  | 6   | H     |
| U1  | 15  | H     |
              ^ logic-contradiction: U1
`),
  );
  expect([...found.values()].flat()).toHaveLength(1);
});

test("near miss: with its enable unread the decoder may as well be off", async () => {
  await checkFindings(
    log(`| U1  | 1   | L     |
| U1  | 2   | L     |
| U1  | 3   | L     |
| U1  | 15  | H     |
`),
  );
});

test("near miss: a buffer that is not enabled leaves its output to others", async () => {
  await checkFindings(
    log(`| U2  | 1   | H     |
| U2  | 2   | L     |
| U2  | 18  | H     |
`),
  );
});

test("an enabled buffer that contradicts its input", async () => {
  await checkFindings(
    log(`| U2  | 1   | L     |
| U2  | 2   | L     |
| U2  | 18  | H     |
              ^ logic-contradiction: U2
`),
  );
});
