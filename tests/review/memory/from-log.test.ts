// Memory, ROM and settings tables of a log turned into what the computations take.
import { describe, expect, test } from "vitest";
import { memoryChips } from "../../../server/src/compute/memory/chips";
import { failingRow, memoryRows } from "../../../server/src/review/memory/from-log";
import { romRows, sumAgrees } from "../../../server/src/review/memory/rom-from-log";
import { notedBanks } from "../../../server/src/review/memory/settings-from-log";
import { openWorld } from "../../support/workspace";

async function read(body: string, board = "") {
  const { service, files } = await openWorld(
    `${board}//- log.md\n---\nmendlog: 1\nboard: example\n---\n\n${body}`,
  );
  const view = service.view(files.at(-1)!.uri)!;
  return {
    table: view.doc.blocks.flatMap(({ block }) => block.tables)[0]!,
    board: view.ctx.board!.value,
    library: view.ctx.library,
    codes: service.findings(files.at(-1)!.uri).map(({ code, message }) => `${code}: ${message}`),
  };
}

describe("which chip serves which line", () => {
  test("is traced from the nets of the data bus, programs left out", async () => {
    const { board, library } = await read("");
    expect(memoryChips(board, library)).toEqual([
      { ref: "U32", width: 4, lines: [0, 1, 2, 3] },
      { ref: "U33", width: 4, lines: [4, 5, 6, 7] },
    ]);
  });

  test("is what the board file says where it says it", async () => {
    const { board, library } = await read(
      "",
      `//- example.board.yaml
mendlog-board: 1
id: example
title: Example
parts: { U1: { device: "2114" }, U2: { device: "2114" } }
nets: { D0: [U1.14, U2.14], D1: [U1.13, U2.13], D2: [U1.12, U2.12], D3: [U1.11, U2.11] }
memory: [{ ref: U1, data: [3, 2, 1, 0], from: "0400", to: "07FF" }]
`,
    );
    expect(memoryChips(board, library)).toEqual([
      { ref: "U1", width: 4, lines: [3, 2, 1, 0], range: { from: 0x400, to: 0x7ff } },
      { ref: "U2", width: 4, lines: [0, 1, 2, 3] },
    ]);
  });
});

describe("a memory test's row", () => {
  const HEAD = "## Memory test\n\n| Ref | Address | Wrote | Read | Failing bits | Result |\n|-|-|-|-|-|-|\n";
  const row = async (cells: string) => {
    const { table, board, library } = await read(`${HEAD}${cells}\n`);
    const found = memoryRows(table).flatMap((each) => failingRow(each, memoryChips(board, library)) ?? []);
    return found.map(({ lines, chips, unserved, contradiction }) => ({
      lines,
      chips: chips.map(({ ref }) => ref),
      unserved,
      slip: contradiction !== undefined,
    }));
  };
  const plain = { unserved: [], slip: false };

  test.each([
    ["| | 0001 | AA | 8A | | fail |", [{ lines: [5], chips: ["U33"], ...plain }]],
    ["| | 0001 | 00 | 11 | | fail |", [{ lines: [0, 4], chips: ["U32", "U33"], ...plain }]],
    // Four bits at a four-bit chip are the chip's own.
    ["| U33 | 0001 | A | 8 | | fail |", [{ lines: [5], chips: ["U33"], ...plain }]],
    ["| u33 | | | | 1 | fail |", [{ lines: [5], chips: ["U33"], ...plain }]],
    ["| U33 | | | | D5, D6 | fail |", [{ lines: [5, 6], chips: ["U33"], ...plain }]],
    ["| U33 | | | | 4-7 | fail |", [{ lines: [4, 5, 6, 7], chips: ["U33"], ...plain }]],
    ["| U32 | | F | 5 | 1, 3 | fail |", [{ lines: [1, 3], chips: ["U32"], ...plain }]],
    ["| U32 | | F | 5 | 0, 3 | fail |", [{ lines: [1, 3], chips: ["U32"], unserved: [], slip: true }]],
    ["| U32 | | | | 9 | fail |", [{ lines: [9], chips: [], unserved: [9], slip: false }]],
    ["| | 0001 | AA | AA | | pass |", []],
    ["| U32 | | | | | fail |", []],
    ["| U32 | | zz | 5 | | fail |", []],
  ])("%s", async (cells, expected) => expect(await row(cells)).toEqual(expected));

  test("an address line is named where two places read each other's data", async () => {
    const rows = [0, 1, 2, 3]
      .map(
        (address) =>
          `| | ${address} | ${address + 0x10} | ${(address & 1) + 0x12} | | ${address > 1 ? "pass" : "fail"} |`,
      )
      .map((line) =>
        line.replace(
          /\| (\d) \| (\d+) \| (\d+) \|/,
          (_, a, w, r) => `| ${a} | ${Number(w).toString(16)} | ${Number(r).toString(16)} |`,
        ),
      );
    const { codes } = await read(`${HEAD}${rows.join("\n")}\n`);
    expect(codes.find((text) => text.includes("A1"))).toContain(
      "A1 stuck or open would explain 2 failing places",
    );
  });
});

