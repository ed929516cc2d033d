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

  it.each([
    ["straight behind the colon", "stage:$0", "proving", "stage: proving"],
    ["straight behind the colon", "board:$0", "mini", "board: mini"],
    ["behind a blank", "stage: $0", "proving", "stage: proving"],
    ["behind their first letters", "stage: pro$0", "proving", "stage: proving"],
  ])("%s bring the blank that is not there: %s", async (_where, typed, label, line) => {
    expect((await offeredAt(front(typed))).take(label)).toContain(`\n${line}\n---`);
  });

  it("come from the board and the shop", async () => {
    await checkOffered(front("board: $0"), ["mini"]);
    await checkCompletion(front("board: mini\nrevision: $0"), "A | first issue", "1.2 | second issue");
    await checkOffered(front("board: mini\nrom-set: m$0"), ["mini-2"]);
    await checkOffered(front("meter: $0"), ["bench"]);
    await checkOffered(front("revision: $0"), []);
  });

  it.each([
    ["revision: $0", "1.2", 'revision: "1.2"'],
    ["symptoms: [$0]", "007", 'symptoms: ["007"]'],
  ])("are quoted where YAML would read something else: %s", async (typed, label, line) => {
    expect((await offeredAt(front(`board: mini\n${typed}`))).take(label)).toContain(`${line}\n`);
  });

  it("with Markdown in them are shown as they are", async () => {
    const { item } = await offeredAt(front("board: $0"));
    expect(item("mini").documentation).toContain("Mini \\*board\\*");
  });
});

describe("symptoms", () => {
  it.each(["symptoms: $0", "symptoms:$0", "symptoms: bl$0"])(
    "begin a list where there is none: %s",
    async (typed) => {
      expect((await offeredAt(front(`board: mini\n${typed}`))).take("blank")).toContain(
        "\nsymptoms: [blank]\n",
      );
    },
  );

  it("say what the display shows, and which parts to look at", async () => {
    const { item } = await offeredAt(front("board: mini\nsymptoms: $0"));
    expect(item("blank").description).toBe("Display stays blank · nothing");
    expect(item("blank").documentation).toContain("**Reset**: U1");
  });

  it("leave out those given", async () => {
    await checkOffered(front("board: mini\nsymptoms: [blank, $0]"), ["resets", "007"]);
  });

  it.each([
    ["behind a comma", "symptoms: [blank, $0]", "resets", "[blank, resets]"],
    ["behind first letters", "symptoms: [blank, re$0]", "resets", "[blank, resets]"],
    ["in a line below", "symptoms:\n  $0", "blank", "\n  - blank\n"],
    ["in a list that is not closed yet", "symptoms: [$0", "blank", "symptoms: [blank"],
    ["behind a dash", "symptoms:\n  - blank\n  - $0", "resets", "\n  - blank\n  - resets\n"],
  ])("go on in a list: %s", async (_where, typed, label, lines) => {
    expect((await offeredAt(front(`board: mini\n${typed}`))).take(label)).toContain(lines);
  });

  it("are found by their title and by what the display shows", async () => {
    const { item } = await offeredAt(front("board: mini\nsymptoms: [$0]"));
    expect(item("blank").filterText).toBe("blank Display stays blank nothing");
  });
});
