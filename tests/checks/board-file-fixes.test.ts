// What a log knows of its board and the board file does not, and the fixes that take it over: as edits of the file's own text.
import { describe, expect, test } from "vitest";
import type { Fix } from "../../server/src/checks/check";
import { loadBoard } from "../../server/src/knowledge/load-board";
import { applyEdits } from "../../server/src/text/edits";
import { openWorld } from "../support/workspace";

const LOG = "mem:/ws/log.md";
const BOARD = "mem:/ws/b.board.yaml";

const board = (body: string) => `mendlog-board: 1\nid: b\ntitle: The board\n${body}`;
const log = (body: string, front = "") => `---\nmendlog: 1\njob: 2026-014\nboard: b\n${front}---\n\n${body}`;

async function open(boardText: string, logText: string) {
  const { service } = await openWorld(`//- b.board.yaml\n${boardText}//- log.md\n${logText}`);
  const text = () => service.text(LOG) ?? "";
  const found = (code: string) =>
    service
      .findings(LOG)
      .filter((finding) => finding.code === code)
      .map(({ span, message, severity }) => ({ at: text().slice(span.start, span.end), message, severity }));
  const fixes = (code: string, nth = 0): readonly Fix[] => {
    const finding = service.findings(LOG).filter((one) => one.code === code)[nth];
    return finding ? service.fixes(LOG, finding) : [];
  };
  const take = (fix: Fix | undefined): void => {
    if (!fix) throw new Error("no such fix");
    service.open(LOG, applyEdits(text(), fix.edits));
    for (const { uri, text: before, edits } of fix.elsewhere ?? []) {
      expect(service.text(uri)).toBe(before);
      service.open(uri, applyEdits(before, edits));
    }
  };
  return { service, found, fixes, take, file: () => service.text(BOARD) ?? "", text };
}

const titles = (fixes: readonly Fix[]): string[] => fixes.map(({ title }) => title);

const READINGS = `## Diode check U5 (7404)

| Pin | Reading |
|-----|---------|
| 1   | 0.58    |
| 2   | 0.57    |

## Supply rails

| Rail       | DC    |
|------------|-------|
| +5V        | 5.02  |
| +12V unreg | 14.0  |

## Continuity

| From | To   | Reading |
|------|------|---------|
| U5-2 | J3-1 | beep    |
| U5-4 | U6-1 | beep    |
| U5-4 | U7-3 | OL      |
`;

describe("not-in-board-file", () => {
  const FILE = board(
    'grounds: [GND]\nrails:\n  "+5V": { nominal: 5 V, tolerance: 5 %, net: VCC } # measured\nparts:\n  J3: { package: header 10 }\n  U6: { device: "7400" }\n  U7: { device: "7400" }\nnets:\n  VCC: []\n  GND: []\n  ROW_1: [J3.1]\n',
  );

  test("tells of each thing once, where it is said", async () => {
    const { found } = await open(FILE, log(READINGS));
    expect(found("not-in-board-file")).toEqual([
      { at: "7404", severity: "hint", message: "The board file does not list U5; this log says 7404." },
      {
        at: "+12V unreg",
        severity: "hint",
        message: "The board file has no rail +12V unreg; this log has readings of it.",
      },
      {
        at: "U5-2",
        severity: "hint",
        message: "The board file does not have U5.2 on net ROW_1, where this log found it.",
      },
      {
        at: "U5-4",
        severity: "hint",
        message: "The board file has no net of U5.4 and U6.1, which this log found joined.",
      },
    ]);
  });

  test.each([
    ["Add U5 (7404) to the board file", 0, '  U5: { device: "7404" } # log 2026-014, line 7\n'],
    [
      "Add rail +12V unreg to the board file",
      1,
      '"+12V unreg": { nominal: 12 V, tolerance: "-30 % to +50 %"',
    ],
    ["Add U5.2 to net ROW_1 in the board file", 2, "  ROW_1: [J3.1, U5.2] # U5.2: log 2026-014, line 25\n"],
    ["Add the net U5-4 (U5.4, U6.1) to the board file", 3, "  U5-4: [U5.4, U6.1] # log 2026-014, line 26\n"],
  ])("%s: it does so, and it is told of no more", async (title, nth, line) => {
    const { found, fixes, take, file } = await open(FILE, log(READINGS));
    const [own, all] = fixes("not-in-board-file", nth);
    expect(own?.title).toBe(title);
    expect(all?.title).toBe("Add all that this log knows to the board file: 1 part, 1 rail and 2 nets");
    expect(own?.preferred).toBeUndefined();
    const before = found("not-in-board-file").length;
    take(own);
    expect(file()).toContain(line);
    expect(file()).toContain("# measured\n");
    expect(loadBoard(file()).problems).toEqual([]);
    // A net brings the number of its part along.
    const gone = nth < 2 ? 1 : 2;
    expect(found("not-in-board-file").length).toBe(before - gone);
  });

  test("all of it at once leaves nothing to tell", async () => {
    const { found, fixes, take, file } = await open(FILE, log(READINGS));
    take(fixes("not-in-board-file")[1]);
    expect(found("not-in-board-file")).toEqual([]);
    expect(loadBoard(file()).problems).toEqual([]);
  });

  test("a part without a number in the file gets one, and keeps the rest", async () => {
    const { found, fixes, take, file } = await open(
      board("parts:\n  U5: { note: in a socket }\n"),
      log("## Diode check U5 (7404)\n\n| Pin | Reading |\n|-|-|\n| 1 | 0.58 |\n"),
    );
    expect(found("not-in-board-file")[0]?.message).toBe(
      "The board file does not say what U5 is; this log says 7404.",
    );
    take(fixes("not-in-board-file")[0]);
    expect(file()).toContain('U5: { note: in a socket, device: "7404" }');
    expect(found("not-in-board-file")).toEqual([]);
  });

  test("nothing is offered into a file that cannot be added to", async () => {
    const { fixes } = await open(
      board("parts: &all\n  U1: { device: '7400' }\nnets: {}\n").replace("parts: &all", "parts:"),
      log(READINGS),
    );
    expect(fixes("not-in-board-file").length).toBeGreaterThan(0);
    const broken = await open("mendlog-board: 1\nid: b\nparts: [\n", log(READINGS));
    expect(broken.fixes("not-in-board-file")).toEqual([]);
  });

  test("without a board file nobody misses anything in it", async () => {
    const { found } = await open("mendlog-board: 1\nid: other\ntitle: Other\n", log(READINGS));
    expect(found("not-in-board-file")).toEqual([]);
  });
});

