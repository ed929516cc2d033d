// Tables of a whole log turned into results: which matrix, which repair, what still counts.
import { describe, expect, test } from "vitest";
import { failedLines } from "../../../server/src/review/matrix/failed-lines";
import { matrixLogs } from "../../../server/src/review/matrix/from-log";
import { matrixReviews, provingOf } from "../../../server/src/review/matrix/log-review";
import { boardHead, logOf } from "../../support/boards";
import { openWorld } from "../../support/workspace";

const BOARD = `${boardHead()}parts:
  U1: { device: 74LS14 }
  U2: { device: "74145" }
  U3: { device: 74LS14 }
  J1: { package: header 6 }
nets:
  R1: [U1.1, J1.1]
  R2: [U1.3, J1.2]
  R3: [U3.1, J1.3]
  C1: [U2.1, J1.4]
  C2: [U2.2, J1.5]
  C3: [U2.3, J1.6]
  L1: [J1.7]
  L2: [J1.8]
matrices:
  main: { kind: switch, title: Playfield switches, rows: [R1, R2, R3], columns: [C1, C2, C3] }
  door: { kind: switch, title: Door switches, rows: [L1], columns: [L2] }
`;
const GRID = (...rows: string[]) =>
  `| Row / column | 1 | 2 | 3 |\n|-|-|-|-|\n${rows.map((r, i) => `| ${i + 1} | ${r} |`).join("\n")}\n\n`;
const OK = "ok | ok | ok";

async function read(body: string) {
  const { service, files } = await openWorld(logOf(BOARD, body));
  const view = service.view(files[1]!.uri)!;
  const board = view.ctx.board!.value;
  const logs = matrixLogs(view.doc, board);
  return { view, board, logs, reviews: matrixReviews(view.doc, board) };
}

describe("the matrix of a table", () => {
  test("is the one its heading names where the board has several", async () => {
    const { logs } = await read(`## Switch matrix, door switches\n\n${GRID("ok | ok | ok")}`);
    expect(logs.map(({ matrix }) => matrix.id)).toEqual(["door"]);
    // Columns 2 and 3 are not in it.
    expect(logs[0]!.tables[0]!.strangers).toHaveLength(2);
  });

  test("is not guessed", async () => {
    expect((await read(`## Switch matrix\n\n${GRID(OK)}`)).logs).toEqual([]);
  });
});

const SW = "## Switch matrix: playfield switches";

test("rows across and columns down are turned", async () => {
  const { logs } = await read(`${SW}\n\n| Column / row | 1 | 3 |\n|-|-|-|\n| 2 | ok | dead |\n`);
  const cells = logs[0]!.tables[0]!.entries.map((e) =>
    "recorded" in e ? [e.recorded.row, e.recorded.column] : [],
  );
  expect(cells).toEqual([
    [1, 2],
    [3, 2],
  ]);
});

test("rows that name a switch, several held together, and empty results", async () => {
  const { logs } = await read(
    `${SW}\n\n| Switch | Result |\n|-|-|\n| 1,1 | ok |\n| 1,1 + 1,2 + 2,1 | also 2,2 |\n| 2,3 | |\n| 9,9 | ok |\n`,
  );
  const [table] = logs[0]!.tables;
  expect(table!.entries.map((e) => ("held" in e ? e.held.seen.length : "one"))).toEqual(["one", 4]);
  expect(table!.waiting).toEqual([{ row: 2, column: 3 }]);
  expect(table!.strangers[0]?.message).toContain('"9,9"');
});

