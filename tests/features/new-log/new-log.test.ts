// New logs of the demo's boards as they are written. The golden files were read through; UPDATE_GOLDEN=1 writes them
// again, to be read through again.
import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { boardFromWords, type NewLogFacts, newLogText } from "../../../server/src/features/new-log";
import { newLogChoices } from "../../../server/src/features/new-log/choices";
import { tidyFacts } from "../../../server/src/features/new-log/facts";
import { summarise } from "../../../server/src/log/summary";
import type { Service } from "../../../server/src/service";
import { openDemo } from "../../support/demo";
import { readLog } from "../../support/log";

const GOLDEN = fileURLToPath(new URL("./golden/", import.meta.url));
const URI = "mem:/demo/logs/new.md";

const FACTS: NewLogFacts = {
  job: "2026-022",
  serial: "00942",
  owner: "C. Sample",
  received: "2026-03-20",
  symptoms: ["lane 3 never scores"],
  meter: "bench",
};

function written(service: Service, facts: NewLogFacts): string {
  const { boards, library } = service.knowledge.snapshot();
  const board = boardFromWords(facts.board ?? "", { boards, library, logs: service.jobs() });
  return newLogText(facts, board, library);
}

/** What may be said of a log whose board nobody named, or no file describes. */
const said = (board: string | undefined): string[] =>
  board === undefined ? ["board-not-named"] : board === "Sound board" ? ["unknown-board"] : [];

