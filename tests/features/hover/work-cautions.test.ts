import { describe, expect, it } from "vitest";
import { hoverLog } from "../../../server/src/features/hover";
import { cautionsFor } from "../../../server/src/features/shared/work-cautions";
import { openAt } from "../../support/workspace";

describe("work is read with its cautions", () => {
  it.each([
    ["legs cut and pulled one by one", "eye protection"],
    ["cut the leads short", "eye protection"],
    ["freeze spray on U14", "flammable"],
    ["cleaned with isopropanol", "flammable"],
    ["EPROM pulled and read", "static"],
    ["1 F super-cap fitted", "series resistor"],
    ["CR2032 in a holder", "must not be charged"],
    ["display supply at 170 V", "rated for the display"],
    ["on the variac", "isolating transformer"],
    ["neutralised with vinegar", "gloves"],
  ])("%s: %s", (words, says) => {
    expect(cautionsFor(words).join(" ")).toContain(says);
  });

  it.each([
    "replaced",
    "track cut",
    "U14 renewed in a socket",
    "5.02 V",
    "chromium",
    "pins 3 and 4 reflowed",
  ])("%s has none of them", (words) => {
    expect(cautionsFor(words)).toEqual([]);
  });

  const WORK = "| Ref | Action | Part | Note |";
  const DIODE = "| Ref | Pin | Reading | Note |";
  const over = async (cells: string, heading: string, columns: string) => {
    const { view, offset } = await openAt(
      `//- log.md\n---\nmendlog: 1\n---\n\n## ${heading}\n\n${columns}\n|-|-|-|-|\n${cells}\n`,
    );
    return hoverLog(view, offset)?.markdown ?? "";
  };

  it.each([
    ["of the part that is fitted", "| BT1 | repl$0aced | CR2032 | |", "Work", WORK, "must not be charged"],
    [
      "of what the note says was done",
      "| U1 | rem$0oved | | legs cut |",
      "Work",
      WORK,
      "Caution:** Wear eye protection",
    ],
    ["over the note of a reading", "| U1 | 1 | 0.5 | freeze s$0pray |", "Diode check", DIODE, "flammable"],
  ])("over a row: %s", async (_what, cells, heading, columns, says) => {
    expect(await over(cells, heading, columns)).toContain(says);
  });

  it.each([
    ["work that needs none", "| U1 | rem$0oved | | in one piece |", "Work", WORK],
    ["a reading beside a note that has one", "| U1 | 1 | 0$0.5 | freeze spray |", "Diode check", DIODE],
  ])("not over %s", async (_what, cells, heading, columns) => {
    const text = await over(cells, heading, columns);
    expect(text).not.toContain("Caution");
    expect(text).not.toContain("flammable");
  });
});
