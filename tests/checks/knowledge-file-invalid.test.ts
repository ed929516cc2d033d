import { describe, expect, test } from "vitest";
import type { Fix } from "../../server/src/checks/check";
import { applyEdits } from "../../server/src/text/edits";
import { boardHead } from "../support/boards";
import { openWorld } from "../support/workspace";

/** Findings of a board file alone, each with its fixes, and what the file comes to by one of them. */
async function board(text: string) {
  const { service } = await openWorld(`//- t.board.yaml\n${text}`);
  const uri = "mem:/ws/t.board.yaml";
  return service.findings(uri).map((finding) => ({
    finding,
    fixes: service.fixes(uri, finding),
    mended: ({ edits }: Fix) => applyEdits(text, edits),
  }));
}

const HEAD = boardHead("t");
const CIRCUITS = "circuits:\n  address-decode: { title: Address decode }\n";

describe("a circuit that is not listed", () => {
  const part = (circuit: string) => `parts:\n  U1: { device: 74LS138, circuit: ${circuit} } # the decoder\n`;

  test("has the nearest as its fix, and the circuit itself", async () => {
    const [found, ...others] = await board(HEAD + CIRCUITS + part("adress-decode"));
    expect(others).toEqual([]);
    const { fixes, mended } = found!;
    expect(fixes.map(({ title }) => title)).toEqual([
      "Change to address-decode",
      "Add the circuit adress-decode to this file",
    ]);
    expect(fixes.map(({ preferred }) => preferred ?? false)).toEqual([true, false]);
    expect(mended(fixes[0]!)).toBe(HEAD + CIRCUITS + part("address-decode"));
    const added = mended(fixes[1]!);
    expect(added).toContain("  adress-decode: { title: Adress decode }\n");
    for (const fix of fixes) expect(await board(mended(fix))).toEqual([]);
  });

  test("is added where the file lists no circuit yet, and where a symptom names it", async () => {
    const [first] = await board(HEAD + part("display"));
    expect(first!.fixes.map(({ title }) => title)).toEqual(["Add the circuit display to this file"]);
    expect(await board(first!.mended(first!.fixes[0]!))).toEqual([]);
    const symptom = "symptoms:\n  dark: { title: Dark, circuits: [address-decode, lamps] }\n";
    const [second] = await board(HEAD + CIRCUITS + symptom);
    expect(second!.fixes.map(({ title }) => title)).toEqual(["Add the circuit lamps to this file"]);
    expect(await board(second!.mended(second!.fixes[0]!))).toEqual([]);
  });

  test("is not added to a file that is not valid YAML elsewhere", async () => {
    const found = await board(`${HEAD}note: [a\n${CIRCUITS}${part("lamps")}`);
    expect(found.length).toBeGreaterThan(0);
    for (const { fixes } of found)
      expect(fixes.map(({ title }) => title).join()).not.toMatch(/Add the circuit/);
  });
});

describe("a line indented wrongly", () => {
  test.each([
    [
      "a blank too many",
      "  U1: { device: 74LS00 }\n   U2: { device: 74LS04 }\n  U3: { device: 74LS08 }\n",
      2,
    ],
    ["a blank too few", "  U1: { device: 74LS00 }\n U2: { device: 74LS04 }\n  U3: { device: 74LS08 }\n", 2],
    ["the first one", "   U1: { device: 74LS00 }\n  U2: { device: 74LS04 }\n  U3: { device: 74LS08 }\n", 2],
  ])("%s is one finding, and its fix puts the line where it belongs", async (_, parts, to) => {
    const [found, ...others] = await board(`${HEAD}parts:\n${parts}`);
    expect(others).toEqual([]);
    expect(found!.finding.message).toMatch(/^This line is indented by \d, the lines it belongs with by 2\./);
    expect(found!.fixes.map(({ title }) => title)).toEqual([`Indent this line by ${to}`]);
    expect(found!.mended(found!.fixes[0]!)).toBe(`${HEAD}parts:\n${parts.replace(/^ +/gm, "  ")}`);
  });

  test("a top-level key pushed in is told from a part", async () => {
    const text = `${HEAD}parts:\n  U1: { device: 74LS00 }\n  nets:\n  GND: [U1.7]\n`;
    const [found, ...others] = await board(text);
    expect(others).toEqual([]);
    expect(found!.fixes.map(({ title }) => title)).toEqual(["Take the indentation of this line away"]);
    expect(found!.mended(found!.fixes[0]!)).toBe(text.replace("  nets:", "nets:"));
  });

  test("several lines pasted too far in are one finding too", async () => {
    const text = `${HEAD}parts:\n  U1: { device: 74LS00 }\n    U2: { device: 74LS04 }\n    U3: { device: 74LS08 }\n    U4: { device: 74LS10 }\n  U5: { device: 74LS20 }\n`;
    const [found, ...others] = await board(text);
    expect(others).toEqual([]);
    expect(found!.finding.message).toMatch(/^This line and the 2 below it are indented by 4/);
    expect(found!.fixes.map(({ title }) => title)).toEqual(["Indent these 3 lines by 2"]);
    expect(await board(found!.mended(found!.fixes[0]!))).toEqual([]);
  });

  test("does not keep the rest of the file from being read", async () => {
    const { service } = await openWorld(
      `//- t.board.yaml\n${HEAD}parts:\n  U1: { device: 74LS00 }\n   U2: { device: 74LS04 }\n  U3: { device: 74LS08 }\n`,
    );
    const file = service.knowledgeFile("mem:/ws/t.board.yaml")!;
    const known = file.knowledge.boards.get("t")?.value;
    expect([...(known?.parts.keys() ?? [])]).toEqual(["U1", "U2", "U3"]);
  });
});

