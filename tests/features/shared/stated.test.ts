// Hover, definition, hints, references, rename and highlights of what only logs have said: no board file is there.
import { describe, expect, test } from "vitest";
import { definitionInLog } from "../../../server/src/features/definition";
import { signatureAt } from "../../../server/src/features/signature";
import { slice } from "../../../server/src/text/span";
import { boardFile, boardHead } from "../../support/boards";
import {
  checkHover,
  checkNoHover,
  highlightedAt,
  hintsIn,
  hoverAt,
  hoverTextAt,
  paragraphsOf,
  tokensIn,
} from "../../support/features";
import { asFixture, checkReferences, type Renamed, renamed } from "../../support/mentions";
import { openAt } from "../../support/workspace";

/** A board file of another board, so that the examples' own is not put beside the logs. */
const OTHER = boardFile(boardHead("other", "Other"));
const log = (name: string, body: string) =>
  `//- ${name}.md\n---\nmendlog: 1\njob: ${name}\nboard: regatta\n---\n\n${body}`;

const BODY = `## Diode check

| Ref        | Device | Pin | Reading |
|------------|--------|-----|---------|
| U5         | 7404   | 1   | 0.55    |
|            |        | 2   | 0.56    |
| U6 (7400)  |        | 1   | 0.55    |
| U9         |        | 1   | 0.55    |

## Diode check, the others

| Pin | U7 (74LS00) | 7402 U8 | 2C (7404) |
|-----|-------------|---------|-----------|
| 1   | 0.55        | 0.56    | 0.55      |

## Supply rails

| Rail | Reading |
|------|---------|
| +5   | 5.02    |

## Continuity

| From | To     | Reading |
|------|--------|---------|
| U5-2 | U6-1   | beep    |
| U5-4 | RESET  | beep    |
| U7-1 | +5V    | beep    |

## Switch matrix

| Row / column | 1  | 2  |
|--------------|----|----|
| 1            | ok | ok |

Then U5.2 and U6 were looked at, and RESET.
`;
const ALONE = OTHER + log("2026-001", BODY);
const at = (from: string, to: string) => {
  if (!ALONE.includes(from)) throw new Error(`no ${from}`);
  return ALONE.replace(from, to);
};

describe("a hover", () => {
  test("tells a part as a board file's is told, and whose word it is", async () => {
    const text = await hoverTextAt(at("| U5         | 7404", "| U$05         | 7404"));
    expect(text).toMatchInlineSnapshot(`
      "[U5]
      **U5** 7404 hex inverter

      *As this log says in line 11.*

      | Pin | Name | Direction | Net |
      |---|---|---|---|
      | 1 | 1A | input |  |
      | 2 | 1Y | output | U6-1 |
      | 3 | 2A | input |  |
      | 4 | 2Y | output | RESET |
      | 5 | 3A | input |  |
      | 6 | 3Y | output |  |
      | 7 | GND | ground | GND |
      | 8 | 4Y | output |  |
      | 9 | 4A | input |  |
      | 10 | 5Y | output |  |
      | 11 | 5A | input |  |
      | 12 | 6Y | output |  |
      | 13 | 6A | input |  |
      | 14 | VCC | supply | +5V |"
    `);
    expect(text).not.toContain("soldered in");
  });

  test.each([
    ["its number behind it", at("U7 (74LS00)", "U$07 (74LS00)"), "U7 (74LS00)", "**U7** 74LS00"],
    ["its number before it", at("7402 U8", "7402 U$08"), "7402 U8", "**U8** 7402"],
    ["a place by row and column", at("2C (7404)", "2$0C (7404)"), "2C (7404)", "**2C** 7404"],
  ])("tells a part over a column: %s", async (_how, fixture, on, part) => {
    await checkHover(fixture, on, part, "*As this log says in line 18.*");
  });

  test("tells a pin in a sentence by what was found joined to it", async () => {
    expect(await hoverTextAt(at("Then U5.2", "Then U5.$02"))).toMatchInlineSnapshot(`
      "[U5.2]
      **U5 pin 2** 1Y, output · 7404

      Joined to U6.1 (1A input)

      Diode check: 0.4 V to 0.7 V, a standard TTL pin's drop to ground (common practice, no source)."
    `);
  });

  test("says how a part that nobody has told of is told of, in tables and not in every sentence", async () => {
    expect(await hoverTextAt(at("| U9 ", "| U$09 "))).toMatchInlineSnapshot(`
      "[U9]
      **U9**: this log does not say yet what it is. Write the number printed on it beside it, as in \`U9 (7404)\` or in a column \`Device\`, and its readings are judged by that."
    `);
    await checkNoHover(at("Then U5.2", "Then U$099"));
  });

  test("tells a rail, a net, a pin of a connection and a crossing", async () => {
    expect(await hoverTextAt(at("| +5   |", "| +$05   |"))).toMatchInlineSnapshot(`
      "[+5]
      **+5V**: 5 V ± 5 %

      Ripple at most 50 mV.

      *Source: its name; Standard TTL needs 5 %: SN7400 data sheet, from memory*

      *As this log says in line 26.*"
    `);
    expect(await hoverTextAt(at("and RESET.", "and RES$0ET."))).toMatchInlineSnapshot(`
      "[RESET]
      Net **RESET**

      - U5.4 (2Y output)

      *As this log says in line 33.*"
    `);
    await checkHover(at("| U6-1 ", "| U6-$01 "), "U6-1", "**U6 pin 1** 1A");
    const crossing = await checkHover(at("| ok | ok |", "| o$0k | ok |"), "ok", "row 1, column 1");
    expect(crossing).not.toContain("()");
  });

  test("says of the board where what is known of it is from", async () => {
    await checkHover(at("board: regatta", "board: rega$0tta"), "regatta", "known from this log.*");
    await checkHover(
      `${ALONE}${log("2026-002", "Words.\n").replace("board: regatta", "board: rega$0tta")}`,
      "regatta",
      "known from this log and another of such boards.*",
    );
  });

  test("names the job that said it", async () => {
    const text = await hoverTextAt(
      `${ALONE}${log("2026-002", "## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U$05 | 1 | 0.5 |\n")}`,
    );
    expect(paragraphsOf(text).slice(0, 2)).toMatchInlineSnapshot(`
      [
        "[U5]
      **U5** 7404 hex inverter",
        "*As the log of job 2026-001 says.*",
      ]
    `);
    expect(text).toContain("| 2 | 1Y | output | U6-1 |");
  });
});

