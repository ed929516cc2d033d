import assert from "node:assert/strict";

const LOG = "logs/apart.md";
const BOARD = `mendlog-board: 1
id: trial
title: Trial board
source: invented for the editor tests
circuits: { bus: { title: Bus } }
parts:
  U12: { device: 74LS04, circuit: bus, socketed: true }
  U13: { device: 74LS04, circuit: bus, socketed: true }
  U14: { device: 74LS04, circuit: bus }
  J3: { value: header 10 }
nets:
  BUS: [U12.1, U13.1, U14.1, J3.1]
symptoms:
  bus-dead: { title: The bus stays low, circuits: [bus] }
`;
const TEXT = `---
mendlog: 1
board: trial
symptoms: [bus-daed]
---

## Diode check

| Ref | Pin | Reading | Note    |
|-----|-----|---------|---------|
| U12 | 1   | 0.118   |         |
| U13 | 1   | 0.12    |         |
| U13 | 01  | 0.56    | U12 out |
`;

export default {
  title:
    "a reading with a chip pulled is taken as one: the finding names the chip, the note says how it is read",
  files: { [LOG]: TEXT, "boards/trial.board.yaml": BOARD },
  async run(editor) {
    await editor.openFile(LOG);
    await editor.awake();
    const problems = await editor.until("the findings", async () => {
      const all = (await editor.problems()).filter(({ file }) => file === LOG);
      return all.some(({ code }) => code === "shared-net-fault") && all;
    });
    await editor.screenshot("parts-off-problems");
    const shared = problems.find(({ code }) => code === "shared-net-fault");
    assert.match(shared.message, /are on one net, BUS, and both read about /);
    assert.match(shared.message, /It reads 0\.56 with U12 out, so it is U12/);
    const symptom = problems.find(({ code }) => code === "unknown-symptom");
    assert.match(symptom.message, /Did you mean bus-dead\?/);
    const low = problems.find(({ code }) => code === "diode-out-of-window");
    assert.match(low.message, /usual is 0\.4 V to 0\.7 V/);
    assert.ok(
      low.related.some((text) => text.includes("net BUS, 4 pins")),
      JSON.stringify(low.related),
    );
    assert.ok(!problems.some(({ code }) => code === "duplicate-reading" || code === "net-disagreement"));

    const { line } = editor.find(LOG, "U12 out");
    const note = await editor.hoverWord("out", { line, says: /Taken with U12 out/ });
    assert.match(note, /left on BUS \(U13\.1, U14\.1, J3\.1\)/);
    await editor.screenshot("parts-off-hover");
  },
};
