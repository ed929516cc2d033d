// The hover over a symptom: whom the log suspects for it, and what looks or behaves alike.
import { describe, expect, test } from "vitest";
import { hoverLog } from "../../../server/src/features/hover";
import { demoText, openDemo } from "../../support/demo";

/** The hover on a symptom of a demo log, whose symptoms may be given again. */
async function over(
  name: string,
  symptom: string,
  edit = (text: string) => text,
): Promise<string | undefined> {
  const service = await openDemo();
  const uri = `mem:/demo/logs/${name}.md`;
  const text = edit(demoText(uri));
  service.open(uri, text);
  const at = text.indexOf(symptom, text.indexOf("symptoms:"));
  return hoverLog(service.view(uri)!, at + 1)?.markdown;
}
const withSymptoms = (list: string) => (text: string) =>
  text.replace(/^symptoms: .*$/m, `symptoms: [${list}]`);

describe("the suspects", () => {
  test("of the symptom with their shares, the reasons measured, the next reading and the bound", async () => {
    const text = await over("2026-018-controller", "row-dead");
    expect(text).toMatch(/\*\*One switch row never answers\*\*/);
    expect(text).toContain("Circuits to look at");
    expect(text).toMatch(/[12]\. \*\*U12\*\* 74145 [^\n]*(?:about|over) \d+ %/);
    expect(text).toMatch(/[12]\. \*\*U14\*\* 74LS14 [^\n]*(?:about|over) \d+ % {2}\nU14 pin/);
    expect(text).toMatch(/\*\*Next reading:\*\* .* It takes about \d+ (?:s|min)\./);
    expect(text).toMatch(/\*Complete/);
  });

  test("a symptom that a repair may have cured says what is to be seen again", async () => {
    const text = await over("2026-013-driver", "coil-stuck");
    expect(text).toContain("Found before work on Q3 and not seen again since");
    expect(text).not.toContain("Suspects");
    expect(text).not.toContain("work on C1");
  });
});

describe("look-alikes", () => {
  test("a display that another shows with one segment dark", async () => {
    expect(await over("2026-011-controller", "error-3")).toContain(
      "E 9 (No zero crossing) shows as this with segment F dark: run a display test first.",
    );
    expect(await over("2026-011-controller", "error-9")).toContain(
      "With segment F dark this one shows as E 3 (Work memory fails)",
    );
  });

  test("inputs that do the same are told apart by row, column and what the log found there", async () => {
    const text = await over("2026-018-controller", "race-stops", withSymptoms("race-stops"));
    expect(text).toMatch(
      /\*\*Tilt\*\*: row 7 \(SW\\_ROW\\_7, U14 pin 1\), column 4 \(SW\\_COL\\_4, U12 pin 4\); in this log: dead/,
    );
    expect(text).toMatch(/\*\*Door\*\*: row 7 .*column 6 .*; in this log: dead/);
    expect(text).toMatch(/To tell them apart: all are on row 7.*columns differ/);
  });

  test("a customer's own words are led to the inputs they may mean, and nothing is made up for others", async () => {
    const text = await over("2026-018-controller", "lane 3 never");
    expect(text).toMatch(/Inputs these words may mean/);
    expect(text).toMatch(
      /\*\*Lane 3 gate\*\*: row 1 .* column 3 \(SW\\_COL\\_3, U12 pin 3\); in this log: dead/,
    );
    expect(text).toMatch(/all are on column 3/);
    expect(await over("2026-018-controller", "smells", withSymptoms("smells odd"))).not.toMatch(
      /Inputs|Suspects/,
    );
  });
});
