import { describe, expect, it } from "vitest";
import { completeLog } from "../../../server/src/features/completion";
import { builtinLibrary } from "../../../server/src/knowledge/library";
import { applyEdits } from "../../../server/src/text/edits";
import { checkCompletion, checkOffered, offeredAt } from "../../support/features";
import { BOARD } from "../../support/judged";
import { readLog, subjectText, tableList } from "../../support/log";
import { openAt } from "../../support/workspace";

const world = (body: string) =>
  `//- trial.board.yaml\n${BOARD}//- log.md\n---\nmendlog: 1\nboard: trial\n---\n\n${body}`;

describe("headings", () => {
  it("are the procedures', at the depth typed", async () => {
    const { labels, take, item } = await offeredAt(world("## $0\n"));
    expect(labels).toContain("## Diode check");
    expect(labels).toContain("## Diode check after repair");
    expect(labels).toContain("## Work");
    expect(labels).not.toContain("## Work after repair");
    expect(take("## Diode check")).toContain("\n\n## Diode check\n");
    expect(item("## Diode check").description).toBe("unpowered");
    // Cautions come with it.
    expect(item("## Diode check").documentation).toContain("⚠ **Caution:**");
  });

  it("replace the line begun, with or without its blank", async () => {
    expect((await offeredAt(world("### dio$0 old words\n"))).take("### Diode check")).toContain(
      "\n### Diode check\n",
    );
    expect((await offeredAt(world("#$0"))).take("# Resistance")).toMatch(/\n# Resistance$/);
    expect((await offeredAt(world("##$0\r\n\r\nx\r\n"))).take("## Soak")).toContain("## Soak\r\n\r\nx");
  });

  it("offered are all headings the log understands", async () => {
    const { items } = await offeredAt(world("## $0\n"));
    for (const { newText } of items)
      expect(builtinLibrary().procedureFor(newText.slice(3)), newText).toBeDefined();
  });
});

describe("designators in a sentence", () => {
  it("are those that begin like the word", async () => {
    await checkOffered(world("The joint under C$0 is cracked.\n"), ["C1", "C2"]);
    await checkCompletion(world("Pulled U$0"), "U1 | 74LS04 hex inverter");
    expect((await offeredAt(world("Pulled U1$0 off"))).take("U1")).toContain("Pulled U1 off");
  });

  it("keep out of ordinary words, listings and comments", async () => {
    await checkOffered(world("pulled u$0"), []);
    await checkOffered(world("The meter $0"), []);
    await checkOffered(world("```\nmov C$0\n```\n"), []);
    await checkOffered(world("<!-- see C$0 -->\n"), []);
  });
});

describe("a table that the board lays out", () => {
  const withMatrix = (body: string) =>
    world(body).replace(
      "expected:",
      `matrices:
  switches:
    kind: switch
    title: Switches
    rows: [ROW_A, ROW_B]
    columns: [COL_A, COL_B, COL_C]
    cells: [[Coin, Start, ~], [Tilt, ~, ~]]
    reserved: [[2, 3]]
expected:`,
    );

  it("has a row a rail", async () => {
    const { take, item, service, uri } = await offeredAt(world("## Supply rails, loaded\n\n$0\n"));
    const text = take("Rails table");
    const [table] = tableList(readLog(text));
    expect(table?.rows.map(({ cells }) => cells.rail?.text)).toEqual(["+5V", "-12V", "-5V", "+12V"]);
    expect(new Set(table?.readings.map((r) => r.measure))).toEqual(new Set(["dc", "ripple"]));
    service.open(uri, text);
    expect(service.findings(uri)).toEqual([]);
    const { snippet = "", newText } = item("Rails table");
    expect(emptied(snippet)).toBe(newText);
    const unpowered = await offeredAt(world("## Resistance to ground\n\n$0\n"));
    expect(tableList(readLog(unpowered.take("Rails table")))[0]?.readings).toHaveLength(4);
  });

  it("has a cell a crossing, the reserved ones marked", async () => {
    const { take, item, service, uri } = await offeredAt(withMatrix("## Switch matrix\n\n$0\n"));
    const text = take("Switches table");
    const [table] = tableList(readLog(text));
    expect(table?.shape).toBe("wide");
    expect(
      table?.readings.map((r) => `${subjectText(r).row}.${subjectText(r).column} ${r.value.typed}`),
    ).toEqual(["1.1 ", "1.2 ", "1.3 ", "2.1 ", "2.2 ", "2.3 -"]);
    service.open(uri, text);
    expect(service.findings(uri)).toEqual([]);
    const { snippet = "", newText } = item("Switches table");
    expect(emptied(snippet)).toBe(newText);
    expect(snippet.match(/\$\{\d+: +\}/g)).toHaveLength(5);
  });

  it.each(["Diode check", "Lamp matrix", "Letters"])("is not offered under %s", async (heading) => {
    const { labels } = await offeredAt(withMatrix(`## ${heading}\n\n$0\n`));
    expect(labels.filter((label) => /^(?:Rails|Switches)/.test(label))).toEqual([]);
  });
});

describe("a whole readings table", () => {
  const wanted = (ref: string, pins: number) =>
    Array.from({ length: pins }, (_, i) => ({ ref, pin: String(i + 1) }));

  it.each(["U1", "U2", "U5", "U7"])(
    "of %s reads as one row a pin, with nothing to find fault with",
    async (ref) => {
      const { take, service, uri, item } = await offeredAt(world("## Diode check\n\n$0\n\n## Next\n"));
      const text = take(`${ref} readings table`);
      const [table] = tableList(readLog(text));
      expect(table?.readings.map((r) => ({ ref: subjectText(r).ref, pin: subjectText(r).pin }))).toEqual(
        wanted(ref, ref === "U1" || ref === "U7" ? 14 : 16),
      );
      expect(new Set(table?.readings.map((r) => r.value.kind))).toEqual(new Set(["empty"]));
      service.open(uri, text);
      expect(service.findings(uri)).toEqual([]);
      expect(text).toContain("\n\n## Next\n");
      expect(item(`${ref} readings table`).newText).not.toContain("##");
    },
  );

  it("says of each pin what it is and what it is on", async () => {
    const { take } = await offeredAt(world("## Diode check\n\n$0\n"));
    expect(take("U1 readings table")).toMatch(/\n\| U1 {2}\| 3 {3}\| {9}\| 2A input · net PULLED +\|\n/);
  });

  it("is parted from the caution right above it", async () => {
    const { take } = await offeredAt(world("## Diode check\n\n> Caution: discharge first.\n$0\n## Next\n"));
    const [table] = tableList(readLog(take("U1 readings table")));
    expect(table?.readings).toHaveLength(14);
  });

  it("brings its heading where none says what is measured", async () => {
    const { take } = await offeredAt(world("# Regatta\n\n$0"));
    const doc = readLog(take("U1 readings table"));
    expect(tableList(doc)[0]?.procedure.id).toBe("diode-check");
    expect(tableList(doc)[0]?.readings).toHaveLength(14);
  });

  it.each([
    "Diode check",
    "Logic states",
    "Logic levels",
    "Resistance to ground",
    "Frequency",
    "Resistance",
    "Reset timing",
    "Coil resistance",
  ])("under %s is one that procedure reads", async (title) => {
    const { take } = await offeredAt(world(`## ${title}\n\n$0`));
    const [table] = tableList(readLog(take("U1 readings table")));
    expect(table?.shape).toBe("long");
    expect(new Set(table?.readings.map((r) => `${subjectText(r).ref}.${subjectText(r).pin}`)).size).toBe(14);
  });

  it.each(["Supply rails", "Switch matrix", "Work done", "Transistor junctions"])(
    "is none under %s",
    async (title) => {
      const { labels } = await offeredAt(world(`## ${title}\n\n$0`));
      expect(labels.filter((label) => label.endsWith("readings table"))).toEqual([]);
    },
  );

  it.each([
    ["in a table begun", "## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| $0"],
    ["behind a row's last pipe", "## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U1 | 1 | 0.5 |$0\n"],
    ["right under a table", "## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U1 | 1 | 0.5 |\n$0\n"],
    [
      "right under a table without outer pipes",
      "## Diode check\n\nRef | Pin | Reading\n-|-|-\nU1 | 1 | 0.5\n$0\n",
    ],
    ["right under a sentence", "## Diode check\n\nRed on ground.\n$0\n"],
    ["before other words", "## Diode check\n\n$0 see below\n"],
    ["on a rule", "## Diode check\n\n---$0\n"],
    ["in a listing", "## Diode check\n\n```\nx\n\n$0\n```\n"],
  ])("is not offered %s", async (_, body) => {
    const { view, offset } = await openAt(world(body));
    expect(completeLog(view, offset).filter(({ kind }) => kind === "table")).toEqual([]);
  });

  it("stays apart from a table that follows", async () => {
    const { take } = await offeredAt(
      world("## Diode check\n$0\n| Ref | Pin | Reading |\n|-|-|-|\n| U2 | 1 | 0.5 |\n"),
    );
    const tables = tableList(readLog(take("U1 readings table")));
    expect(tables.map((t) => t.readings.length)).toEqual([14, 1]);
  });

  it.each(["U1", "| U1", "  U", "|"])("replaces %j, which is typed, a pipe before it too", async (typed) => {
    const { take, item } = await offeredAt(world(`## Diode check\n\n${typed}$0\n`));
    expect(tableList(readLog(take("U1 readings table")))[0]?.readings).toHaveLength(14);
    expect(item("U1 readings table").filterText).toBe(`${typed.replace(/\w+$/, "")}U1`);
  });

  it("keeps to the file's line ends", async () => {
    const { items } = await offeredAt(world("## Diode check\n\n$0\n").replaceAll("\n", "\r\n"));
    const table = items.find(({ label }) => label === "U1 readings table");
    expect(table?.newText).toMatch(/\r\n$/);
    expect(table?.newText.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
    expect(table?.snippet?.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
  });

  it.each([
    ["7404", 14],
    ["74LS138", 16],
    ["2114", 18],
    ["sn7475", 16],
  ])("comes for %s from the library", async (typed, pins) => {
    const { items, view } = await offeredAt(world(`## Diode check\n\n${typed}$0\n`));
    const found = items.find(({ label }) =>
      label.toUpperCase().endsWith(`${typed.toUpperCase()} READINGS TABLE`),
    );
    const [table] = tableList(readLog(applyEdits(view.doc.text, found ? [found] : [])));
    expect(table?.readings).toHaveLength(pins);
    expect(subjectText(table?.readings[0])).toMatchObject({ ref: "U?", pin: "1" });
  });

  it.each(["## Diode check\n\n$0\n", "## Logic states\n\n$0\n", "# Top\n\n$0\n", "## Diode check\n\n74$0\n"])(
    "as a snippet with its stops left alone is the plain text, each stop in a reading: %j",
    async (fixture) => {
      const { items } = await offeredAt(world(fixture));
      const tables = items.filter(({ kind }) => kind === "table");
      expect(tables.length).toBeGreaterThan(3);
      for (const { snippet = "", newText, label } of tables) {
        expect(emptied(snippet), label).toBe(newText);
        const stops = [...snippet.matchAll(/(?<!\\)\$\{(\d+):/g)].map((match) => Number(match[1]));
        expect(stops).toEqual(stops.map((_, i) => i + 1));
      }
    },
  );

  it("survives what a board file may hold", async () => {
    const odd = BOARD.replace("BUS:", '"A|B $1 }\\\\":');
    const { take, item } = await offeredAt(
      `//- trial.board.yaml\n${odd}//- log.md\n---\nmendlog: 1\nboard: trial\n---\n\n## Diode check\n\n$0\n`,
    );
    const [table] = tableList(readLog(take("U1 readings table")));
    expect(table?.readings).toHaveLength(14);
    expect(table?.rows[4]?.cells.note?.text).toContain("net A|B $1 }");
    const { snippet = "", newText } = item("U1 readings table");
    expect(emptied(snippet)).toBe(newText);
  });
});

/** A snippet as an editor writes it before anything is typed into its stops. */
function emptied(snippet: string): string {
  const first = /\$\{1:([^}]*)\}/.exec(snippet)?.[1] ?? "";
  return snippet.replace(
    /\\([$}\\])|\$\{\d+:([^}]*)\}|\$(\d)/g,
    (_, literal, placeholder, mirror) => literal ?? placeholder ?? (mirror === "1" ? first : ""),
  );
}
