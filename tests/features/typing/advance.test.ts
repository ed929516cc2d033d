import { describe, expect, test } from "vitest";
import { advance, digitsBelow, enterAt } from "../../../server/src/features/typing";
import { after, LOG_HEAD } from "../../support/typing";
import { openAt } from "../../support/workspace";

const long = (rows: string) =>
  `## Diode check\n\n| Ref | Pin | Reading | Note |\n|-----|-----|---------|------|\n${rows}`;
const wide = (rows: string) =>
  `## Diode check\n\n| Pin | U14     | U20     |\n|-----|---------|---------|\n${rows}`;

async function led(marked: string): Promise<string | undefined> {
  const { view, offset } = await openAt(LOG_HEAD + marked);
  return after(view, advance(view, offset))?.slice(LOG_HEAD.length);
}

describe("a reading leads on", () => {
  test("to the empty cell below, put in order", async () => {
    expect(await led(long("| U14 | 1   | 558$0        |      |\n| U14 | 2   |         |      |\n"))).toBe(
      long("| U14 | 1   | 0.558 V |      |\n| U14 | 2   | $0        |      |\n"),
    );
  });

  test("to a row that is made where its pin is known", async () => {
    expect(await led(long("| U14 | 1   | 558$0        |      |"))).toContain(
      "| U14 | 1   | 0.558 V |      |\n| U14 | 2   | $0",
    );
  });

  test("not behind the last pin, where a row would be of nobody knows what", async () => {
    const rows = Array.from(
      { length: 13 },
      (_, i) => `| U14 | ${String(i + 1).padEnd(3)} | 0.5     |      |`,
    );
    expect(await led(long(`${rows.join("\n")}\n| U14 | 14  | 558$0     |      |`))).toBe(
      long(`${rows.join("\n")}\n| U14 | 14  | 0.558 V$0 |      |`),
    );
  });

  test("not into a cell that is filled in", async () => {
    expect(await led(long("| U14 | 1   | 558$0     |      |\n| U14 | 2   | 0.6     |      |\n"))).toBe(
      long("| U14 | 1   | 0.558 V$0 |      |\n| U14 | 2   | 0.6     |      |\n"),
    );
  });

  test("down a wide table's column, past pins that the chip has not, and on to the top of the next", async () => {
    expect(await led(wide("| 1   | 558$0        |         |\n| 2   |         |         |\n"))).toBe(
      wide("| 1   | 0.558 V |         |\n| 2   | $0        |         |\n"),
    );
    const pins = Array.from({ length: 14 }, (_, i) => `| ${String(i + 1).padEnd(3)} | 0.5     |         |`);
    const full = pins.join("\n").replace(/0\.5 {5}\| {9}\|$/, "558$0        |         |");
    const made = await led(wide(full));
    expect(made).toContain("| 1   | 0.5     | $0 ");
    expect(made).toContain("| 14  | 0.558 V |");
  });

  test("nowhere from a cell that is none of a reading", async () => {
    expect(await led(long("| U14 | 1$0   |         |      |\n"))).toBeUndefined();
    expect(await led("Words.$0\n")).toBeUndefined();
  });
});

describe("digits tell that a reading is over", () => {
  const at = async (marked: string) => {
    const { view, offset } = await openAt(LOG_HEAD + marked);
    return { cell: enterAt(view, offset)?.digits, below: digitsBelow(view, offset) };
  };
  const row = long("| U14 | 1   | $0        |      |\n");

  test("in a cell of the diode range, and in a table that is to be begun there", async () => {
    expect(await at(row)).toEqual({ cell: { limit: 3 }, below: { limit: 3 } });
    expect(await at("## Diode check\n\n$0")).toEqual({ cell: undefined, below: { limit: 3 } });
  });

  test("not of other readings, nor in the other cells of the row", async () => {
    expect((await at(long("| U14 | $0    |         |      |\n"))).cell).toBeUndefined();
    const rails = "## Supply rails, loaded\n\n| Rail | Reading |\n|------|---------|\n| +5V  | $0        |\n";
    expect(await at(rails)).toEqual({ cell: undefined, below: undefined });
    expect((await at("$0\n\n## Diode check\n")).below).toBeUndefined();
  });

  test("not where a column is in millivolts as its header says", async () => {
    expect((await at(row.replace("| Reading |", "| mV      |"))).cell).toBeUndefined();
  });

  test("not of a meter that shows tenths of a millivolt", async () => {
    const shows = async (resolution: string) => {
      const range = `{ function: diode, range: 2 V, resolution: ${resolution} }`;
      const shop = `mendlog-shop: 1\nname: Bench\nmeters:\n  bench:\n    title: Meter\n    ranges:\n      - ${range}\n`;
      const head = LOG_HEAD.replace("board: example", "board: example\nmeter: bench");
      const { view, offset } = await openAt(`//- mendlog.shop.yaml\n${shop}//- log.md\n${head}${row}`);
      return enterAt(view, offset)?.digits;
    };
    expect(await shows("1 mV")).toEqual({ limit: 3 });
    expect(await shows("100 uV")).toBeUndefined();
  });
});
