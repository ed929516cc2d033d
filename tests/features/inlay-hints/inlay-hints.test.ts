import { expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { hintsOf, hintTooltip } from "../../../server/src/features/inlay-hints";
import { hintsIn } from "../../support/features";
import { openAt } from "../../support/workspace";

const LONG = `## Diode check

| Ref | Pin | Reading | Note |
|-----|-----|---------|------|
| U14 | 2   | 0.58    |      |
|     | 7   | 0.001   |      |
| U15 | 1   | 1.42    |      |
| U15 | 5   | -       |      |
| U15 | 3   | O.58    |      |
`;

const body = (marked: string): string => marked.split("---\n\n").slice(1).join("");

test("pins get name and net, readings their mark, and the table stays in line", async () => {
  expect(body(await hintsIn(exampleLog(LONG)))).toBe(
    `## Diode check

| Ref | Pin‹__________› | Reading‹_› | Note |
|-----|-----‹----------›|---------‹-›|------|
| U14 | 2  ‹1Y · ROW_1› | 0.58   ‹○› |      |
|     | 7  ‹GND_______› | 0.001  ‹○› |      |
| U15 | 1  ‹1A · ROW_1› | 1.42   ‹▲› |      |
| U15 | 5  ‹3A · PULLED› | -      ‹_› |      |
| U15 | 3  ‹2A________› | O.58   ‹–› |      |
`
      .replace("__________› | Reading", "___________› | Reading")
      .replace("----------›|", "-----------›|")
      .replace("1Y · ROW_1›", "1Y · ROW_1_›")
      .replace("GND_______›", "GND________›")
      .replace("1A · ROW_1›", "1A · ROW_1_›")
      .replace("2A________›", "2A_________›"),
  );
});

test("every line of a table that is in line stays in line", async () => {
  const lines = body(await hintsIn(exampleLog(LONG)))
    .replace(/[‹›]/g, "")
    .split("\n")
    .filter((line) => line.startsWith("|"));
  expect(new Set(lines.map(({ length }) => length)).size).toBe(1);
});

test("each kind goes by itself, and of the marks all or those of doubt", async () => {
  expect(await hintsIn(exampleLog(LONG), { pins: false, verdicts: "off" })).toBe(exampleLog(LONG));
  expect(await hintsIn(exampleLog(LONG), { pins: false })).not.toContain("ROW_1");
  const doubtful = await hintsIn(exampleLog(LONG), { pins: false, verdicts: "doubtful" });
  expect(doubtful.match(/[○▲–]/g)).toEqual(["▲"]);
  const fine = await hintsIn(exampleLog(LONG.replace("1.42", "0.57")), { pins: false, verdicts: "doubtful" });
  expect(fine).not.toContain("‹");
});

test("a name that the cell says already is not said again", async () => {
  const marked = await hintsIn(exampleLog(LONG.replace("| 2   ", "| 2 (1Y)")), { verdicts: "off" });
  expect(marked).toMatch(/2 \(1Y\)‹ROW_1_+›/);
});

test("a wide table's pin has a name where all its chips agree", async () => {
  const wide = (chips: string) =>
    exampleLog(`## Diode check\n\n| Pin | ${chips} |\n|-|-|-|\n| 2 | 0.5 | 0.5 |\n`);
  expect(await hintsIn(wide("U14 | U15"), { verdicts: "off" })).toContain("| 2‹1Y› |");
  expect(await hintsIn(wide("U14 | U20"), { verdicts: "off" })).not.toContain("‹");
});

test("only what is in the range, which may begin and end anywhere", async () => {
  const { view, offset } = await openAt(exampleLog(LONG.replace("0.001", "0.0$001")));
  const line = (at: number) => view.doc.text.slice(0, at).split("\n").length;
  const start = view.doc.text.lastIndexOf("\n", offset);
  const end = view.doc.text.indexOf("\n", offset);
  const hints = hintsOf(view, { start, end }, { pins: true, verdicts: "all" });
  expect(hints.map(({ label }) => label.trim())).toEqual(["GND", "○"]);
  expect(new Set(hints.map(({ at }) => line(at)))).toEqual(new Set([line(offset)]));
});

test("a tooltip says the verdict's sentence, or what else is on the net", async () => {
  const { view } = await openAt(`${exampleLog(LONG)}$0`);
  const hints = hintsOf(view, { start: 0, end: view.doc.text.length }, { pins: true, verdicts: "all" });
  const tip = (label: string) => {
    const found = hints.find((hint) => hint.label.startsWith(label));
    return found && hintTooltip(view, found);
  };
  expect(tip("▲")).toMatch(/^\*\*▲ Out of limits\*\*\n\nU15 pin 1 /);
  expect(tip("1Y")).toMatch(/^\*\*U14 pin 2\*\*: 1Y output · net ROW.*U15\.1/);
  expect(tip("\u00a0")).toBeUndefined();
  expect(hintTooltip(view, { kind: "verdict", at: 3 })).toBeUndefined();
  for (const hint of hints) expect(hintTooltip(view, hint) ?? "").not.toMatch(/\b(good|passed)\b/i);
});