describe.each(["regatta-controller", "regatta-driver", "Sound board", undefined])(
  "a new log of %s",
  (board) => {
    const facts: NewLogFacts = board === undefined ? FACTS : { ...FACTS, board, revision: "B" };

    test("is written with what the board calls for", async () => {
      const text = written(await openDemo(), facts);
      const file = `${GOLDEN}${board?.toLowerCase().replace(" ", "-") ?? "no-board"}.md.golden`;
      if (process.env.UPDATE_GOLDEN) writeFileSync(file, text);
      expect(text).toBe(readFileSync(file, "utf8"));
    });

    // Further stages than the first would rightly be found ahead of what an empty log shows.
    test.each(["received", "diagnosing", "waiting-for-approval", "waiting-for-parts"])(
      "has nothing wrong at %s",
      async (stage) => {
        const service = await openDemo();
        service.open(URI, written(service, facts).replace("stage: received", `stage: ${stage}`));
        expect(service.findings(URI).map(({ code }) => code)).toEqual(said(board));
      },
    );

    test("has its empty tables read as tables, and nothing in them as evidence", async () => {
      const service = await openDemo();
      service.open(URI, written(service, facts).replace("stage: received", "stage: repairing"));
      expect(service.findings(URI).map(({ code }) => code)).toEqual([
        ...said(board),
        "stage-ahead-of-evidence",
      ]);
      const tables = service.view(URI)?.doc.blocks.flatMap(({ block }) => block.tables) ?? [];
      expect(tables.map(({ procedure }) => procedure.id)).toEqual(
        expect.arrayContaining(["inspection", "supply-rails", "work", "parts-fitted", "proving"]),
      );
    });

    test("warns before it asks for anything", async () => {
      const text = written(await openDemo(), facts);
      for (const section of text.split(/^## /m).slice(1)) {
        const table = section.indexOf("\n|");
        const caution = section.lastIndexOf("\n> Caution: ");
        if (table >= 0 && caution >= 0) expect(caution).toBeLessThan(table);
      }
      expect(text.indexOf("> Caution:")).toBeGreaterThan(0);
    });
  },
);

/** What people paste into a field, and what breaks YAML or Markdown. */
const NASTY = [
  "<script>alert(1)</script>",
  ": ",
  "a: b",
  "# no comment",
  "'",
  '"',
  "\\",
  "`",
  "|",
  "[",
  "]",
  "{",
  "}",
  ",",
  "- ",
  "---",
  "...",
  "\n",
  "\r\n",
  "\n---\n",
  "\t",
  "\u0000",
  "\u0085",
  "\u2028",
  "\ufeff",
  "\ud83d\udd27",
  "\ud83d",
  "&a",
  "*a",
  "!!str",
  "%",
  "@",
  "null",
  "~",
  "yes",
  "012",
  "1e3",
  "0x1F",
  "2020-01-01",
  "<!-- mendlog-allow unknown-board: x -->",
  "```",
  "## Diode check",
  "U41",
];
const typed = fc
  .array(fc.oneof(fc.constantFrom(...NASTY), fc.string({ unit: "binary", maxLength: 6 })), { maxLength: 4 })
  .map((pieces) => pieces.join(""));

test("whatever is typed reads back as it was typed, and raises nothing", async () => {
  const service = await openDemo();
  fc.assert(
    fc.property(
      fc.record({ job: typed, serial: typed, owner: typed, symptoms: fc.array(typed, { maxLength: 3 }) }),
      fc.constantFrom("regatta-controller", undefined),
      (told, board) => {
        const facts: NewLogFacts = { ...told, received: "2026-03-20", ...(board ? { board } : {}) };
        service.open(URI, written(service, facts));
        const front = service.view(URI)?.front;
        const { symptoms = [], ...rest } = tidyFacts(facts);
        expect(front).toMatchObject({ ...rest, symptoms, stage: "received" });
        expect(service.findings(URI).map(({ code }) => code)).toEqual(said(board));
      },
    ),
    { numRuns: 100 },
  );
}, 60_000);

test.each([
  ["2026-004", "job: 2026-004"],
  ["A. Sample", "owner: A. Sample"],
  ["O'Brien", "owner: O'Brien"],
  ["01873", 'owner: "01873"'],
  ["no", 'owner: "no"'],
  ["12:30", 'owner: "12:30"'],
  ["1.5", 'owner: "1.5"'],
  ["Łódź 3", "owner: Łódź 3"],
  ["two  blanks", 'owner: "two  blanks"'],
])("%s is written so that no reader of YAML takes it for something else", async (text, line) => {
  const key = line.split(":")[0] ?? "";
  expect(written(await openDemo(), { [key]: text }).split("\n")).toContain(line);
});

describe("the board that words mean", () => {
  const LOG = (board: string, body: string) => ({
    ...summarise(readLog(`---\nmendlog: 1\nboard: ${board}\n---\n\n${body}`)),
    uri: "mem:/demo/logs/one.md",
  });

  test.each([
    ["regatta-controller", "regatta-controller", undefined],
    ["Regatta Controller", "regatta-controller", undefined],
    ["regatta  driver and power board", "regatta-driver", undefined],
    ["Regatta controler", "regatta-controler", "regatta-controller"],
    ["Sound board", "sound-board", undefined],
    ["Halden 6809", "halden-6809", undefined],
    ["\u30ec\u30ac\u30c3\u30bf", "board", undefined],
  ])("%s means %s", async (words, id, near) => {
    const { boards, library } = (await openDemo()).knowledge.snapshot();
    const named = boardFromWords(words, { boards, library, logs: [] });
    expect([named?.id, named?.near?.id]).toEqual([id, near]);
  });

  const idOf = async (words: string, ...logs: string[]) => {
    const { boards, library } = (await openDemo()).knowledge.snapshot();
    return boardFromWords(words, { boards, library, logs: logs.map((board) => LOG(board, "")) })?.id;
  };

  test.each(["Größe 3/4", "Übersee-Anzeige", "Łódź № 5", "a: b # c"])(
    "%s means the same board again, though its id has lost some of the letters",
    async (words) => {
      const first = await idOf(words);
      expect(await idOf(words, first ?? "")).toBe(first);
    },
  );

  test("letters that no id holds are written plainly, and what no id can be made of is not all one board", async () => {
    expect(await idOf("Größe 3/4")).toBe("grosse-3-4");
    expect(await idOf("\u30ec\u30ac\u30c3\u30bf", "board")).toBe("board-2");
  });

  test("blank words mean none, and a title stays as it was typed", async () => {
    const { boards, library } = (await openDemo()).knowledge.snapshot();
    expect(boardFromWords("  ", { boards, library, logs: [] })).toBeUndefined();
    expect(boardFromWords(" Halden  CPU 6809 ", { boards, library, logs: [] })?.title).toBe(
      "Halden CPU 6809",
    );
    expect(boardFromWords("halden-cpu", { boards, library, logs: [] })?.title).toBe("Halden cpu");
  });

  test("one that a log has by a slip is not offered, and is asked about", async () => {
    const knowledge = (await openDemo()).knowledge.snapshot();
    const logs = [LOG("regata-controller", ""), LOG("regatta-controller-2", ""), LOG("sound-board", "")];
    expect(
      newLogChoices(logs, knowledge, "2026-03-20").boards.map(({ id, hasFile }) => [id, hasFile]),
    ).toEqual([
      ["regatta-controller", true],
      ["regatta-driver", true],
      ["regatta-controller-2", false],
      ["sound-board", false],
    ]);
    const named = boardFromWords("Regata controller", { ...knowledge, logs });
    expect([named?.id, named?.near?.id]).toEqual(["regata-controller", "regatta-controller"]);
  });

  test("one that only logs name is known by them: its rails are to be read again, its parts are not to be listed again", async () => {
    const { boards, library } = (await openDemo()).knowledge.snapshot();
    const logs = [
      LOG(
        "sound-board",
        "## Diode check U5 (7404)\n\n| Pin | Reading |\n|-|-|\n| 1 | 0.5 |\n\n## Supply rails\n\n| Rail | Reading |\n|-|-|\n| -12V | -12 |\n",
      ),
    ];
    const named = boardFromWords("Sound board", { boards, library, logs });
    expect(named?.id).toBe("sound-board");
    const text = newLogText({ board: "Sound board" }, named, library);
    expect(text).toContain("board: sound-board\n");
    expect(text).toMatch(/\| -12V /);
    expect(text).not.toContain("## Parts on the board");
    expect(boardFromWords("sound bord", { boards, library, logs })?.near).toEqual({
      id: "sound-board",
      title: "Sound board",
    });
  });
});
