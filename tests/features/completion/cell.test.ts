import { describe, expect, it } from "vitest";
import { checkCompletion, checkOffered, offeredAt } from "../../support/features";
import { BOARD, SHOP } from "../../support/judged";

const world = (body: string) =>
  `//- trial.board.yaml
${BOARD.replace("U1: { device: 74LS04 }", "U1: { device: 74LS04, circuit: gates, fits: [74HCT04], location: C4, note: a *starred* part }").replace("expected:", "circuits:\n  gates: { title: Gates }\nexpected:")}//- mendlog.shop.yaml
${SHOP}stock:
  - { part: 74LS04, quantity: 6, location: drawer 3 }
  - { part: 2N3904, quantity: 40 }
//- log.md
---
mendlog: 1
board: trial
---

${body}
`;
const diode = (rows: string) =>
  world(`## Diode check\n\n| Ref | Pin | Reading | Note |\n|---|---|---|---|\n${rows}`);

describe("designators", () => {
  it("come with device and circuit, chips first, in the order people count", async () => {
    const { labels, item, take } = await checkCompletion(diode("| $0 |"), "U1 | 74LS04 hex inverter · Gates");
    expect(labels.filter((label) => label.startsWith("U"))).toEqual([
      "U1",
      "U2",
      "U3",
      "U4",
      "U5",
      "U6",
      "U7",
    ]);
    expect(item("U1").documentation).toContain("C4");
    expect(item("U1").documentation).toContain("a \\*starred\\* part");
    expect(take("U1")).toContain("\n| U1 |\n");
  });

  it("replace what is typed and keep the padding", async () => {
    expect((await offeredAt(diode("| u$0   | 1 | 0.58 | |"))).take("U1")).toContain("\n| U1   | 1 |");
    expect((await offeredAt(diode("| u  $0 | 1 | 0.58 | |"))).take("U1")).toContain("\n| U1 | 1 |");
    expect((await offeredAt(diode("|$0| 1 | 0.58 | |"))).take("U1")).toContain("\n|U1| 1 |");
  });

  it("put first what the table is about", async () => {
    const { labels } = await offeredAt(world("## Transistor junctions\n\n| Ref | B-E |\n|-|-|\n| $0 | |"));
    expect(labels[0]).toBe("Q1");
    const caps = await offeredAt(world("## Capacitance and ESR\n\n| Ref | Capacitance |\n|-|-|\n| $0 | |"));
    expect(caps.labels.slice(0, 2)).toEqual(["C1", "C2"]);
    expect((await offeredAt(diode("| $0 |"))).labels[0]).toBe("U1");
    expect(new Set(caps.labels).size).toBe(caps.labels.length);
  });

  it("start from the one in the row above", async () => {
    const { items } = await offeredAt(diode("| U2 | 1 | 0.58 | |\n| $0 | | | |"));
    expect(items.filter((item) => item.preselect).map((item) => item.label)).toEqual(["U2"]);
  });

  it("head the columns of a wide table", async () => {
    const { take } = await offeredAt(
      world("## Diode check\n\n| Pin | U$0 | U2 |\n|-|-|-|\n| 1 | 0.5 | 0.5 |"),
    );
    expect(take("U7")).toContain("| Pin | U7 | U2 |");
  });
});

describe("pins", () => {
  it("come with name, direction and net", async () => {
    const { labels } = await checkCompletion(
      diode("| U1 | $0 | | |"),
      "1 | 1A input",
      "3 | 2A input · net PULLED",
      "7 | GND ground · net GND",
    );
    expect(labels).toEqual(Array.from({ length: 14 }, (_, i) => String(i + 1)));
  });

  it("already read come last, and say so", async () => {
    const { labels, item } = await offeredAt(
      diode("| U1 | 1 | 0.5 | |\n| U1 | pin 3 | 0.5 | |\n| U1 | $0 | | |"),
    );
    expect(labels.slice(-2)).toEqual(["1", "3"]);
    expect(labels[0]).toBe("2");
    expect(item("3").description).toContain("already in this table");
  });

  it("of another chip do not count as read", async () => {
    const { labels } = await offeredAt(diode("| U2 | 1 | 0.5 | |\n| U1 | $0 | | |"));
    expect(labels[0]).toBe("1");
  });

  it("know a chip named once for several rows, or in the heading, or over a wide table", async () => {
    expect((await offeredAt(diode("| U1 | 1 | 0.5 | |\n| | $0 | | |"))).labels.at(-1)).toBe("1");
    await checkCompletion(
      world("## Diode check U1\n\n| Pin | Reading |\n|-|-|\n| $0 | |"),
      "14 | VCC supply",
    );
    await checkCompletion(
      world("## Diode check\n\n| Pin | U1 (top row) | U2 |\n|-|-|-|\n| $0 | | |"),
      "14 | VCC supply",
    );
  });

  it("are found by name", async () => {
    expect((await offeredAt(diode("| U1 | V$0 | | |"))).item("14").filterText).toBe("14 VCC");
  });

  it("of a part the library does not know are none", async () => {
    await checkOffered(diode("| U3 | $0 | | |"), []);
    await checkOffered(diode("| | $0 | | |"), []);
  });
});