describe("a definition", () => {
  const target = async (fixture: string): Promise<string | undefined> => {
    const { service, view, offset } = await openAt(fixture);
    const [found] = definitionInLog(view, offset)?.targets ?? [];
    const text = found && service.text(found.uri);
    if (!found || text === undefined) return undefined;
    const line = text.slice(0, found.span.start).split("\n").length;
    return `${found.uri.slice("mem:/ws/".length)} ${line} ${slice(text, found.span)}`;
  };

  test.each([
    ["a designator", at("Then U5.2 and U6", "Then U5.2 and U$06"), "2026-001.md 13 7400"],
    ["one over a column", at("7402 U8", "7402 U$08"), "2026-001.md 18 7402"],
    ["a pin found joined", at("Then U5.2", "Then U5$0.2"), "2026-001.md 32 U5-2"],
    ["a rail", at("| +5V ", "| +5$0V "), "2026-001.md 26 +5"],
    ["a net", at("and RESET.", "and RES$0ET."), "2026-001.md 33 U5-4"],
    ["a part without a number", at("| U9 ", "| U$09 "), undefined],
  ])("of %s leads to the words that say it", async (_, fixture, place) => {
    expect(await target(fixture)).toBe(place);
  });

  test("leads into the log of another job where that one said it", async () => {
    expect(
      await target(
        `${ALONE}${log("2026-002", "## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U$05 | 1 | 0.5 |\n")}`,
      ),
    ).toBe("2026-001.md 1 ");
  });

  test("goes to the log's own word before a board file that says otherwise", async () => {
    const fixture = `//- regatta.board.yaml\nmendlog-board: 1\nid: regatta\ntitle: Regatta\nparts:\n  U5: { device: 74LS04 }\n${log("2026-001", "## Diode check U$05 (7414)\n\n| Pin | Reading |\n|-|-|\n| 1 | 0.5 |\n")}`;
    const { view, offset } = await openAt(fixture);
    expect(definitionInLog(view, offset)?.targets.map(({ uri }) => uri)).toEqual([
      "mem:/ws/2026-001.md",
      "mem:/ws/regatta.board.yaml",
    ]);
  });
});

test("beside each pin stands its name, and its net where it was found", async () => {
  const hints = await hintsIn(ALONE, { verdicts: "off" });
  expect(hints).toMatch(/\| U5 +\| 7404 +\| 1 +‹1A_*› /);
  expect(hints).toMatch(/\| 2 +‹1Y · U6-1_*› /);
  expect(hints).toMatch(/\| U6 \(7400\) +\| +\| 1 +‹1A · U5-2_*› /);
});