describe("proving", () => {
  const work = (ref: string, action = "replaced") =>
    `## Work done\n\n| Ref | Action |\n|-|-|\n| ${ref} | ${action} |\n\n`;
  const unproven = async (body: string) => {
    const { logs, board } = await read(body);
    return provingOf(logs[0]!, board)!.unproven.map(({ kind, number }) => `${kind} ${number}`);
  };

  test("takes the later of two results at a crossing", async () => {
    const before = `## Switch matrix before repair, playfield switches\n\n${GRID("dead | dead | dead", OK, OK)}`;
    const after = `## Switch matrix after repair, playfield switches\n\n${GRID("ok | - | -")}`;
    expect(await unproven(before)).toEqual(["row 1"]);
    expect(await unproven(before + after)).toEqual([]);
  });

  test("forgets results from before a part on the line was replaced, and only those", async () => {
    expect(await unproven(`${SW}\n\n${GRID(OK, OK, OK)}${work("U3")}`)).toEqual(["row 3"]);
    expect(await unproven(`${SW}\n\n${GRID(OK, OK, OK)}${work("U2")}`)).toHaveLength(6);
    expect(await unproven(`${SW}\n\n${GRID(OK, OK, OK)}${work("J1", "reflowed")}`)).toEqual([]);
    expect(await unproven(`${work("U3")}${SW}\n\n${GRID(OK, OK, OK)}`)).toEqual([]);
  });

  test("two results at one crossing in one state of repair prove nothing of it", async () => {
    const { logs, board } = await read(
      `${SW}\n\n${GRID("ok | - | -")}${SW}, again\n\n${GRID("dead | - | -")}`,
    );
    expect(provingOf(logs[0]!, board)!.proven).toEqual([]);
  });
});

describe("what is history", () => {
  test("is a line that works after the repair, and not one that was not tried", async () => {
    const { reviews } = await read(
      `## Switch matrix before repair, playfield switches\n\n${GRID("dead | dead | dead", "dead | dead | dead", OK)}## Switch matrix after repair, playfield switches\n\n${GRID("ok | ok | -")}`,
    );
    const [first] = reviews;
    expect(first!.review.dead.lines.map(({ number }) => number)).toEqual([1, 2]);
    expect(first!.cured({ kind: "row", number: 1 })).toBe(true);
    expect(first!.cured({ kind: "row", number: 2 })).toBe(false);
  });
});

describe("lines that lost a part", () => {
  const lines = async (body: string) => {
    const { view, board } = await read(body);
    const found = failedLines(view.doc, view.ctx, board.matrices.get("main")!);
    return [...new Set(found.map(({ line }) => `${line.kind} ${line.number}`))];
  };
  const DIODE = "## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n";
  const WORK = "## Work done\n\n| Ref | Action |\n|-|-|\n";

  test("by readings outside their limits, not by those inside", async () => {
    expect(await lines(`${DIODE}| U1 | 3 | 1.42 |\n| U2 | 3 | OL |\n| U3 | 1 | 0.58 |\n`)).toEqual([
      "row 2",
      "column 3",
    ]);
  });

  test("by a replacement, all lines of the part where nothing tells which", async () => {
    expect(
      await lines(`${WORK}| U3 | replaced |\n| U2 | replaced |\n| J1 | replaced |\n| U1 | cleaned |\n`),
    ).toEqual(["row 3", "column 1", "column 2", "column 3"]);
  });

  test("by a replacement narrowed to the line that read wrong, and to no line beside it", async () => {
    expect(
      await lines(
        `${DIODE}| U1 | 3 | 1.42 |\n| U2 | 3 | OL |\n\n${WORK}| U1 | replaced |\n| U2 | replaced |\n| U3 | replaced |\n`,
      ),
    ).toEqual(["row 2", "column 3"]);
  });
});

describe("several held at once", () => {
  const held = (seen: string): string =>
    `## Playfield switches, several held at a time\n\n| Held | Seen |\n|-|-|\n| 1,1 and 1,2 and 2,1 | ${seen} |\n\n`;
  const entries = async (seen: string) =>
    (await read(held(seen))).logs.flatMap(({ tables }) =>
      tables.flatMap((one) => one.entries.flatMap((entry) => ("held" in entry ? [entry.held.seen] : []))),
    );

  test("with a bare list of what was seen", async () => {
    expect(await entries("1,1; 1,2; 2,1; 2,2")).toEqual([
      [
        { row: 1, column: 1 },
        { row: 1, column: 2 },
        { row: 2, column: 1 },
        { row: 2, column: 2 },
      ],
    ]);
  });

  test("with words beside it is no list", async () => {
    expect(await entries("1,1 as always; hums")).toEqual([]);
  });
});