test("titles say what the fix does where the new text alone would not", async () => {
  const titles = async (text: string) =>
    (await board(text)).flatMap(({ fixes }) => fixes.map((fix) => fix.title));
  expect(await titles(`${HEAD}maker:unknown\n`)).toContain("Put a space behind the colon");
  expect(await titles(`${HEAD}era:\n\tfrom: 1978\n`)).toContain("Put spaces in the place of the tab");
});

describe("one slip is one finding", () => {
  const parts = (line: string) =>
    `${HEAD}circuits:\n  reset: { title: Reset }\nparts:\n  U1: { device: "7404" }\n${line}\n  U3: { device: "7404" }\n`;
  const wanted = '  U2: { device: "7404" }';

  test.each([
    ["a tab", '\tU2: { device: "7404" }', "Put spaces in the place of the tab"],
    ["two tabs", '\t\tU2: { device: "7404" }', "Put spaces in the place of the tab"],
    ["a blank too many", '   U2: { device: "7404" }', "Indent this line by 2"],
    ["no blank", 'U2: { device: "7404" }', "Indent this line by 2"],
  ])("%s", async (_, line, title) => {
    const [found, ...others] = await board(parts(line));
    expect(others).toEqual([]);
    expect(found?.fixes.map((fix) => fix.title)).toEqual([title]);
    expect(found?.mended(found.fixes[0]!)).toBe(parts(wanted));
  });

  test.each([
    ["  U2: { device: 7404 circuit: reset }", "  U2: { device: 7404, circuit: reset }"],
    ['  U2: { device: "7404" circuit: reset }', '  U2: { device: "7404", circuit: reset }'],
    ["  U2: { circuit: reset note: x }", "  U2: { circuit: reset, note: x }"],
  ])("a comma left out: %s", async (line, mended) => {
    const [found, ...others] = await board(parts(line));
    expect(others).toEqual([]);
    expect(found?.finding.message).toContain("A comma is missing before");
    expect(found?.fixes.map(({ title }) => title)).toEqual(["Put the comma in"]);
    expect(found?.mended(found.fixes[0]!)).toBe(parts(mended));
  });

  test("a colon in a value outside braces is no comma left out", async () => {
    const [found] = await board(parts('  U2:\n    note: "one" two: three'));
    expect(found?.finding.message).not.toContain("comma");
  });

  test("a quote left open is not told as an unknown number too", async () => {
    const found = await board(parts('  U2: { device: "7404 }'));
    expect(found.map(({ finding }) => finding.code)).toEqual(["knowledge-file-invalid"]);
  });
});

test("a circuit named in words is added with an id, and the part has the id then", async () => {
  const file = (circuit: string, more = "") =>
    `${HEAD}circuits:\n  reset: { title: Reset }\n${more}parts:\n  U1: { device: 74LS138, circuit: ${circuit} } # here\n`;
  const [found] = await board(file("Video RAM"));
  expect(found?.fixes.map(({ title }) => title)).toEqual(["Add the circuit video-ram to this file"]);
  expect(found?.mended(found.fixes[0]!)).toBe(file("video-ram", "  video-ram: { title: Video RAM }\n"));
});
