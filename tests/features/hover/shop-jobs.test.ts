// What the shop's other jobs on such boards tell where one writes: a symptom's cures, a part that keeps dying, how long a
// job takes, each with its numbers; what cured it comes first in a table of work.
import { describe, expect, test } from "vitest";
import { earlierTitle } from "../../../server/src/features/code-lens/earlier";
import { completeLog } from "../../../server/src/features/completion";
import { hoverLog } from "../../../server/src/features/hover";
import type { LogView } from "../../../server/src/features/view";
import { readable, sectionsOf } from "../../support/features";
import { openWorld } from "../../support/workspace";

const job = (
  name: string,
  year: number,
  fixed: readonly string[],
  more = "stage: returned\n",
): string => `//- ${name}.md
---
mendlog: 1
job: ${name}
board: example
received: ${year}-02-01
returned: ${year}-03-01
symptoms: [row-dead]
${more}---

## Hours

- ${year}-02-02: ${fixed.length} h

## Work done

| Ref | Action |
|-----|--------|
${fixed.map((ref) => `| ${ref} | replaced |\n`).join("")}
`;

const NOW = `//- now.md
---
mendlog: 1
job: now
board: example
received: 2026-01-01
symptoms: [row-dead]
---

U15 looks burnt.

## Work done

| Ref | Action |
|-----|--------|
|     |        |
`;

const EARLIER = [
  job("a", 2023, ["U15"]),
  job("b", 2024, ["U15", "Q1"]),
  job("c", 2024, ["U20"]),
  // Came back with it: it cured nothing, but the part was replaced all the same.
  job("d", 2025, ["U15"]),
  job("e", 2025, ["U14"], "stage: proving\ncomeback-of: d\n"),
].join("");

async function view(fixture: string): Promise<LogView> {
  const { service } = await openWorld(fixture);
  return service.view("mem:/ws/now.md")!;
}
const over = (log: LogView, words: string): string =>
  hoverLog(log, log.doc.text.indexOf(words) + 1)?.markdown ?? "";

describe("with other jobs on such boards", () => {
  test("a symptom says what was replaced when it was cured, of how many, and how long it took", async () => {
    const text = over(await view(EARLIER + NOW), "row-dead");
    expect(sectionsOf(text).find((section) => section.startsWith("**Replaced"))).toMatchInlineSnapshot(`
      "**Replaced when it was cured before** (3 returned jobs of this shop with it):

      - **U15** in 2 of 3
      - **Q1** in 1 of 3
      - **U20** in 1 of 3

      What was replaced need not have been at fault.

      4 jobs with hours noted took 1 h to 2 h, the middle one 1 h."
    `);
  });

  test("a part says how often it was replaced, year by year", async () => {
    const log = await view(EARLIER + NOW);
    expect(over(log, "U15 looks")).toContain(
      "Replaced in 3 of this shop's 5 other jobs on such boards (2023: 1, 2024: 1, 2025: 1).",
    );
  });

  test("a board says how many were here, how many came back, and how long they took", async () => {
    const log = await view(EARLIER + NOW);
    expect(readable(over(log, "example"))).toMatchInlineSnapshot(`
      "**Example board**

      Built 1978-1983 ↵
      17 parts, 18 nets, 3 rails ↵
      Revisions: A, B

      5 other jobs on such boards in this shop, 1 of them on a board that had been here before. 4 jobs with hours noted took 1 h to 2 h, the middle one 1 h."
    `);
  });

  test("the lens over the symptoms names what was replaced most often", async () => {
    expect(earlierTitle(await view(EARLIER + NOW))?.title).toBe(
      "5 earlier jobs with this symptom, U15 replaced in 2",
    );
  });

  test("a table of work offers what cured it first, with the numbers", async () => {
    const log = await view(EARLIER + NOW);
    const at = log.doc.text.lastIndexOf("|     |        |") + 3;
    const items = completeLog(log, at).filter(({ kind }) => kind === "part");
    expect(items.slice(0, 3).map(({ label }) => label)).toEqual(["U15", "Q1", "U20"]);
    expect(items[0]?.description).toContain("replaced in 2 of 3 jobs with row-dead");
    expect(items[3]?.description).not.toContain("replaced in");
  });
});

describe("without", () => {
  test("nothing is said and the order is as ever", async () => {
    const log = await view(
      `${NOW}//- other.md\n---\nmendlog: 1\nboard: another\nsymptoms: [row-dead]\n---\n`,
    );
    expect(over(log, "row-dead")).not.toContain("Replaced");
    expect(over(log, "U15 looks")).not.toContain("Replaced");
    expect(over(log, "example")).not.toContain("other job");
    expect(earlierTitle(log)).toBeUndefined();
  });

  test("a symptom in free words of a board that nobody described has its cures too", async () => {
    const other = (text: string) =>
      text.replaceAll("board: example", "board: tower").replaceAll("row-dead", "hums a lot");
    expect(over(await view(other(EARLIER + NOW)), "hums a lot")).toContain("- **U15** in 2 of 3");
  });
});
