import { describe, expect, it } from "vitest";
import { checkNoRefactor, checkRefactor, refactorsOf } from "../../support/refactor";

const HEAD = "## Diode check\n\n| Ref | Pin | Reading | Note |\n|-----|-----|---------|------|\n";

describe("missing pins", () => {
  it("get rows where they belong, of the part at the cursor", () =>
    checkRefactor(
      `${HEAD}${[1, 2, 3, 4, 5, 6, 7, 8, 10, 12, 13].map((pin) => `| U14 | ${pin} | 0.5 | |\n`).join("")}| U15 | 2$0 | 0.6 | |\n| U14 | 14 | 0.3 | |\n`
        .replace("2$0", "2")
        .replace("| U14 | 8 |", "| U14 | 8$0 |"),
      "Add the missing pins 9 and 11 of U14",
      `${HEAD}${[1, 2, 3, 4, 5, 6, 7, 8].map((pin) => `| U14 | ${pin} | 0.5 | |\n`).join("")}| U14 | 9   |         |      |
| U14 | 10 | 0.5 | |
| U14 | 11  |         |      |
| U14 | 12 | 0.5 | |
| U14 | 13 | 0.5 | |
| U15 | 2 | 0.6 | |
| U14 | 14 | 0.3 | |
`,
    ));

  it("before the first that is there, under a part named once, and with the notes the table has", async () => {
    const { take } = await refactorsOf(`${HEAD}| U14 | 3$0 | 0.5 | 2A input |\n| | 14 | 0.3 | |\n`);
    const text = take("Add the 12 missing pins of U14");
    expect(text).toContain(
      `${HEAD}| U14 | 1   |         | 1A input |\n| U14 | 2   |         | 1Y output · net ROW\\_1 |`.replace(
        "\\_",
        "_",
      ),
    );
    expect(text).toContain("| U14 | 3 | 0.5 | 2A input |\n| U14 | 4   |");
    expect(text).toMatch(/\| U14 \| 13 .*\n\| \| 14 \| 0\.3 \| \|\n$/);
  });

  it("of a wide table are rows with a dash where a part has no such pin", () =>
    checkRefactor(
      `## Diode check\n\n| Pin | U14 | U31 |\n|-----|-----|-----|\n${[
        1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 14, 16,
      ]
        .map((pin) => `| ${pin} | 0.5$0 | 0.5 |\n`)
        .join("")
        .replace(/\$0(?=[\s\S]*\$0)/g, "")}`,
      "Add the missing pins 13 and 15",
      `## Diode check\n\n| Pin | U14 | U31 |\n|-----|-----|-----|\n${[1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12].map((pin) => `| ${pin} | 0.5 | 0.5 |\n`).join("")}| 13  |     |     |\n| 14 | 0.5 | 0.5 |\n| 15  | -   |     |\n| 16 | 0.5 | 0.5 |\n`,
    ));

  it("are nobody's where the part is not known, has them all, or the cursor is elsewhere", async () => {
    await checkNoRefactor(`${HEAD}| U99 | 1$0 | 0.5 | |\n`, "Add");
    await checkNoRefactor(
      `${HEAD}${[1, 2, 3]
        .map((pin) => `| Q1 | ${pin}$0 | 0.5 | |\n`)
        .join("")
        .replace(/\$0(?=[\s\S]*\$0)/g, "")}`,
      "Add",
    );
    await checkNoRefactor(`$0${HEAD}| U14 | 1 | 0.5 | |\n`, "Add");
  });
});

const SUSPECTS =
  "<!-- mendlog-suspects: written -->\n\n## Suspects\n\n1. U14\n\n<!-- mendlog-suspects-end -->\n";

