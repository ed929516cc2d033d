import { expect, test } from "vitest";
import { enterAt, fillBelow } from "../../../server/src/features/typing";
import { after, LOG_HEAD, tab } from "../../support/typing";
import { openAt } from "../../support/workspace";

const long = (rows: string) =>
  `## Diode check\n\n| Ref | Pin | Reading | Note |\n|-----|-----|---------|------|\n${rows}`;

/** The text once the lines that stand below `^`, the place of the key, are dealt with; `$0` is the cursor. */
async function filled(marked: string): Promise<string | undefined> {
  const text = LOG_HEAD + marked;
  const from = text.indexOf("^");
  const { view, offset } = await openAt(text.replace("^", ""));
  return after(view, fillBelow(view, offset, from))?.slice(LOG_HEAD.length);
}

test("the line that Enter made goes, and the cursor stands in the cell below", async () => {
  expect(
    await filled(long("| U14 | 1   | 558^        |      |\n$0\n| U14 | 2   |         | in   |\n\nWords.\n")),
  ).toBe(long("| U14 | 1   | 0.558 V |      |\n| U14 | 2   | $0        | in   |\n\nWords.\n"));
});

test("what was typed before the answer came is in the cells below, each row's in its own", async () => {
  expect(
    await filled(
      long(
        "| U14 | 1   | 558^        |      |\n574\n583$0\n| U14 | 2   |         | in   |\n| U14 | 3   |         | out  |\n| U14 | 4   |         |      |\n",
      ),
    ),
  ).toBe(
    long(
      "| U14 | 1   | 0.558 V |      |\n| U14 | 2   | 0.574 V | in   |\n| U14 | 3   | 583$0     | out  |\n| U14 | 4   |         |      |\n",
    ),
  );
});

test("in a wide table it stays in its column, and goes past pins that a chip has not", async () => {
  const wide = (rows: string) =>
    `## Diode check\n\n| Pin | U14     | U15     |\n|-----|---------|---------|\n${rows}`;
  expect(await filled(wide("| 1   | 0.5     | 558^        |\n57$0\n| 2   |         |         |\n"))).toBe(
    wide("| 1   | 0.5     | 0.558 V |\n| 2   |         | 57$0      |\n"),
  );
});

test("a reading that stands there already is not run into", async () => {
  expect(
    await filled(long("| U14 | 1   | 0.5^     |      |\n574$0\n| U14 | 2   | 0.6     |      |\n")),
  ).toContain("| U14 | 2   | 0.6 574$0 |");
});

test("more lines than rows begin rows of their own", async () => {
  const made = await filled(
    long("| U14 | 1   | 0.5^     |      |\n0.6\n0.7$0\n| U14 | 2   |         |      |\n"),
  );
  expect(made).toContain("0.6");
  expect(made).toMatch(/\| 0\.7\$0/);
});

test("Enter does so in a reading with a row below it, and nowhere else", async () => {
  const does = async (marked: string) => {
    const { view, offset } = await openAt(LOG_HEAD + marked);
    return enterAt(view, offset)?.does;
  };
  const rows = (first: string) => long(`${first}\n| U14 | 2   |         |      |\n`);
  expect(await does(rows("| U14 | 1   | 558$0     |      |"))).toBe("below");
  expect(await does(rows("| U14$0 | 1   | 558     |      |"))).toBe("cell");
  expect(await does(rows("| U14 | 1   | 558     |      |$0"))).toBe("row");
  expect(await does(long("| U14 | 1   | 558$0     |      |\n"))).toBe("row");
});

test("Tab goes to the note too where the row above has one", async () => {
  const two = (note: string) =>
    long(
      `| U14 | 1   | 0.5     | ${note} |\n| U14 | 2   | 0.6$0     |      |\n| U14 | 3   |         |      |\n`,
    );
  expect(await tab(two("hot "))).toContain("| U14 | 2   | 0.6     | $0 ");
  expect(await tab(two("    "))).toContain("| U14 | 3   | $0 ");
});
