// What the checks make of readings taken with something off the net.
import { describe, expect, test } from "vitest";
import { BUS_BOARD, having, logOf } from "../support/boards";
import { header } from "../support/tables";
import { checkFindings, openWorld } from "../support/workspace";

const BOARD = having(BUS_BOARD, {
  parts: { J4: "{ value: header 10 }" },
  nets: { EDGE: "[U12.3, J4.1]" },
});
const log = (rows: string, heading = "Diode check") =>
  logOf(BOARD, `## ${heading}\n\n${header("Ref | Pin | Reading | Note")}${rows}`);
const messages = async (text: string) =>
  (await openWorld(text)).service
    .findings("mem:/ws/log.md")
    .map(({ code, message }) => `${code}: ${message}`);

describe("near miss", () => {
  test.each([
    ["a net read whole and without a chip differs", "| U12 | 1 | 0.45 | |\n| U13 | 1 | 0.68 | U12 out |\n"],
    ["a pin read twice, once without a chip", "| U13 | 1 | 0.55 | |\n| U13 | 1 | 0.56 | U12 out |\n"],
    ["a lifted leg differs from its net", "| U12 | 1 | 0.45 | |\n| U13 | 1 | 0.68 | pin lifted |\n"],
    ["an empty socket on a net with nothing else that conducts", "| U12 | 3 | OL | U12 out |\n"],
  ])("%s", async (_, rows) => expect(await messages(log(rows))).toEqual([]));
});

test("two pins read with the same chip out still have to agree", async () => {
  const found = await messages(
    log("| U13 | 1 | 0.45 | |\n| U14 | 1 | 0.68 | |\n", "Diode check with U12 out of its socket"),
  );
  expect(found).toHaveLength(1);
  expect(found[0]).toMatch(/^net-disagreement: BUS/);
});

test("a lifted leg that reads wrong is its chip, whatever hangs on the net", async () => {
  await checkFindings(
    log(`| U13 | 1   | 0.12    | pin lifted |
              ^^^^ diode-out-of-window: nothing else is on the leg: it is U13
`),
  );
});

test("a net that reads wrong without a chip does not accuse it", async () => {
  const [only] = await messages(log("| U13 | 1 | 0.12 | U12 pulled |\n"));
  expect(only).toMatch(/U13 pin 1 \(1A\) reads 0\.12 V with U12 out; .* It is not U12: the cause is among/);
});

test("an empty socket that reads low is the rest of the net", async () => {
  const [only] = await messages(log("| U12 | 1 | 0.12 | U12 out |\n"));
  expect(only).toMatch(/It is not U12/);
});

describe("one wrong reading on two chips", () => {
  const LOW = "| U12 | 1 | 0.118 | |\n| U13 | 1 | 0.12 | |\n";
  const shared = async (rows: string) => {
    const found = (await messages(log(LOW + rows))).filter((message) =>
      message.startsWith("shared-net-fault"),
    );
    expect(found.length).toBeGreaterThan(0);
    return found[0];
  };

  test("says how to tell them apart", async () => {
    expect(await shared("")).toMatch(/Power off, unplug J3, and read the net again/);
  });

  test("says which it is where the log shows it", async () => {
    expect(await shared("| U13 | 1 | 0.56 | U12 out |\n")).toMatch(
      /It reads 0\.56 with U12 out, so it is U12, its socket or its joints there\./,
    );
    expect(await shared("| U13 | 1 | 0.12 | pin lifted |\n")).toMatch(/with its leg lifted: it is U13\./);
  });

  test("leaves out what was tried", async () => {
    const text = await shared("| U13 | 1 | 0.12 | U12 out |\n");
    expect(text).toMatch(/Not U12: the net reads low without it\. Power off, unplug J3/);
  });
});

test("what was read with something off makes no usual reading of the shop", async () => {
  const { service } = await openWorld(log("| U13 | 1 | 0.56 | U12 out |\n| U14 | 1 | 0.56 | |\n"));
  for await (const _ of service.index());
  const [table] = service.memory().logs.get("mem:/ws/log.md")?.tables ?? [];
  expect(table?.readings.map(({ ref, apart }) => [ref, apart])).toEqual([
    ["U13", true],
    ["U14", undefined],
  ]);
});
