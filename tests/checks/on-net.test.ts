// Every finding about a pin on a net says which net, and what else is on it.
import { describe, expect, test } from "vitest";
import type { Finding } from "../../server/src/checks/check";
import { hoverLog } from "../../server/src/features/hover";
import { BUS_BOARD, having, logOf } from "../support/boards";
import { header } from "../support/tables";
import { openWorld } from "../support/workspace";

const many = (prefix: string, count: number) =>
  Array.from({ length: count }, (_, i) => `${prefix}${i + 1}.1`).join(", ");

const parts = (prefix: string, count: number): Record<string, string> =>
  Object.fromEntries(Array.from({ length: count }, (_, i) => [`${prefix}${i + 1}`, "{ value: something }"]));

const BOARD = having(BUS_BOARD, {
  parts: { U15: "{ device: 74LS04 }", ...parts("C", 30), ...parts("U4", 12) },
  nets: {
    GND: `[U14.7, ${many("C", 30)}]`,
    ROW_1: "[U14.2, U15.1, J3.1]",
    BUS: `[U14.1, ${many("U4", 12)}]`,
    ALONE: "[U14.3]",
  },
});

const find = async (
  heading: string,
  table: string,
  code: string,
): Promise<Finding & { readonly hover: string }> => {
  const { service } = await openWorld(logOf(BOARD, `## ${heading}\n\n${table}\n`));
  const found = service.findings("mem:/ws/log.md");
  expect(found.map((one) => one.code)).toEqual([code]);
  const [finding] = found;
  const view = service.view("mem:/ws/log.md");
  if (!finding || !view) throw new Error("nothing found");
  // No message names what is on a net: a hover does.
  expect(finding.message).not.toMatch(/U14\.\d|\d pins/);
  return { ...finding, hover: hoverLog(view, finding.span.start, found)?.markdown ?? "" };
};

const readings = (rows: string) => header("Ref | Pin | Reading") + rows;

describe("a finding about a pin", () => {
  test("names its net with all members, and shows them at the board file's line", async () => {
    const { hover, related } = await find("Diode check", readings("| U14 | 2 | OL |"), "diode-out-of-window");
    expect(hover).toMatch(/Net \*\*ROW\\_1\*\*: U14\.2 .*U15\.1 .*J3\.1/);
    const place = related?.find(({ message }) => message.startsWith("net ROW_1"));
    expect(place?.message).toBe("net ROW_1, 3 pins: U14.2, U15.1, J3.1");
    expect(place?.uri).toBe("mem:/ws/b.board.yaml");
    expect(BOARD.slice(place?.span.start, place?.span.end)).toBe("ROW_1");
  });

  test("names a few of many, and all of them at the board file's line", async () => {
    const { hover, related } = await find("Diode check", readings("| U14 | 1 | OL |"), "diode-out-of-window");
    expect(hover).toMatch(/Net \*\*BUS\*\*: U14\.1 .*U45\.1/);
    expect(related?.at(-1)?.message).toContain("net BUS, 13 pins: U14.1, U41.1");
    expect(related?.at(-1)?.message).toContain("U412.1");
  });

  test("counts the pins of a ground net", async () => {
    const { hover } = await find("Diode check", readings("| U14 | 7 | 0.55 |"), "diode-out-of-window");
    expect(hover).toMatch(/Net \*\*GND\*\*: U14\.7 .* and \d+ more/);
  });

  test("says so of a level and of a pin that is alone on its net", async () => {
    const { hover } = await find("Logic levels", readings("| U14 | 3 | 1.5 V |"), "level-undefined");
    expect(hover).toContain("Net **ALONE**: U14.3");
  });

  test("says what else holds an output, by the net's name", async () => {
    const { hover, related } = await find(
      "Logic states",
      "| Ref | Pin | State |\n|---|---|---|\n| U14 | 1 | H |\n| U14 | 2 | H |",
      "logic-contradiction",
    );
    expect(hover).toContain("On its net: U15 pin 1, J3 pin 1.");
    expect(related?.[0]?.message).toBe("net ROW_1, 3 pins: U14.2, U15.1, J3.1");
  });

  test("says what else is on a net that does not read as one", async () => {
    const { hover, related } = await find(
      "Diode check",
      readings("| U14 | 2 | 0.45 |\n| U15 | 1 | 0.68 |"),
      "net-disagreement",
    );
    expect(hover).toMatch(/Net \*\*ROW\\_1\*\*: U14\.2 .*U15\.1 .*J3\.1/);
    expect(related?.[0]?.message).toContain("net ROW_1, 3 pins");
  });
});
