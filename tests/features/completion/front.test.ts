import { describe, expect, it } from "vitest";
import { checkCompletion, checkOffered, offeredAt } from "../../support/features";

const BOARD = `//- mini.board.yaml
mendlog-board: 1
id: mini
title: Mini *board*
revisions: { A: first issue, "1.2": second issue }
circuits:
  reset: { title: Reset }
parts:
  U1: { device: 74LS04, circuit: reset }
rom-sets:
  mini-2: { title: Second release, images: [] }
symptoms:
  blank: { title: Display stays blank, shows: nothing, circuits: [reset] }
  resets: { title: Starts over, circuits: [reset] }
  "007": { title: Shows 007, circuits: [] }
//- mendlog.shop.yaml
mendlog-shop: 1
name: Bench
meters:
  bench: { title: Bench meter, ranges: [] }
//- log.md
---
mendlog: 1
`;
const front = (lines: string) => `${BOARD}${lines}\n---\n`;

describe("keys", () => {
  it("are those not there yet, with a colon", async () => {
    const { labels, take } = await offeredAt(front("board: mini\n$0"));
    expect(labels).toContain("stage");
    expect(labels).not.toContain("board");
    expect(labels).not.toContain("mendlog");
    expect(take("stage")).toContain("board: mini\nstage: \n---");
  });

  it("complete what is typed, and keep a colon already there", async () => {
    expect((await offeredAt(front("st$0"))).take("stage")).toContain("mendlog: 1\nstage: \n---");
    expect((await offeredAt(front("st$0: repairing"))).take("stage")).toContain("\nstage: repairing\n---");
    expect((await offeredAt(front("$0stage: repairing"))).labels).toContain("stage");
  });

  it.each(["board", "symptoms", "comeback-of"])("are explained: %s", async (label) => {
    const { item } = await offeredAt(front("$0"));
    expect(item(label).description).toMatch(/\w/);
    expect(item(label).documentation).toMatch(/\w/);
  });
});

describe("values", () => {
  it("of the stage are the stages", async () => {
    const stages = [
      "received",
      "diagnosing",
      "waiting-for-approval",
      "waiting-for-parts",
      "repairing",
      "proving",
      "returned",
      "scrapped",
    ];
    await checkOffered(front("stage: $0"), stages);
    await checkOffered(front("stage: dia$0"), stages);
  });

  it("of an approval are what may have been answered, with the day", async () => {
    const { labels, item } = await offeredAt(front("approval: $0"));
    expect(labels).toEqual(["asked", "agreed", "refused"]);
    expect(item("agreed").snippet).toMatch(/^\s*\{ agreed: \$\{CURRENT_YEAR\}-/);
  });

  it("straight behind the colon bring their blank", async () => {
    expect((await offeredAt(front("stage:$0"))).take("proving")).toContain("\nstage: proving\n---");
    expect((await offeredAt(front("board:$0"))).take("mini")).toContain("\nboard: mini\n---");
    expect((await offeredAt(front("stage: $0"))).take("proving")).toContain("\nstage: proving\n---");
    expect((await offeredAt(front("stage: pro$0"))).take("proving")).toContain("\nstage: proving\n---");
  });

  it("come from the board and the shop", async () => {
    await checkOffered(front("board: $0"), ["mini"]);
    await checkCompletion(front("board: mini\nrevision: $0"), "A | first issue", "1.2 | second issue");
    await checkOffered(front("board: mini\nrom-set: m$0"), ["mini-2"]);
    await checkOffered(front("meter: $0"), ["bench"]);
    await checkOffered(front("revision: $0"), []);
  });

  it("are quoted where YAML would read something else", async () => {
    expect((await offeredAt(front("board: mini\nrevision: $0"))).take("1.2")).toContain('revision: "1.2"\n');
    expect((await offeredAt(front("board: mini\nsymptoms: [$0]"))).take("007")).toContain(
      'symptoms: ["007"]\n',
    );
  });

  it("with Markdown in them are shown as they are", async () => {
    const { item } = await offeredAt(front("board: $0"));
    expect(item("mini").documentation).toContain("Mini \\*board\\*");
  });
});

describe("symptoms", () => {
  it("begin a list where there is none", async () => {
    const { item, take } = await offeredAt(front("board: mini\nsymptoms: $0"));
    expect(take("blank")).toContain("\nsymptoms: [blank]\n");
    expect(item("blank").description).toBe("Display stays blank · nothing");
    expect(item("blank").documentation).toContain("**Reset**: U1");
    expect((await offeredAt(front("board: mini\nsymptoms:$0"))).take("blank")).toContain(
      "\nsymptoms: [blank]\n",
    );
    expect((await offeredAt(front("board: mini\nsymptoms: bl$0"))).take("blank")).toContain(
      "\nsymptoms: [blank]\n",
    );
  });

  it("go on in one, without those given", async () => {
    const { labels, take } = await offeredAt(front("board: mini\nsymptoms: [blank, $0]"));
    expect(labels).toEqual(["resets", "007"]);
    expect(take("resets")).toContain("[blank, resets]");
    expect((await offeredAt(front("board: mini\nsymptoms: [blank, re$0]"))).take("resets")).toContain(
      "[blank, resets]",
    );
    expect((await offeredAt(front("board: mini\nsymptoms:\n  $0"))).take("blank")).toContain("\n  - blank\n");
    expect((await offeredAt(front("board: mini\nsymptoms: [$0"))).take("blank")).toContain(
      "symptoms: [blank",
    );
    expect((await offeredAt(front("board: mini\nsymptoms:\n  - blank\n  - $0"))).take("resets")).toContain(
      "\n  - blank\n  - resets\n",
    );
  });

  it("are found by their title and by what the display shows", async () => {
    const { item } = await offeredAt(front("board: mini\nsymptoms: [$0]"));
    expect(item("blank").filterText).toBe("blank Display stays blank nothing");
  });
});
