import { expect, test } from "vitest";
import { boardHead, logOf } from "../support/boards";
import { checkHover } from "../support/features";
import { header } from "../support/tables";
import { openWorld } from "../support/workspace";

const BOARD = `${boardHead()}grounds: [GND]
parts:
  BR1: { device: bridge-rectifier }
  BR2: { device: bridge-rectifier }
  VR1: { device: "7805" }
  VR2: { device: "7905" }
nets:
  GND: [BR1.4, BR2.1, VR1.2, VR2.1]
`;

const world = (rows: string) => logOf(BOARD, `## Diode check\n\n${header("Ref | Pin | Reading")}${rows}`);

/** Messages about the readings, none for those that are not reported. */
async function told(rows: string): Promise<string[]> {
  const { service } = await openWorld(world(rows));
  return service.findings("mem:/ws/log.md").map(({ message }) => message);
}

test("a bridge's AC terminal is one diode above its grounded minus", async () => {
  expect(
    await told("| BR1 | 2 | 0.52 |\n| BR1 | 3 | 0.53 |\n| BR1 | 1 | 0.95 |\n| BR1 | 4 | 0.001 |\n"),
  ).toEqual([]);
  expect((await told("| BR1 | 2 | 0.002 |\n")).join()).toContain("Shorted to ground");
  expect((await told("| BR1 | 3 | OL |\n")).join()).toContain("reads open; usual is");
  expect((await told("| BR1 | 1 | 0.003 |\n")).join()).toContain(
    "BR1 pin 1 (+) reads 3 mV; usual is at least 50 mV. Shorted to ground",
  );
  await checkHover(world("| BR1 | 1 | $00.003 |\n"), "0.003", "a bridge's plus terminal that is not shorted");
});

test("near miss: a bridge that feeds a negative rail is not judged this way round", async () => {
  expect(await told("| BR2 | 2 | OL |\n| BR2 | 4 | 0.002 |\n")).toEqual([]);
});

test("a regulator's pin is accused of a short and of nothing else", async () => {
  expect(
    await told("| VR1 | 1 | 0.47 |\n| VR1 | 3 | 0.41 |\n| VR2 | 3 | OL |\n| VR1 | 2 | 0.001 |\n"),
  ).toEqual([]);
  expect((await told("| VR1 | 3 | 0.004 |\n")).join()).toContain("VR1 pin 3 (OUT) reads 4 mV");
});
