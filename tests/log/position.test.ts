import { describe, expect, it } from "vitest";
import { type Position, positionAt } from "../../server/src/log/position";
import { slice } from "../../server/src/text/span";
import { readLog } from "../support/log";

const HEAD = "---\nmendlog: 1\nstage: diagnosing\n---\n\n";

/** What stands at `$0`: the kind, the role, the words, and what typing would replace. */
function at(fixture: string): { position: Position; text: string } {
  const offset = fixture.indexOf("$0");
  const text = fixture.replace("$0", "");
  return { position: positionAt(readLog(text), offset), text };
}

function cellAt(row: string, body = "| Ref | Pin | Reading | Note |\n|-----|-----|---------|------|\n") {
  const { position, text } = at(`${HEAD}## Diode check\n\n${body}${row}\n`);
  if (position.kind !== "cell" && position.kind !== "header-cell") return position.kind;
  return `${position.role ?? "none"} [${slice(text, position.span)}] for [${slice(text, position.edit)}]`;
}

describe("a cell", () => {
  it.each([
    ["| $0U14 | 1 | 0.58 |", "ref [U14] for [U14]"],
    ["| U14$0 | 1 | 0.58 |", "ref [U14] for [U14]"],
    ["|$0 U14 | 1 | 0.58 |", "ref [U14] for [ U14]"],
    ["| U14 | 1   $0| 0.58 |", "pin [1] for [1   ]"],
    ["| U14 | $0     | 0.58 |", "pin [] for []"],
    ["| U14 |     $0| 0.58 |", "pin [] for []"],
    ["| U14 ||$0| x |", "reading [] for []"],
    ["| U14 | 1 | 0.$058 |", "reading [0.58] for [0.58]"],
    ["| U14 | 1 | 0.58 | a \\| $0b |", "note [a \\| b] for [a \\| b]"],
    ["| U14 | 1$0", "pin [1] for [1]"],
    ["| U14 | 1 $0", "pin [1] for [1 ]"],
  ])("%s is in %s", (row, wanted) => {
    expect(cellAt(row)).toBe(wanted);
  });

  it.each([
    ["|$0", "ref [] for []"],
    ["| $0", "ref [] for []"],
    ["| U14 | $0", "pin [] for []"],
    ["| U14 | | $0", "reading [] for []"],
    ["| U14 | 1 | 0.58 | $0", "note [] for []"],
  ])("begins behind the last pipe of a row that is being typed: %s", (row, wanted) => {
    expect(cellAt(row)).toBe(wanted);
    expect(cellAt(`${row}\n| U14 | 2 | 0.57 | |`)).toBe(wanted);
  });

  it("ends at the last pipe of a row that may be over", () => {
    expect(cellAt("| U14 |$0")).toBe("prose");
    expect(cellAt("| U14 | 1 | 0.58 | x |$0")).toBe("prose");
    expect(cellAt("| U14 | 1 | 0.58 | x | $0")).toBe("prose");
  });

  it("is not there in the dashed row", () => {
    expect(cellAt("| U1 | 1 | 1 |", "| Ref | Pin | Reading |\n|--$0---|-----|---------|\n")).toBe("prose");
  });

  it("of a wide table holds its reading, its header the designator", () => {
    const wide = "| Pin | U14 | Note |\n|-|-|-|\n";
    expect(cellAt("| 1 | 0.5$0 |", wide)).toBe("reading [0.5] for [0.5]");
    expect(cellAt("| $01 | 0.5 |", wide)).toBe("pin [1] for [1]");
    expect(cellAt("| 1 | 0.5 |", wide.replace("U14", "U$014"))).toBe("ref [U14] for [U14]");
    expect(cellAt("| 1 | 0.5 |", wide.replace("Note", "$0Note"))).toBe("none [Note] for [Note]");
  });
});

describe("other places", () => {
  it("tell the front matter from what is under it", () => {
    expect(at("---\nmendlog: 1\nstage: $0\n---\n").position.kind).toBe("front");
    expect(at("-$0--\nmendlog: 1\n---\n").position.kind).toBe("prose");
    expect(at("---\nmendlog: 1\n---\n$0").position.kind).toBe("prose");
  });

  it("give a heading with the designator it names", () => {
    const { position, text } = at(`${HEAD}## Diode ch$0eck U14 ##\n`);
    if (position.kind !== "heading") return expect.fail(position.kind);
    expect(slice(text, position.span)).toBe("## Diode check U14 ##");
    expect(slice(text, position.contentSpan)).toBe("Diode check U14");
    expect(position.ref && slice(text, position.ref.span)).toBe("U14");
  });

  it.each([
    ["Leaks at U14$0.3, see", "U14.3"],
    ["$0VCC/2 is low", "VCC/2"],
    ["ends with a dot U14$0.", "U14"],
    ["nothing $0 here", undefined],
  ])("give the word in %j", (line, word) => {
    const { position, text } = at(`${HEAD}${line}\n`);
    if (position.kind !== "prose") return expect.fail(position.kind);
    expect(position.word?.text).toBe(word);
    if (position.word) expect(slice(text, position.word.span)).toBe(word);
  });
});