describe("the copy for after the repair", () => {
  it("has the same places under the heading's own words, behind the section with all below it", () =>
    checkRefactor(
      `## Diode check before repair\n\n| Ref | Pin | Reading | Note |\n|-----|:---:|---------|------|\n| U14 | 1   | 0.5$0     | odd  |\n| U14 | 2   | OL      |      |\n\n### Beside\n\nText\n\n## Work done\n`,
      'Copy as an empty table under "Diode check after repair"',
      `## Diode check before repair\n\n| Ref | Pin | Reading | Note |\n|-----|:---:|---------|------|\n| U14 | 1   | 0.5     | odd  |\n| U14 | 2   | OL      |      |\n\n### Beside\n\nText\n\n## Diode check after repair\n\n| Ref | Pin | Reading | Note |\n|-----|:---:|---------|------|\n| U14 |  1  |         |      |\n| U14 |  2  |         |      |\n\n## Work done\n`,
    ));

  it("stays out of the list of suspects, which is written anew", () =>
    checkRefactor(
      `## Supply rails\n\n| Rail | Reading |\n|------|---------|\n| +5V  | 5.02$0    |\n\n${SUSPECTS}`,
      "Copy as an empty table",
      `## Supply rails\n\n| Rail | Reading |\n|------|---------|\n| +5V  | 5.02    |\n\n## Supply rails after repair\n\n| Rail | Reading |\n|------|---------|\n| +5V  |         |\n\n${SUSPECTS}`,
    ));

  it("of a wide table keeps the dashes of pins that are not there; at the end of a log without a line end", () =>
    checkRefactor(
      "## Diode check, lead reversed\n\n| Pin | U14 | U31 |\n|-----|-----|-----|\n| 12  | -$0   | 0.5 |\n| 16  | -   | 0.3 |",
      "Copy as an empty table",
      "## Diode check, lead reversed\n\n| Pin | U14 | U31 |\n|-----|-----|-----|\n| 12  | -   | 0.5 |\n| 16  | -   | 0.3 |\n\n## Diode check, lead reversed, after repair\n\n| Pin | U14 | U31 |\n|-----|-----|-----|\n| 12  |     |     |\n| 16  | -   |     |\n",
    ));

  it("is not offered twice, for a table after the repair, for work done, or where the end of the log is open", async () => {
    const table = "| Rail | Reading |\n|------|---------|\n| +5V  | 5.02$0    |\n";
    const { take } = await refactorsOf(`## Supply rails, loaded\n\n${table}`);
    const after = take("Copy");
    expect(after).toContain(
      "## Supply rails, loaded, after repair\n\n| Rail | Reading |\n|------|---------|\n| +5V  |         |\n",
    );
    await checkNoRefactor(after.replace("5.02", "5.02$0"), "Copy");
    await checkNoRefactor(`## Supply rails after repair\n\n${table}`, "Copy");
    await checkNoRefactor("## Work done\n\n| Ref | Action |\n|-|-|\n| U14$0 | replaced |\n", "Copy");
    await checkNoRefactor(`## Supply rails, loaded\n\n${table}\n\`\`\`\nopen\n`, "Copy");
  });
});

describe("rows out of order", () => {
  it("are put by part and pin, each as it is typed", () =>
    checkRefactor(
      `${HEAD}| U15 | 2 | 0.6 | |\n| U2  | 10 | 0.6 |$0\n|U2|9|0.5|a \\| b|\n| U15 | 1 | 0.6 | | more |`,
      "Sort the rows by part and pin",
      `${HEAD}|U2|9|0.5|a \\| b|\n| U2  | 10 | 0.6 |\n| U15 | 1 | 0.6 | | more |\n| U15 | 2 | 0.6 | |`,
    ));

  it("are not where a row takes its part from the one above, has no pin, or all are in order", async () => {
    await checkNoRefactor(`${HEAD}| U15 | 2 | 0.6$0 | |\n| | 1 | 0.6 | |\n`, "Sort");
    await checkNoRefactor(`${HEAD}| U15 | 2 | 0.6$0 | |\n| U14 | | 0.6 | |\n`, "Sort");
    await checkNoRefactor(`${HEAD}| U14 | 2 | 0.6$0 | |\n| U14 | 10 | 0.6 | |\n`, "Sort");
  });
});