describe("a ROM check's row", () => {
  const HEAD = "## ROM check\n\n| Ref | Sum | CRC-32 | SHA-1 | Size | Shown |\n|-|-|-|-|-|-|\n";
  const row = async (cells: string) => {
    const { table, board } = await read(`${HEAD}${cells}\n`);
    const { checks, sum8, shown, bad, ref } = romRows(table, board)[0]!;
    return { checks, sum8, shown, bad: bad.length, ref };
  };

  test.each(["70d5 | 9d1f4c72 | | 2048", "0x70D5 | $9D1F4C72 | | 2K", "70D5h | 9D1F 4C72 | | 2 kB"])(
    "is read in any of the ways hexadecimal is written: %s",
    async (cells) => {
      const { checks } = await row(`| u34 | ${cells} | |`);
      expect(checks).toEqual({ sum16: "70d5", crc32: "9d1f4c72", size: 2048 });
    },
  );

  test("keeps two digits as an 8-bit sum, and what is no figure apart", async () => {
    expect(await row("| U34 | d5 | | | | d5 |")).toMatchObject({
      checks: {},
      sum8: "d5",
      shown: "d5",
      ref: "U34",
    });
    expect(await row("| U34 | later | 123456789 | | | |")).toMatchObject({ checks: {}, bad: 2 });
    expect((await row("| U34 | 0d5 | | | | |")).checks).toEqual({ sum16: "00d5" });
  });

  test("an 8-bit sum agrees with the low byte alone", () => {
    expect(sumAgrees("d5", "70d5")).toBe(true);
    expect(sumAgrees("70", "70d5")).toBe(false);
    expect(sumAgrees("70D5", "70d5")).toBe(true);
  });
});

test("ROM findings name the set, the slip, the swap and the figure that is none", async () => {
  const { codes } = await read(
    "## ROM check\n\n| Ref | Sum | CRC-32 |\n|-|-|-|\n| U34 | | 37ea80c5 |\n| U35 | 70d5 | 11223344 |\n",
  );
  expect(codes.find((text) => text.includes("U34 holds what belongs at U35"))).toContain(
    "second (Second release, revision B)",
  );
  const { codes: slips } = await read(
    "## ROM check\n\n| Ref | Sum | CRC-32 |\n|-|-|-|\n| U35 | 9c28 | 37ea80c6 |\n| U34 | 9z | |\n",
  );
  expect(slips.find((text) => text.includes("37ea80c5"))).toContain("one digit or one swap away");
  expect(slips.find((text) => text.includes("9z"))).toContain("it is not compared");
});

test("a settings table is read by bank, whichever its shape", async () => {
  const banks = async (body: string) => {
    const { table, board } = await read(`## Settings\n\n${body}`);
    return notedBanks(table, board).map(({ bank, positions, twice }) => [
      bank.ref,
      [...positions],
      twice.length,
    ]);
  };
  const expected = [
    [
      "SW1",
      [
        [1, true],
        [2, false],
      ],
      0,
    ],
  ];
  expect(await banks("| Bank | 1 | 2 | 3 |\n|-|-|-|-|\n| SW1 | on | off | - |\n")).toEqual(expected);
  expect(await banks("| Bank | Switch | State |\n|-|-|-|\n| sw1 | SW1-1 | 1 |\n| SW1 | 2 | 0 |\n")).toEqual(
    expected,
  );
  expect(
    await banks(
      "| Bank | Switch | State |\n|-|-|-|\n| SW1 | 1 | closed |\n| SW1 | 2 | open |\n| SW1 | 3 | up |\n",
    ),
  ).toEqual(expected);
  expect(
    (await banks("| Bank | Switch | State |\n|-|-|-|\n| SW1 | 1 | on |\n| SW1 | 1 | off |\n"))[0]![2],
  ).toBe(1);
  expect(await banks("| Bank | 1 | 2 |\n|-|-|-|\n| SW9 | on | off |\n")).toEqual([]);
});