describe("part-differs-from-board", () => {
  const FILE = board("parts:\n  U5: { device: 74LS04 } # U5 is near the edge\n");
  const OTHER = log(
    "## Diode check U5 (7408)\n\n| Pin | Reading |\n|-|-|\n| 1 | 0.58 |\n\n## Logic states U5\n\n| Pin | State |\n|-|-|\n| 1 | high |\n",
  );

  test("is told once, with both words", async () => {
    const { found, fixes } = await open(FILE, OTHER);
    expect(found("part-differs-from-board")).toEqual([
      {
        at: "7408",
        severity: "information",
        message:
          "This log says U5 is a 7408; the board file says 74LS04. Its readings are judged by what this log says. Look at the number on the part.",
      },
    ]);
    expect(titles(fixes("part-differs-from-board"))).toEqual([
      "Set U5 to 7408 in the board file",
      "Allow 7408 at U5 in the board file (fits)",
      "Change to 74LS04 here",
    ]);
  });

  test.each([
    ["Set U5 to 7408 in the board file", 'U5: { device: "7408" } # U5 is near the edge', "7408"],
    [
      "Allow 7408 at U5 in the board file (fits)",
      'U5: { device: 74LS04, fits: ["7408"] } # U5 is near the edge',
      "7408",
    ],
    ["Change to 74LS04 here", "U5: { device: 74LS04 } # U5 is near the edge", "74LS04"],
  ])("the two agree by the fix: %s", async (title, line, said) => {
    const { found, fixes, take, file, text } = await open(FILE, OTHER);
    take(fixes("part-differs-from-board").find((fix) => fix.title === title));
    expect(file()).toContain(line);
    expect(text()).toContain(`U5 (${said})`);
    expect(found("part-differs-from-board")).toEqual([]);
  });

  test("what was fitted is no word on what the place calls for", async () => {
    const { found } = await open(
      FILE,
      log("## Parts fitted\n\n| Ref | Part | Note |\n|-|-|-|\n| U5 | 7408 | wrong, but it was there |\n"),
    );
    expect(found("part-differs-from-board")).toEqual([]);
  });

  test("a slip is told as one, not as another part", async () => {
    const { found } = await open(FILE, OTHER.replace("7408", "74LSO4"));
    expect(found("part-differs-from-board")).toEqual([]);
    expect(found("number-not-in-library")[0]?.message).toContain("Did you mean 74LS04?");
  });
});