describe("readings", () => {
  it("in an empty cell are the words a meter shows", async () => {
    await checkOffered(diode("| U1 | 1 | $0 | |"), ["OL", "-"]);
  });

  it("take a unit behind a number, the column's own first", async () => {
    await checkOffered(diode("| U1 | 1 | 580$0 | |"), ["0.580 V", "580 V", "580 mV"]);
    const { take } = await offeredAt(diode("| U1 | 1 | 580 m$0 | |"));
    expect(take("580 mV")).toContain("| 1 | 580 mV | |");
    const inMillivolts = diode("| U1 | 1 | ~580 $0| |").replace("Reading", "Reading (mV)");
    await checkOffered(inMillivolts, ["~580 mV", "~580 V"]);
    await checkOffered(world("## Resistance\n\n| Ref | Reading |\n|-|-|\n| R1 | 9.8$0 |"), [
      "9.8 Ω",
      "9.8 kΩ",
      "9.8 MΩ",
    ]);
    await checkOffered(world("## Frequency\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U1 | 1 | >1.0$0 |"), [
      ">1.0 Hz",
      ">1.0 kHz",
      ">1.0 MHz",
    ]);
  });

  it("that are states or results have their words", async () => {
    await checkOffered(world("## Logic states\n\n| Ref | Pin | State |\n|-|-|-|\n| U1 | 1 | $0 |"), [
      "H",
      "L",
      "pulsing",
      "floating",
      "-",
    ]);
    await checkCompletion(world("## Inspection\n\n| Item | Result |\n|-|-|\n| U1 | $0 |"), "ok", "-");
  });
});

describe("parts that fit", () => {
  const fitted = (row: string) => world(`## Parts fitted\n\n| Ref | Part | Quantity |\n|-|-|-|\n${row}`);

  it("are the maker's, the board's, then substitutes with their caution, each with the stock", async () => {
    const { labels, item } = await offeredAt(fitted("| U1 | $0 | 1 |"));
    expect(labels.slice(0, 2)).toEqual(["74LS04", "74HCT04"]);
    expect(item("74LS04").description).toBe("as fitted by the maker · 6 in stock, drawer 3");
    expect(item("74HCT04").description).toBe("fits, by the board file");
    expect(item("74LS04").documentation).toBeUndefined();
    // The library's caution stands beside what the board file allows.
    expect(item("74HCT04").documentation).toMatch(/^⚠ \*\*Caution:\*\* \S/);
    const transistor = await offeredAt(fitted("| Q1 | $0 | 1 |"));
    expect(transistor.labels[0]).toBe("2N3904");
    expect(transistor.labels.length).toBeGreaterThan(1);
    for (const each of transistor.items.slice(1)) {
      expect(each.description).toMatch(/^substitute/);
      expect(each.documentation).toMatch(/^⚠ \*\*Caution:\*\* \S/);
    }
  });

  it("are the value of a passive part", async () => {
    await checkOffered(fitted("| R1 | $0 | 1 |"), ["10k"]);
  });

  it("are the stock where the row names no part", async () => {
    await checkOffered(fitted("| | $0 | 1 |"), ["74LS04", "2N3904"]);
  });
});

describe("other cells", () => {
  it("name the rails not yet in the table", async () => {
    const { labels } = await checkCompletion(
      world("## Supply rails\n\n| Rail | DC |\n|-|-|\n| 5v | 5.0 |\n| $0 | |"),
      "+12V | 12 V ± 1 V",
      "-12V | -12 V ± 10 %",
    );
    expect(labels).toEqual(["-12V", "-5V", "+12V"]);
  });

  it("name nets for signals and actions for work", async () => {
    await checkCompletion(
      world("## Display\n\n| Item | Signal | Result |\n|-|-|-|\n| x | $0 | |"),
      "BUS | U1.5 U2.1",
    );
    await checkCompletion(
      world("## Work done\n\n| Ref | Action |\n|-|-|\n| U1 | $0 |"),
      "replace",
      "socket",
      "jumper",
    );
  });

  it("write the day by the editor's calendar where a day belongs", async () => {
    const { take, item } = await offeredAt(world("## Work done\n\n| Date | Ref |\n|-|-|\n| $0 | U1 |"));
    expect(item("today").snippet).toMatch(/^\$\{CURRENT_YEAR\}-\$\{CURRENT_MONTH\}-\$\{CURRENT_DATE\}$/);
    expect(item("today").variables).toBe(true);
    expect(take("today")).toContain("| today | U1 |");
  });

  it("of words take designators as a sentence does", async () => {
    const { take } = await checkOffered(diode("| U1 | 1 | 0.5 | see C$0 too |"), ["C1", "C2"]);
    expect(take("C2")).toContain("| see C2 too |");
    await checkOffered(diode("| U1 | 1 | 0.5 | $0 |"), []);
    await checkOffered(diode("| U1 | 1 | 0.5 | twice$0 |"), []);
  });

  it("offer nothing behind the last pipe", async () => {
    await checkOffered(diode("| U1 | 1 | 0.5 | x |$0"), []);
    await checkOffered(diode("| U1 | 1 | 0.5 | x | U$0 |"), []);
  });
});
