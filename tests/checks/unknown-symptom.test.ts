import { describe, expect, test } from "vitest";
import { applyEdits } from "../../server/src/text/edits";
import { boardFile, boardHead } from "../support/boards";
import { checkFindings, openWorld } from "../support/workspace";

const BOARD = `${boardFile(boardHead())}circuits: { display: { title: Display } }
symptoms:
  blank-display: { title: Display stays blank, circuits: [display] }
  silent: { title: No sound, circuits: [display] }
${boardFile(boardHead("other", "The other board"))}circuits: { display: { title: Display } }
symptoms:
  coil-stuck: { title: A coil stays in, circuits: [display] }
`;
const log = (symptoms: string, board = "b") =>
  `${BOARD}//- log.md\n---\nmendlog: 1\nboard: ${board}\n${symptoms}\n---\n`;

describe("leaves alone", () => {
  test.each([
    "symptoms: [blank-display, silent]",
    "symptoms: [lane 3 never scores, Dead., half-dead since the storm]",
    "symptoms: [dead]",
    "symptoms: []",
    "symptoms: [no]",
  ])("%s", async (symptoms) => {
    expect([...(await checkFindings(log(symptoms))).values()].flat()).toEqual([]);
  });

  test("every id where the board file lists no symptoms, and where there is no board", async () => {
    const empty = BOARD.replace(/symptoms:\n {2}blank-display.*\n {2}silent.*\n/, "symptoms: {}\n");
    const found = await checkFindings(
      `${empty}//- log.md\n---\nmendlog: 1\nboard: b\nsymptoms: [blank-dispaly]\n---\n//- two.md\n---\nmendlog: 1\nsymptoms: [blank-dispaly]\n---\n`,
    );
    expect([...found.values()].flat()).toEqual([]);
  });
});

test("a word that is nearly an id is told, whatever its case or strokes", async () => {
  await checkFindings(
    log(`symptoms: [silnet, Blank_Display]
           ^^^^^^ unknown-symptom: Did you mean silent?
                   ^^^^^^^^^^^^^ unknown-symptom: Did you mean blank-display?`),
  );
});

test("an id of another board is told as that board's", async () => {
  await checkFindings(
    log(`symptoms:
  - coil-stuck
    ^^^^^^^^^^ unknown-symptom: It is a symptom of The other board`),
  );
});

test("it may be corrected, or written as words, which are then left alone", async () => {
  const { service } = await openWorld(log("symptoms: [blank-dispaly]"));
  const uri = "mem:/ws/log.md";
  const [finding] = service.findings(uri);
  if (!finding) throw new Error("no finding");
  const text = service.text(uri) ?? "";
  const fixes = service.fixes(uri, finding);
  expect(fixes.map(({ title }) => title)).toEqual([
    "Change to blank-display",
    "Write it in words: blank dispaly",
    "Add the symptom blank-dispaly to the board file",
  ]);
  for (const { edits, elsewhere = [] } of fixes) {
    service.open(uri, applyEdits(text, edits));
    for (const file of elsewhere) service.open(file.uri, applyEdits(file.text, file.edits));
    expect(service.findings(uri)).toEqual([]);
  }
  expect(service.text("mem:/ws/b.board.yaml")).toContain(
    "blank-dispaly: { title: Blank dispaly } # log log.md, line 4\n",
  );
});
