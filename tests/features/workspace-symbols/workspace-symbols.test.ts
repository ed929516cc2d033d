import { expect, test } from "vitest";
import { MOST, thingsNamed } from "../../../server/src/features/workspace-symbols";
import { fuzzy } from "../../../server/src/features/workspace-symbols/fuzzy";
import { placeInBoard, titleIn } from "../../../server/src/features/workspace-symbols/place";
import { openWorld } from "../../support/workspace";

const LOGS = `//- a.md
---
mendlog: 1
job: 2026-004
board: example
stage: returned
---

Words.

# Column 4 dead
`;

async function named(query: string, fixture = LOGS): Promise<string[]> {
  const { service } = await openWorld(fixture);
  for await (const _ of service.index());
  const steps = thingsNamed(query, service.knowledge.snapshot(), service.memory().logs);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value.map(({ kind, name, container }) => `${kind}: ${name} (${container})`);
  }
}

test("jobs, boards, parts, nets and symptoms are found by their letters", async () => {
  expect(await named("2026-004")).toEqual(["job: 2026-004 Column 4 dead (example, returned)"]);
  expect((await named("c4dead"))[0]).toBe("job: 2026-004 Column 4 dead (example, returned)");
  expect((await named("u20"))[0]).toMatch(/^part: U20 74LS74 .*\(Example board/);
  expect((await named("swcol2"))[0]).toBe("net: SW_COL_2 (Example board)");
  expect(await named("no such thing")).toEqual([]);
});

test("an owner leads to each of the jobs, and is not in the way where nothing was asked for", async () => {
  const owned = LOGS.replace("board: example", "board: example\nowner: A. Sample");
  expect((await named("sample", owned))[0]).toBe(
    "owner: A. Sample (2026-004 Column 4 dead, example, returned)",
  );
  expect((await named("", owned)).filter((one) => one.startsWith("owner"))).toEqual([]);
});

test("without a query there are jobs and boards, and never more than are read through", async () => {
  expect(await named("")).toEqual([
    "job: 2026-004 Column 4 dead (example, returned)",
    "board: Example board (example)",
  ]);
  expect((await named("e")).length).toBeLessThanOrEqual(MOST);
});

test("a whole run beats scattered letters, a word's beginning its middle, a short name a long one", () => {
  const order = (query: string, ...names: string[]): void => {
    const scores = names.map((name) => fuzzy(query, name) ?? Number.NaN);
    expect(scores).toEqual([...scores].sort((a, b) => b - a));
  };
  order("u1", "U1", "U12 74145", "J3 u10", "U2 part 1");
  expect(fuzzy("xyz", "U14")).toBeUndefined();
  expect(fuzzy("u14 example", "U14", "Example board")).toBeDefined();
});

test("a log is gone to at its title, a thing of a board at its name", async () => {
  const text = LOGS.slice(LOGS.indexOf("---"));
  const at = titleIn(text);
  expect(text.slice(at.start, at.end)).toBe("# Column 4 dead");
  const { service } = await openWorld(LOGS);
  const board = service.knowledgeFile("mem:/ws/example.board.yaml");
  const part = board && placeInBoard(board.tree, ["parts", "U14"]);
  expect(part && board.text.slice(part.start, part.end)).toBe("U14");
});
