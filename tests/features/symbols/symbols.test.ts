import { describe, expect, it } from "vitest";
import { outlineOf } from "../../support/features";

const log = (body: string) =>
  `---\nmendlog: 1\njob: 2026-014\nboard: example\nstage: diagnosing\n---\n\n${body}`;

describe("the outline", () => {
  it("nests headings by depth, with the readings under them", async () => {
    expect(
      await outlineOf(
        log(`# Board 7

## Diode check

| Ref | Pin | Reading |
|-|-|-|
| U14 | 1 | 0.5 |
| U14 | 2 | - |

#### Deep

### Less deep

## Pin drops, after repair

## Work

| Ref | Action |
|-|-|
| U14 | socket |

# Next
`),
      ),
    ).toEqual([
      "Job 2026-014: example, diagnosing",
      "Board 7",
      "  Diode check",
      "    Diode check: 1 of 2 readings",
      "    Deep",
      "    Less deep",
      "  Pin drops, after repair: Diode check",
      "  Work",
      "    Work: 1 row",
      "Next",
    ]);
  });

  it("shows a heading still without words and a log still without a job", async () => {
    expect(await outlineOf("---\nmendlog: 1\n---\n\n##\n")).toEqual(["Job", "(no words)"]);
  });
});
