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

  it("over a row of work, and not over a reading", async () => {
    const at = async (cells: string, heading = "Work", header = "| Ref | Action | Part | Note |") => {
      const { view, offset } = await openAt(
        `//- log.md\n---\nmendlog: 1\n---\n\n## ${heading}\n\n${header}\n|-|-|-|-|\n${cells}\n`,
      );
      return hoverLog(view, offset)?.markdown ?? "";
    };
    expect(await at("| BT1 | repl$0aced | CR2032 | |")).toContain("must not be charged");
    expect(await at("| U1 | rem$0oved | | legs cut |")).toContain("Caution:** Wear eye protection");
    expect(await at("| U1 | rem$0oved | | in one piece |")).not.toContain("Caution");
    expect(
      await at("| U1 | 1 | 0$0.5 | freeze spray |", "Diode check", "| Ref | Pin | Reading | Note |"),
    ).not.toContain("flammable");
    expect(
      await at("| U1 | 1 | 0.5 | freeze s$0pray |", "Diode check", "| Ref | Pin | Reading | Note |"),
    ).toContain("flammable");
  });
});
