// Notes and headings that say what was off its net: offered where they are written, told as they are taken.
import { describe, expect, test } from "vitest";
import { BUS_BOARD, having, logOf } from "../../support/boards";
import { checkNoHover, hoverTextAt, offeredAt, paragraphsOf } from "../../support/features";
import { header } from "../../support/tables";

const BOARD = having(BUS_BOARD, {
  parts: { U15: "{ device: 74LS04, socketed: true }", TP1: "{ value: test point }" },
  nets: { BUS: "[TP1.1, U14.1, U12.1, U13.1, J3.1]" },
});
const log = (rows: string, heading = "Diode check") =>
  logOf(BOARD, `## ${heading}\n\n${header("Ref | Pin | Reading | Note")}${rows}`);

describe("a note is offered", () => {
  test("what comes off the pin's net, easily first, then the leg and the track", async () => {
    const { labels, item, take } = await offeredAt(log("| U13 | 1 | 0.12 | $0 |\n"));
    expect(labels).toEqual([
      "J3 unplugged",
      "U12 out",
      "U13 out",
      "U14 pin 1 lifted",
      "pin lifted",
      "pin lifted, at the pad",
      "track cut",
    ]);
    expect(item("U12 out").description).toContain("74LS04");
    expect(item("pin lifted").description).toBe("the leg of U13 was read by itself");
    expect(take("U12 out")).toContain("| 0.12 | U12 out |");
  });

  test("behind what it says already", async () => {
    const { take } = await offeredAt(log("| U13 | 1 | 0.12 | read twice, u$0 |\n"));
    expect(take("U12 out")).toContain("| read twice, U12 out |");
    const first = await offeredAt(log("| U13 | 1 | 0.12 | $0, read twice |\n"));
    expect(first.take("U12 out")).toContain("| U12 out, read twice |");
  });

  test.each([
    ["on ground", "| U13 | 7 | 0.12 | $0 |\n"],
    ["on a pin without a net", "| U15 | 1 | 0.12 | $0 |\n"],
  ])("nothing of the kind %s", async (_where, rows) => {
    expect((await offeredAt(log(rows))).labels).toEqual([]);
  });

  test("a heading behind 'with' is offered what comes out without an iron", async () => {
    const { labels, take } = await offeredAt(logOf(BOARD, "## Diode check with U1$0\n"));
    expect(labels).toEqual([
      "J3 unplugged",
      "U12 out of its socket",
      "U13 out of its socket",
      "U15 out of its socket",
    ]);
    expect(take("U13 out of its socket")).toContain("## Diode check with U13 out of its socket\n");
  });
});

describe("a note's hover", () => {
  test("says what is left on the net and what follows", async () => {
    expect(await hoverTextAt(log("| U13 | 1 | 0.12 | U12 $0out |\n"))).toMatchInlineSnapshot(`
      "[U12 out]
      Taken **with U12 out**: the reading is of what is left on **BUS** (TP1.1, U14.1, U13.1, J3.1). Where the whole net reads low, a reading within limits speaks against U12, and one that stays low for it."
    `);
  });

  test("says that a leg stands by itself", async () => {
    expect(await hoverTextAt(log("| U13 | 1 | 0.12 | pin $0lifted |\n"))).toMatchInlineSnapshot(`
      "[pin lifted]
      Taken **with the pin off its pad**: the reading is of U13 pin 1 alone, and is not compared with the rest of its net. Out of limits it accuses U13 and nothing else; within them it speaks for U13 where **BUS** reads low."
    `);
  });

  test("says that a part on another net changes nothing", async () => {
    expect(await hoverTextAt(log("| U13 | 1 | 0.12 | U15 $0out |\n"))).toMatchInlineSnapshot(`
      "[U15 out]
      Nothing of this is on **BUS**, the net of U13 pin 1: the reading counts as one of the whole net."
    `);
  });

  test("asks where a track was cut", async () => {
    expect(await hoverTextAt(log("| U13 | 1 | 0.12 | track $0cut |\n"))).toMatchInlineSnapshot(`
      "[track cut]
      Taken **with the track cut**: nobody can tell what of **BUS** is on this side, so the reading is compared with no other. Say where it was cut: \`track cut at U13.1\`."
    `);
  });

  test("is silent over other notes", async () => {
    await checkNoHover(log("| U13 | 1 | 0.12 | read $0twice |\n"));
  });

  test("of a heading says it once for all readings", async () => {
    const markdown = await hoverTextAt(
      log("| U13 | 1 | 0.12 | |\n", "Diode$0 check with U12 out of its socket"),
    );
    const [first, procedure] = paragraphsOf(markdown);
    expect(first).toMatchInlineSnapshot(`
      "[Diode check with U12 out of its socket]
      All readings below are taken **with U12 out**: pins on a net of theirs are read as what is left of it."
    `);
    expect(procedure).toBe("**Diode check** · unpowered");
  });
});
