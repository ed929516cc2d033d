// One cause, few findings: what a chip as a whole explains is not told pin by pin, with or without a board file.
import { expect, test } from "vitest";
import { exampleLog } from "../../server/src/checks/example-board";
import { openWorld } from "../support/workspace";

const SIGNALS = [1, 2, 3, 4, 5, 6, 8, 9, 10, 11, 12, 13];
const table = (read: (pin: number) => string): string =>
  `## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n${SIGNALS.map((pin) => `| U14 | ${pin} | ${read(pin)} |\n`).join("")}`;
const ofPins = async (text: string) => {
  const { service, files } = await openWorld(text);
  const log = files.find(({ uri }) => uri.endsWith(".md"));
  if (!log) throw new Error("no log");
  return service.findings(log.uri).filter(({ severity }) => severity === "warning" || severity === "error");
};
const ALONE = (body: string) =>
  `//- log.md\n---\nmendlog: 1\n---\n\n${body.replaceAll("U14", "U14 (7404)")}\n`;

test.each([
  ["with a board file", exampleLog],
  ["by the log alone", ALONE],
])("twelve open pins of twelve are at most two findings, which name the pins: %s", async (_, world) => {
  const found = await ofPins(world(table(() => "OL")));
  expect(found.length).toBeGreaterThan(0);
  expect(found.length).toBeLessThanOrEqual(2);
  const whole = found.find(({ code }) => code === "chip-as-a-whole");
  expect(whole?.related?.length).toBe(12);
});

test("three open pins of twelve are three findings", async () => {
  const found = await ofPins(ALONE(table((pin) => (pin < 4 ? "OL" : `0.5${pin}`))));
  expect(found.map(({ code }) => code)).toEqual(Array(3).fill("diode-out-of-window"));
});
