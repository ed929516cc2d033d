import { describe, expect, it } from "vitest";
import { pasteCells } from "../../../server/src/features/typing";
import { pastedValues } from "../../../server/src/features/typing/paste";
import { after, LOG_HEAD } from "../../support/typing";
import { openAt } from "../../support/workspace";

async function pasted(body: string, text: string) {
  const { view, offset } = await openAt(LOG_HEAD + body);
  const result = pasteCells(view, offset, text);
  if (!result?.ok) return result;
  const { step, replaced } = result;
  return { text: after(view, step)?.slice(LOG_HEAD.length).replace("$0", ""), replaced };
}

const long = (rows: string) =>
  `## Diode check\n\n| Ref | Pin | Reading | Note |\n|-----|-----|---------|------|\n${rows}`;

describe("a column of values", () => {
  it("fills the rows there are and adds the rest with their pins", async () => {
    expect(
      await pasted(
        long("| U14 | 1   | $0        |      |\n| U14 | 2   |         |      |\n\nmore\n"),
        "0.58\n0.57\n0.56\n",
      ),
    ).toEqual({
      text: long(
        "| U14 | 1   | 0.58    |      |\n| U14 | 2   | 0.57    |      |\n| U14 | 3   | 0.56    |      |\n\nmore\n",
      ),
      replaced: 0,
    });
  });

  it("fills a last row that has no pipe at its end and blanks there", async () => {
    expect(await pasted(long("| U14 | 1   | $00.5 "), "0.58\tnoted\n")).toEqual({
      text: long("| U14 | 1   | 0.58 | noted |"),
      replaced: 1,
    });
  });

  it("of more values than pins gets rows without a pin, and nothing is lost", async () => {
    const values = Array.from({ length: 16 }, (_, i) => `0.5${String(i).padStart(2, "0")}`);
    const result = await pasted(long("| U14 | 1   | $0        |      |\n"), values.join("\r\n"));
    const rows = result && "text" in result ? result.text?.trim().split("\n").slice(4) : [];
    expect(rows?.map((row) => row.split("|")[3]?.trim())).toEqual(values);
    expect(rows?.map((row) => row.split("|")[2]?.trim())).toEqual([
      ...Array.from({ length: 14 }, (_, i) => String(i + 1)),
      "",
      "",
    ]);
  });

  it("replaces what stands in the cells and says how much; an empty value leaves a cell alone", async () => {
    expect(
      await pasted(
        long("| U14 | 1 | 0.5$0 | a |\n| U14 | 2 | 0.4 | b |\n| U14 | 3 | 0.3 | c |\n"),
        "0.58\n\n0.3",
      ),
    ).toEqual({
      text: long("| U14 | 1 | 0.58 | a |\n| U14 | 2 | 0.4 | b |\n| U14 | 3 | 0.3 | c |\n"),
      replaced: 1,
    });
  });

  it("goes right where it has tabs, and draws short rows out", async () => {
    expect(
      await pasted(long("| U14 | 1 | $0| |\n| U14 | 2 |\n| U14\n"), "0.58\ta|b\n0.57\tc\n0.56\td\\"),
    ).toEqual({
      text: long("| U14 | 1 | 0.58 | a\\|b |\n| U14 | 2 | 0.57 | c |\n| U14 |  | 0.56 | d\\ |\n"),
      replaced: 0,
    });
  });

  it("keeps the line ends of the document", async () => {
    const body = long("| U14 | 1 | $0| |\n\nmore\n").replace(/\n/g, "\r\n");
    const result = await pasted(body, "1\n2\n3");
    expect(result && "text" in result && result.text).not.toMatch(/[^\r]\n/);
    expect(result && "text" in result && result.text).toContain("\r\n\r\nmore\r\n");
  });

  it("into a wide table fills a column, with the next pins", async () => {
    const wide = "## Diode check\n\n| Pin | U14 | U15 |\n|---|---|---|\n";
    expect(await pasted(`${wide}| 1 | 0.5 | $0|`, "0.58\n0.57")).toEqual({
      text: `${wide}| 1 | 0.5 | 0.58 |\n| 2 |     | 0.57 |`,
      replaced: 0,
    });
  });

  it("is refused with the reason where it cannot fit, and elsewhere is no affair of a table", async () => {
    const row = long("| U14 | 1 | $0| |\n");
    expect(await pasted(row, "1\t2\t3")).toEqual({
      ok: false,
      problem: "too-many-columns",
      columns: 3,
      room: 2,
    });
    expect(await pasted(row, "\n \n")).toEqual({ ok: false, problem: "empty" });
    expect(await pasted(row, "| a | b |\n| c | d |")).toEqual({ ok: false, problem: "rows-of-a-table" });
    expect(await pasted(row, "1\n".repeat(2001))).toEqual({ ok: false, problem: "too-many-rows" });
    expect(await pasted(long("| U14 | 1 | | |$0\n"), "1\n2")).toBeUndefined();
    expect(await pasted(`${long("")}\n\n$0`, "1\n2")).toBeUndefined();
  });
});

describe("what was copied, as values", () => {
  it.each([
    ["1\r\n2\r\n", [["1"], ["2"]]],
    ["1\r2", [["1"], ["2"]]],
    [
      "1\t2\n3\t",
      [
        ["1", "2"],
        ["3", ""],
      ],
    ],
    ['"a\nb"\t"say ""x"""\n', [["a b", 'say "x"']]],
    ['5" tape\n"', [['5" tape'], ['"']]],
    ["", [[""]]],
    ["\n\n", [[""], [""]]],
  ])("%j", (text, values) => {
    expect(pastedValues(text)).toEqual(values);
  });
});
