import { expect, test } from "vitest";
import { EXAMPLE_BOARD } from "../../../server/src/checks/example-board";
import { highlightsInKnowledge, tokensInKnowledge } from "../../../server/src/features/knowledge";
import { slice } from "../../../server/src/text/span";
import { openWorld } from "../../support/workspace";

const URI = "mem:/ws/b.board.yaml";

async function board(text = EXAMPLE_BOARD) {
  const { service } = await openWorld(`//- b.board.yaml\n${text}`);
  return service.knowledgeFile(URI)!;
}

test("a part, a pin and a net are shown in their other places, their entry as what makes them", async () => {
  const file = await board();
  const boxed = (words: string, into: number) =>
    highlightsInKnowledge(file, file.text.indexOf(words) + into)?.map(
      ({ span, kind }) => `${kind} ${slice(file.text, span)}`,
    );
  expect(boxed("U14: { device", 1)).toEqual(["done U14", ...Array<string>(3).fill("named U14")]);
  expect(boxed("U14.7", 4)).toEqual(["named 7"]);
  expect(boxed("PULLED:", 2)).toEqual(["done PULLED"]);
  expect(boxed("VCC:", 1)).toEqual(["named VCC", "done VCC"]);
  expect(boxed("mendlog-board", 3)).toBeUndefined();
});

test("colours stand in order on parts, pins, nets and rails, and on nothing else", async () => {
  const file = await board();
  const tokens = tokensInKnowledge(file);
  const line = (words: string) => {
    const start = file.text.indexOf(words);
    const end = file.text.indexOf("\n", start);
    return tokens
      .filter(({ span }) => span.start >= start && span.end <= end)
      .map(({ span, type }) => `${slice(file.text, span)} ${type}`);
  };
  expect(line("  ROW_1:")).toEqual([
    "ROW_1 benchNet",
    "U14 benchPart",
    "2 benchPin",
    "U15 benchPart",
    "1 benchPin",
  ]);
  expect(line("  U14: {")).toEqual(["U14 benchPart"]);
  let last = 0;
  for (const { span } of tokens) {
    expect(span.start).toBeGreaterThanOrEqual(last);
    last = span.end;
  }
});