describe("stated-twice", () => {
  const FILE = board("parts: { U5: {} }\n");
  const twice = (between = "") =>
    log(
      `## Diode check U5 (7404)\n\n| Pin | Reading |\n|-|-|\n| 1 | 0.58 |\n\n${between}## Logic states U5 (7408)\n\n| Pin | State |\n|-|-|\n| 1 | high |\n| 2 | high |\n`,
    );

  test("is told at the second word, with the line of the first", async () => {
    const { found, fixes, take } = await open(FILE, twice());
    expect(found("stated-twice")).toEqual([
      {
        at: "7408",
        severity: "warning",
        message: "U5 is a 7404 in line 7 and a 7408 here. The first is used. Correct the one that is wrong.",
      },
    ]);
    expect(titles(fixes("stated-twice"))).toEqual(["Change to 7404 here", "Change to 7408 in line 7"]);
    take(fixes("stated-twice")[1]);
    expect(found("stated-twice")).toEqual([]);
  });

  test("a chip that was changed in between is another one", async () => {
    const work = "## Work done\n\n| Ref | Action | Part |\n|-|-|-|\n| U5 | replaced | 7408 |\n\n";
    expect((await open(FILE, twice(work))).found("stated-twice")).toEqual([]);
  });

  test("two ways of writing one number are one", async () => {
    const { found } = await open(FILE, twice().replace("7408", "SN7404N"));
    expect(found("stated-twice")).toEqual([]);
  });
});

describe("number-not-in-library", () => {
  const FILE = board("parts: { U5: {} }\n");
  const of = (number: string) =>
    log(`## Diode check U5 (${number})\n\n| Pin | Reading |\n|-|-|\n| 1 | 0.58 |\n| 18 | 0.58 |\n`);

  test("a slip of the eye has the number that was meant as its fix", async () => {
    const { found, fixes, take } = await open(FILE, of("74O4"));
    expect(found("number-not-in-library").map(({ message }) => message)).toEqual([
      'The library does not know "74O4", so U5 is not judged by its pins. Did you mean 7404?',
    ]);
    expect(fixes("number-not-in-library")[0]).toMatchObject({ title: "Change to 7404", preferred: true });
    take(fixes("number-not-in-library")[0]);
    expect(found("number-not-in-library")).toHaveLength(0);
  });

  test("a number nobody knows begins a device file with as many pins as were read", async () => {
    const { fixes } = await open(FILE, of("K573RU5"));
    expect(titles(fixes("number-not-in-library"))).toEqual(["Begin a device file for K573RU5 with 18 pins"]);
    const [{ creates } = {}] = fixes("number-not-in-library");
    expect(creates?.uri).toBe("mem:/ws/K573RU5.device.yaml");
  });

  test("is not told twice of what the board file has too", async () => {
    const { found } = await open(board("parts: { U5: { device: K573RU5 } }\n"), of("K573RU5"));
    expect(found("number-not-in-library")).toEqual([]);
  });
});

test("heading-names-several takes the place of the general word, and its column is empty to be filled in", async () => {
  const { found, fixes, take, text } = await open(
    board('parts: { U5: { device: "7404" }, U6: { device: "7404" } }\n'),
    log("## Diode check U5, U6\n\n| Pin | Reading |\n|-----|---------|\n| 1   | 0.58    |\n"),
  );
  expect(found("column-not-read")).toEqual([]);
  expect(found("heading-names-several").map(({ at, message }) => [at, message])).toEqual([
    [
      "U5",
      "The heading names U5 and U6, so no row says which part it is. The readings are not checked. Add a column Ref.",
    ],
  ]);
  take(fixes("heading-names-several")[0]);
  expect(text()).toContain("| Ref | Pin | Reading |\n|-----|-----|---------|\n|     | 1   | 0.58    |\n");
  expect(found("heading-names-several")).toEqual([]);
});

