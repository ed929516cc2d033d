import { describe, expect, test } from "vitest";
import { builtinLibrary } from "../../server/src/knowledge/library";
import { sectionsOfSet } from "../../server/src/log/boards-of-set";
import { LogReader } from "../../server/src/log/document";
import { eachBoard, summarise } from "../../server/src/log/summary";

const read = (text: string) => new LogReader("mem:/log.md").read(text, builtinLibrary());

const FRONT = `---
mendlog: 1
job: "7"
boards:
  driver: driver-1
  lamps: { board: lamps-1, serial: "0042" }
---

`;

function headingsOf(text: string): Record<string, string[]> {
  const doc = read(text);
  const { logs } = sectionsOfSet(doc, doc.frontMatter.value?.boards ?? []);
  return Object.fromEntries(
    logs.map(({ ofSet, blocks }) => [
      ofSet?.name,
      blocks.flatMap(({ block }) => block.source.headings.map((heading) => heading.text)),
    ]),
  );
}

describe("sections of a set", () => {
  test("go under the board whose heading stands above, deeper ones and flat ones alike", () => {
    expect(
      headingsOf(
        `${FRONT}# Job 7\n\n## Driver\n\n### Diode check\n\n## Work\n\n## Lamps board\n\n## Soak\n\n## driver-1: again\n\n## Notes\n`,
      ),
    ).toEqual({
      driver: ["Job 7", "Driver", "Diode check", "Work", "driver-1: again", "Notes"],
      lamps: ["Lamps board", "Soak"],
    });
  });

  test("a heading of a higher level ends a board's part and counts to the first", () => {
    expect(headingsOf(`${FRONT}## Lamps\n\n### Soak\n\n# For the owner\n`)).toEqual({
      driver: ["For the owner"],
      lamps: ["Lamps", "Soak"],
    });
  });

  test("every section is in exactly one board, in its order", () => {
    const doc = read(`${FRONT}a\n\n## Lamps\n\nb\n\n## Driver\n\nc\n\n## Lamps\n\nd\n`);
    const { logs } = sectionsOfSet(doc, doc.frontMatter.value?.boards ?? []);
    const all = logs.flatMap(({ blocks }) => blocks).sort((a, b) => a.start - b.start);
    expect(all).toEqual(doc.blocks);
    for (const { blocks } of logs)
      expect(blocks.map(({ start }) => start)).toEqual(
        blocks.map(({ start }) => start).sort((a, b) => a - b),
      );
  });

  test("each board has its own front matter", () => {
    const doc = read(`${FRONT.replace("boards:", "revision: B\nboards:")}## Lamps\n`);
    const [driver, lamps] = sectionsOfSet(doc, doc.frontMatter.value?.boards ?? []).logs.map(
      ({ frontMatter }) => frontMatter.value,
    );
    expect(driver).toMatchObject({ job: "7", board: "driver-1", revision: "B" });
    expect(driver?.serial).toBeUndefined();
    expect(lamps).toMatchObject({ job: "7", board: "lamps-1", serial: "0042" });
    expect(lamps?.boards).toBeUndefined();
  });

  test("a list names each board by its id", () => {
    const doc = read("---\nmendlog: 1\nboards: [driver-1, lamps-1]\n---\n\n## Lamps-1\n\nx\n");
    const { logs, named } = sectionsOfSet(doc, doc.frontMatter.value?.boards ?? []);
    expect(logs.map(({ ofSet }) => ofSet?.name)).toEqual(["driver-1", "lamps-1"]);
    expect([...named].map(({ board }) => board)).toEqual(["lamps-1"]);
  });
});

test("a summary has what was read of each board under that board", () => {
  const doc = read(
    `${FRONT}## Driver\n\n### Diode check U1 (7404)\n\n| Pin | Reading |\n|---|---|\n| 1 | 0.58 |\n\n## Lamps\n\n### Diode check U1 (7407)\n\n| Pin | Reading |\n|---|---|\n| 2 | 0.61 |\n`,
  );
  const whole = summarise(doc);
  expect(whole.board).toBeUndefined();
  expect(whole.boards).toEqual(["driver-1", "lamps-1"]);
  const each = eachBoard([whole]);
  expect(each.map(({ board, serial }) => [board, serial])).toEqual([
    ["driver-1", undefined],
    ["lamps-1", "0042"],
  ]);
  expect(
    each.map(({ tables }) => tables.flatMap(({ readings }) => readings.map(({ pin, low }) => [pin, low]))),
  ).toEqual([[["1", 0.58]], [["2", 0.61]]]);
  expect(each.map(({ stated }) => JSON.stringify(stated).match(/74\d\d/)?.[0])).toEqual(["7404", "7407"]);
});
