import { expect, test } from "vitest";
import {
  completeKnowledge,
  defineKnowledge,
  foldsOfKnowledge,
  hoverKnowledge,
  type KnowledgeFile,
  symbolsOfKnowledge,
} from "../../../server/src/features/knowledge";
import { cpuTime } from "../../support/cpu-time";
import { board } from "./board";
import { openKnowledge } from "./support";

const RICH = board(`matrices:
  sw:
    kind: switch # a remark
    rows: [ROW_1,
      GND]
    cells:
      - [Coin, "Start # one"]
expected:
  - { procedure: diode-check, ref: U14, pin: 3, low: 0.48 V }
switch-banks:
  SW1: { settings: [{ title: C, switches: [1, 2], meaning: { "00": one } }] }
`);

/** Asks everything at an offset; every span must lie in the text, and a completion's on the cursor's line. */
function askAll(file: KnowledgeFile, offset: number): number {
  const items = completeKnowledge(file, offset);
  for (const { span, newText } of items) {
    const ok = span.start <= offset && offset <= span.end && span.end <= file.text.length && newText !== "";
    if (!ok || /\n/.test(file.text.slice(span.start, span.end))) {
      expect.fail(`${span.start}-${span.end} at ${offset} of ${JSON.stringify(file.text.slice(-60))}`);
    }
  }
  for (const at of [hoverKnowledge(file, offset)?.span, defineKnowledge(file, offset)?.origin]) {
    if (at) expect(at.start <= offset && offset <= at.end, `hover at ${offset}`).toBe(true);
  }
  return items.length;
}

test("at every place of a whole file there is an answer, and at most places something to say", async () => {
  const { file } = await openKnowledge(RICH);
  let hovers = 0;
  let offered = 0;
  for (let offset = 0; offset <= file.text.length; offset++) {
    if (askAll(file, offset) > 0) offered++;
    if (hoverKnowledge(file, offset)) hovers++;
  }
  expect(hovers).toBeGreaterThan(file.text.length / 2);
  expect(offered).toBeGreaterThan(file.text.length / 3);
});

test.each([["\n"], ["\r\n"]])("typed from its first character to its last with line ends %j", async (eol) => {
  const text = RICH.replaceAll("\n", eol);
  const { file } = await openKnowledge("id: x\n");
  const { parseYaml } = await import("../../../server/src/syntax/yaml");
  let offered = 0;
  for (let end = 0; end <= text.length; end += 3) {
    const typed = text.slice(0, end);
    const half = { ...file, text: typed, tree: parseYaml(typed) };
    if (askAll(half, end) > 0) offered++;
    foldsOfKnowledge(half);
    symbolsOfKnowledge(half);
  }
  expect(offered).toBeGreaterThan(100);
});

/** Chips in rows: 2,000 lines of parts and nets, as a large board has. */
function largeBoard(): string {
  const refs = Array.from({ length: 900 }, (_, index) => `U${index + 1}`);
  const parts = refs.map((ref) => `  ${ref}: { device: 74LS04, circuit: reset, location: A1 }`);
  const nets = refs.map((ref, index) => `  N_${ref}: [${ref}.2, ${refs[(index + 1) % 900]}.1]`);
  const expected = refs
    .slice(0, 190)
    .map(
      (ref) =>
        `  - { procedure: diode-check, ref: ${ref}, pin: 3, low: 0.4 V, high: 0.7 V, source: invented }`,
    );
  return `mendlog-board: 1
id: large
title: Large
circuits:
  reset: { title: Reset }
parts:
${parts.join("\n")}
nets:
${nets.join("\n")}
expected:
${expected.join("\n")}
`;
}

test("2,000 lines cost a few milliseconds a question", async () => {
  const { file } = await openKnowledge(largeBoard());
  expect(file.text.split("\n").length).toBeGreaterThan(1990);
  const at = (text: string): number => {
    const found = file.text.lastIndexOf(text);
    expect(found).toBeGreaterThan(0);
    return found + text.length;
  };
  const questions: (readonly [string, () => unknown])[] = [
    ["hover a net's entry", () => hoverKnowledge(file, at("U900.2"))],
    ["hover a part", () => hoverKnowledge(file, at("  U899"))],
    ["complete a net's entry", () => completeKnowledge(file, at("N_U900: [U900."))],
    ["complete a new net", () => completeKnowledge(file, at("N_U899"))],
    ["complete a device", () => completeKnowledge(file, at("U899: { device: 74"))],
    ["complete a key", () => completeKnowledge(file, at("U190, pi"))],
    ["define a part", () => defineKnowledge(file, at("[U900"))],
    ["outline", () => symbolsOfKnowledge(file)],
    ["folds", () => foldsOfKnowledge(file)],
  ];
  const quickest = (ask: () => unknown): number => Math.min(...Array.from({ length: 7 }, () => cpuTime(ask)));
  // Measured at under 1 ms each; the bound leaves room for a busy machine and none for a second parse.
  for (const [name, ask] of questions) {
    expect(ask(), name).toBeTruthy();
    expect(quickest(ask), name).toBeLessThan(15);
  }
  // The first question after an edit finds nothing kept from before.
  const offset = at("N_U900: [U900.");
  const cold = () => expect(completeKnowledge({ ...file, tree: { ...file.tree } }, offset).length).toBe(14);
  expect(quickest(cold), "first question after an edit").toBeLessThan(40);
});