describe("references", () => {
  test("of a designator are in its log and in those of the same board", async () => {
    const other = log("2026-002", "U5 again, U5-4 too.\n");
    const elsewhere = log("2026-003", "U5\n").replace("board: regatta", "board: another");
    await checkReferences(at("Then U5.2", "Then U$05.2") + other + elsewhere, "U5", [
      "2026-001.md 11",
      "2026-001.md 32",
      "2026-001.md 33",
      "2026-001.md 42",
      "2026-002.md 7",
      "2026-002.md 7",
    ]);
  });

  test("of a rail are all ways of writing it", async () => {
    const other = log(
      "2026-002",
      "## Supply rails\n\n| Rail | Reading |\n|-|-|\n| 5 V | 5 |\n| -12V | -12 |\n",
    );
    await checkReferences(at("| +5V ", "| +$05V ") + other, "+5V", [
      "2026-001.md 26",
      "2026-001.md 34",
      "2026-002.md 11",
    ]);
  });
});

describe("a rename", () => {
  const done = async (fixture: string, name: string): Promise<Renamed> => {
    const result = await renamed(fixture, name);
    if (typeof result === "string") throw new Error(result);
    return result;
  };

  test("takes the pins behind a designator with it, in connections too, without asking", async () => {
    const { files, loose } = await done(at("| U5         | 7404", "| U$05         | 7404"), "U25");
    const text = files["2026-001.md"] ?? "";
    expect(text).toContain("| U25         | 7404");
    expect(text).toContain("| U25-2 | U6-1   |");
    expect(text).toContain("| U25-4 | RESET  |");
    expect(text).toContain("Then U25.2 and U6");
    expect(loose).toEqual(["2026-001.md 42"]);
    expect(
      await renamed(asFixture({ ...files, "2026-001.md": text.replace("U25", "U$025") }), "U5"),
    ).toMatchObject({
      files: { "2026-001.md": BODY_LOG },
    });
  });

  test("takes pins that stand in the column for them, the number beside them and a place by its row and column", async () => {
    const pins = `${OTHER}${log("2026-001", "## Logic levels\n\n| Pin | Device | Reading |\n|-|-|-|\n| U$05-4 | 7404 | 3.4 |\n| U5.5 | | 0.2 |\n")}`;
    expect((await done(pins, "U7")).files["2026-001.md"]).toContain(
      "| U7-4 | 7404 | 3.4 |\n| U7.5 | | 0.2 |",
    );
    expect((await done(at("7402 U8", "7402 U$08"), "U18")).files["2026-001.md"]).toContain("| 7402 U18 |");
    expect((await done(at("2C (7404)", "2$0C (7404)"), "3C")).files["2026-001.md"]).toContain(
      "| 3C (7404) |",
    );
    expect((await done(at("| U5-4 | RESET", "| U5-4 | RES$0ET"), "RST")).files["2026-001.md"]).toContain(
      "| U5-4 | RST  |",
    );
  });

  test("is refused a name that another part of the log has, and a part number", async () => {
    const from = at("| U5         | 7404", "| U$05         | 7404");
    expect(await renamed(from, "U6")).toBe(
      "U6 is another part of regatta already: take a designator that is free.",
    );
    expect(await renamed(from, "U9")).toContain("U9 is another part");
    expect(await renamed(from, "")).toContain("no designator");
  });
});

const BODY_LOG = log("2026-001", BODY).slice("//- 2026-001.md\n".length);

test("the other places of a part and of a pin are boxed, in connections too", async () => {
  const part = await highlightedAt(at("| U5-2 |", "| U$05-2 |"));
  expect(part).toContain("| [U5]-2 | U6-1   |");
  expect(part).toContain("Then [U5].2");
  const pin = await highlightedAt(at("| U5-2 |", "| U5-$02 |"));
  expect(pin).toContain("| U5-[2] | U6-1   |");
  expect(pin).toContain("Then U5.[2]");
});

test("pins and parts of connections are coloured as they are elsewhere", async () => {
  const text = await tokensIn(ALONE);
  expect(text).toMatch(/\[U5:benchPart\]-\[2:benchPin\] \| \[U6:benchPart\]-\[1:benchPin\]/);
});

test("what belongs into a connection's cell and a list's is said", async () => {
  const help = async (fixture: string) => {
    const { view, offset } = await openAt(fixture);
    return signatureAt(view, offset)
      ?.parameters.map(({ documentation }) => documentation)
      .join("");
  };
  expect(await help(at("| U5-2 |", "| U$05-2 |"))).toContain("One end of the connection");
  expect((await hoverAt(at("| From |", "| Fr$0om |")))?.markdown).toContain("Continuity");
});
