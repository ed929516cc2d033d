// Matrix crossings, switch banks, ROM figures, failing bits and date codes under the pointer.
import { describe, it } from "vitest";
import { checkHover } from "../../support/features";

const log = (body: string) => `---\nmendlog: 1\nboard: example\nreceived: 2026-03-02\n---\n\n${body}`;

describe("a crossing", () => {
  it("tells what the tests say of its lines", async () => {
    await checkHover(
      log(
        "## Switch matrix\n\n| Row / column | 1 | 2 | 3 |\n|-|-|-|-|\n| 1 | ok | ok | ok |\n| 2 | de$0ad | dead | dead |\n",
      ),
      "dead",
      "**Gate** · row 2 (SW\\_ROW\\_2), column 1 (SW\\_COL\\_1)",
      "All 3 crossings tested on row 2",
    );
  });

  it("is to be cleared where parts on both of its lines have failed, the caution first", async () => {
    const text = await checkHover(
      log(
        "## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U30 | 1 | 1.42 |\n| U31 | 2 | OL |\n\n## Switch matrix\n\n| Row | Column | Result |\n|-|-|-|\n| 1 | 2 | de$0ad |\n",
      ),
      "dead",
      "⚠ **Caution:** Mains off",
      "**To clear in the machine:**",
      "U30 pin 1 reads 1.42",
    );
    if (text.indexOf("Caution") > text.indexOf("To clear"))
      throw new Error("the caution stands behind the work");
  });

  it("has its matrix counted in the heading", async () => {
    await checkHover(
      log("## Switch mat$0rix\n\n| Row | Column | Result |\n|-|-|-|\n| 1 | 2 | ok |\n"),
      "Switch matrix",
      "2 of 6 rows and columns have answered",
      "Reserved by the board file, never to be bridged: row 3, column 3 (Clear memory)",
    );
  });
});

describe("a switch", () => {
  it("tells its setting first, then the bank's others", async () => {
    await checkHover(
      log("## Settings\n\n| Bank | 1 | 2 | 3 |\n|-|-|-|-|\n| SW1 | off | on | of$0f |\n"),
      "off",
      "- **Music: silent (switches 3 at 0)**\n- Coins: two coins (switches 1, 2 at 01)",
    );
  });

  it("leaves open what is not noted", async () => {
    await checkHover(
      log("## Settings\n\n| Bank | Switch | State |\n|-|-|-|\n| SW1 | 2 | o$0n |\n"),
      "on",
      "Coins: still open: two coins or free play (switches 1, 2 at ?1)",
    );
  });
});

describe("a ROM figure", () => {
  it("is held against every set", async () => {
    await checkHover(
      log("## ROM check\n\n| Ref | CRC-32 | Sum |\n|-|-|-|\n| U34 | 9d1f$04c72 | 6b3e |\n"),
      "9d1f4c72",
      "- first (First release, revision A): agrees in 16-bit sum, differs in CRC-32",
      "- second (Second release, revision B): agrees in CRC-32, differs in 16-bit sum",
      "the board may see something else",
    );
  });
});

describe("failing bits", () => {
  it("name the data lines and the chip, and prove nothing", async () => {
    await checkHover(
      log("## Memory test\n\n| Ref | Wrote | Read | Result |\n|-|-|-|-|\n| U33 | A | $08 | fail |\n"),
      "8",
      "Wrote A, read 8: bits 1 differ.",
      "Came back wrong: D5, on U33.",
    );
    await checkHover(
      log("## Memory test\n\n| Ref | Wrote | Read | Result |\n|-|-|-|-|\n| U33 | A | $0A | pass |\n"),
      "A",
      "That does not prove the chip.",
    );
  });
});

describe("a date code", () => {
  it("tells its week and how it stands to the board's years", async () => {
    await checkHover(
      log("## Inspection\n\n| Item | Result | Note |\n|-|-|-|\n| Date codes | ok | 7931 to 80$012 |\n"),
      "8012",
      "8012 is week 12 of 1980; the board was made 1978 to 1983.",
    );
  });
});
