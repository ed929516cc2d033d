// Matrix crossings, switch banks, ROM figures, failing bits and date codes under the pointer.
import { describe, expect, it } from "vitest";
import { hoverTextAt, sectionsOf } from "../../support/features";

const log = (body: string) => `---\nmendlog: 1\nboard: example\nreceived: 2026-03-02\n---\n\n${body}`;

describe("a crossing", () => {
  it("tells what the tests say of its lines", async () => {
    expect(
      await hoverTextAt(
        log(
          "## Switch matrix\n\n| Row / column | 1 | 2 | 3 |\n|-|-|-|-|\n| 1 | ok | ok | ok |\n| 2 | de$0ad | dead | dead |\n",
        ),
      ),
    ).toMatchInlineSnapshot(`
      "[dead]
      **Gate** · row 2 (SW\\_ROW\\_2), column 1 (SW\\_COL\\_1)

      All 3 crossings tested on row 2 (SW\\_ROW\\_2) are dead. Check what they share: the line's driver or input, its resistor, the header pin and the track."
    `);
  });

  it("is to be cleared where parts on both of its lines have failed, the caution first", async () => {
    const text = await hoverTextAt(
      log(
        "## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U30 | 1 | 1.42 |\n| U31 | 2 | OL |\n\n## Switch matrix\n\n| Row | Column | Result |\n|-|-|-|\n| 1 | 2 | de$0ad |\n",
      ),
    );
    expect(text).toMatchInlineSnapshot(`
      "[dead]
      **Start** · row 1 (SW\\_ROW\\_1), column 2 (SW\\_COL\\_2)

      The crossing at row 1, column 2 (Start) is dead, and its row and column answered nowhere else. Test another crossing there before you blame this one.

      ⚠ **Caution:** Mains off, supplies discharged; local codes and licensed practice apply.

      **To clear in the machine:** parts on this row and on this column have both failed (U30 pin 1 reads 1.42; U31 pin 2 reads OL). Before you plug the board in, look here for a switch, wire or diode that touches a lamp or coil supply."
    `);
    expect(text.indexOf("Caution")).toBeLessThan(text.indexOf("To clear"));
  });

  it("has its matrix counted in the heading", async () => {
    const text = await hoverTextAt(
      log("## Switch mat$0rix\n\n| Row | Column | Result |\n|-|-|-|\n| 1 | 2 | ok |\n"),
    );
    const [counted, procedure] = sectionsOf(text);
    expect(counted).toMatchInlineSnapshot(`
      "[Switch matrix]
      **Switch matrix:** 2 of 6 rows and columns have answered. Not yet exercised: row 2 (SW\\_ROW\\_2), row 3 (SW\\_ROW\\_3), column 1 (SW\\_COL\\_1) and column 3 (SW\\_COL\\_3). 2 crossings cover them: row 2, column 3 (Bell); row 3, column 1 (Door).

      ⚠ **Caution:** Reserved by the board file, never to be bridged: row 3, column 3 (Clear memory)."
    `);
    expect(procedure).toMatch(/^\*\*Switch matrix\*\* · powered/);
  });
});

describe("a switch", () => {
  it("tells its setting first, then the bank's others", async () => {
    expect(
      await hoverTextAt(log("## Settings\n\n| Bank | 1 | 2 | 3 |\n|-|-|-|-|\n| SW1 | off | on | of$0f |\n")),
    ).toMatchInlineSnapshot(`
      "[off]
      **SW1** as noted here (1 is on, ? is not noted)

      - **Music: silent (switches 3 at 0)**
      - Coins: two coins (switches 1, 2 at 01)"
    `);
  });

  it("leaves open what is not noted", async () => {
    expect(
      await hoverTextAt(log("## Settings\n\n| Bank | Switch | State |\n|-|-|-|\n| SW1 | 2 | o$0n |\n")),
    ).toMatchInlineSnapshot(`
      "[on]
      **SW1** as noted here (1 is on, ? is not noted)

      - **Coins: still open: two coins or free play (switches 1, 2 at ?1)**
      - Music: still open: silent or playing (switches 3 at ?)"
    `);
  });
});

describe("a ROM figure", () => {
  it("is held against every set", async () => {
    expect(
      await hoverTextAt(
        log("## ROM check\n\n| Ref | CRC-32 | Sum |\n|-|-|-|\n| U34 | 9d1f$04c72 | 6b3e |\n"),
      ),
    ).toMatchInlineSnapshot(`
      "[9d1f4c72]
      **U34** against the board's sets

      - first (First release, revision A): agrees in 16-bit sum, differs in CRC-32 (16-bit sum \`6b3e\`, CRC-32 \`4c90d1ab\`)
      - second (Second release, revision B): agrees in CRC-32, differs in 16-bit sum (16-bit sum \`70d5\`, CRC-32 \`9d1f4c72\`)

      What was read is in no set of the board. Keep the images before you do anything else.

      A matching figure shows what the programmer read; the board may see something else."
    `);
  });
});

describe("failing bits", () => {
  it("name the data lines and the chip, and prove nothing", async () => {
    expect(
      await hoverTextAt(
        log("## Memory test\n\n| Ref | Wrote | Read | Result |\n|-|-|-|-|\n| U33 | A | $08 | fail |\n"),
      ),
    ).toMatchInlineSnapshot(`
      "[8]
      Wrote A, read 8: bits 1 differ.

      Came back wrong: D5, on U33.

      U33 serves D4, D5, D6, D7."
    `);
    expect(
      await hoverTextAt(
        log("## Memory test\n\n| Ref | Wrote | Read | Result |\n|-|-|-|-|\n| U33 | A | $0A | pass |\n"),
      ),
    ).toMatchInlineSnapshot(`
      "[A]
      Wrote A, read the same. That does not prove the chip.

      U33 serves D4, D5, D6, D7."
    `);
  });
});

describe("a date code", () => {
  it("tells its week and how it stands to the board's years", async () => {
    expect(
      await hoverTextAt(
        log("## Inspection\n\n| Item | Result | Note |\n|-|-|-|\n| Date codes | ok | 7931 to 80$012 |\n"),
      ),
    ).toMatchInlineSnapshot(`
      "[8012]
      8012 is week 12 of 1980; the board was made 1978 to 1983.

      Two digits are read as 1960 to 2059, so this is 1980 (no integrated circuit is older, from memory).

      *Source: the board file's era; common practice, no source*"
    `);
  });
});