describe("unknown-designator", () => {
  const rows = Array.from({ length: 20 }, (_, i) => `| U${i + 1} | 1 | 0.58 |\n`).join("");
  const MANY = log(`## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n${rows}`);

  test.each(["", "parts: { U1: { device: 74LS04 } }\n", "parts: { U1: {}, U2: {} }\n"])(
    "a board file that is only just begun is told of once: %j",
    async (parts) => {
      const { found, fixes, take, service } = await open(board(parts), MANY);
      const told = found("unknown-designator");
      expect(told).toHaveLength(1);
      expect(told[0]?.severity).toBe("information");
      expect(told[0]?.message).toMatch(/does not list U\d, U\d, U\d and 1\d more parts/);
      expect(service.findings(LOG).filter(({ severity }) => severity === "warning")).toEqual([]);
      take(fixes("unknown-designator")[0]);
      expect(found("unknown-designator")).toEqual([]);
      expect(loadBoard(service.text(BOARD) ?? "").value?.parts.size).toBe(20);
    },
  );

  const FULL = board(
    `parts:\n${Array.from({ length: 30 }, (_, i) => `  U${i + 1}: { device: 74LS04 }\n`).join("")}  Q11: { device: 2N3904 }\n`,
  );
  const read = (...refs: string[]) =>
    log(
      `## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n${refs.map((ref) => `| ${ref} | 1 | 0.58 |\n`).join("")}`,
    );

  test("a slip stays a warning, and may be no slip", async () => {
    const { found, fixes, take } = await open(FULL, read("Q111"));
    expect(found("unknown-designator").map(({ severity }) => severity)).toEqual(["warning"]);
    expect(titles(fixes("unknown-designator"))).toEqual(["Change to Q11", "Add Q111 to the board file"]);
    take(fixes("unknown-designator")[1]);
    expect(found("unknown-designator")).toEqual([]);
  });

  test("a part that is like none is no slip", async () => {
    const { found, fixes, take, file } = await open(FULL, read("X900", "X900"));
    expect(found("unknown-designator")).toEqual([
      {
        at: "X900",
        severity: "information",
        message:
          "The board file does not list X900, and this log does not say what it is. Write its number beside its readings, or add it to the file.",
      },
    ]);
    take(fixes("unknown-designator")[0]);
    expect(file()).toContain("  X900: {} # log 2026-014, line 11\n");
  });

  test("a part whose number the log tells is not unknown", async () => {
    const { found } = await open(
      FULL,
      log("## Diode check U90 (7404)\n\n| Pin | Reading |\n|-|-|\n| 1 | 0.58 |\n"),
    );
    expect(found("unknown-designator")).toEqual([]);
    expect(found("not-in-board-file")).toHaveLength(1);
  });
});

describe("unknown-board", () => {
  const FILES = "//- other.board.yaml\nmendlog-board: 1\nid: other\ntitle: Other\n//- log.md\n";
  const chip = (ref: string) => `\n## Diode check ${ref} (7404)\n\n| Pin | Reading |\n|-|-|\n| 1 | 0.58 |\n`;
  const about = async (fixture: string) => {
    const { service } = await openWorld(fixture);
    const [finding] = service.findings(LOG).filter(({ code }) => code === "unknown-board");
    return { finding, fixes: finding ? service.fixes(LOG, finding) : [] };
  };

  test("is a hint that says what is known, from how many logs, with the fix to write it down", async () => {
    const front = "---\nmendlog: 1\nboard: halden\n---\n";
    const { finding, fixes } = await about(
      `${FILES}${front}${chip("U1")}//- two.md\n${front}${chip("U2")}//- three.md\n${front}${chip("U3")}`,
    );
    expect(finding?.severity).toBe("hint");
    expect(finding?.message).toBe(
      'No board file describes "halden" yet: 3 parts are known from this log and 2 others.',
    );
    expect(fixes).toEqual([
      { title: "Write a board file for halden from its logs", edits: [], asks: "write-board-file" },
    ]);
  });

  test("says more where nothing is known at all", async () => {
    const { finding, fixes } = await about(`${FILES}---\nmendlog: 1\nboard: halden\n---\n`);
    expect(finding?.severity).toBe("information");
    expect(finding?.message).toContain("Known boards: other.");
    expect(fixes).toEqual([]);
  });

  test("a slip stays a warning", async () => {
    const { finding, fixes } = await about(`${FILES}---\nmendlog: 1\nboard: othre\n---\n${chip("U1")}`);
    expect(finding?.severity).toBe("warning");
    expect(titles(fixes)).toEqual(["Change to other", "Write a board file for othre from its logs"]);
  });
});

test("a log that names no board and tells its chips is judged, and the finding says no otherwise", async () => {
  const { service } = await openWorld(
    "//- x.board.yaml\n\n//- log.md\n---\nmendlog: 1\n---\n\n## Diode check U1 (7404)\n\n| Pin | Reading |\n|-|-|\n| 1 | 0.58 |\n",
  );
  const [finding] = service.findings(LOG);
  expect(finding).toMatchObject({ code: "board-not-named", severity: "hint" });
  expect(finding?.message).toContain("1 part is known from this log");
  expect(finding && titles(service.fixes(LOG, finding))).toEqual([
    "Name the board and write a board file from this log",
  ]);
});
