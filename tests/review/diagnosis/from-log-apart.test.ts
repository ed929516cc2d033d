// A log is read for what was pulled, lifted and cut while its readings were taken.
import { describe, expect, test } from "vitest";
import { BUS_BOARD, having } from "../../support/boards";
import { diagnosedOn } from "../../support/diagnosed";
import { header, rows, table } from "../../support/tables";

const BOARD = having(BUS_BOARD, {
  parts: { U15: "{ device: 74LS04 }" },
  nets: { OTHER: "[U15.1, U14.3]" },
});
const HEAD = header("Ref | Pin | Reading | Note");
const LOW = `## Diode check\n\n${HEAD}${rows("U12 | 1 | 0.118 |  ", "U13 | 1 | 0.12 |  ")}\n`;

async function diagnosed(body: string) {
  const found = await diagnosedOn(BOARD, body);
  return { ...found, reasons: found.result.conflicts.map(({ reason }) => reason) };
}

const lifts = async (body: string) =>
  (await diagnosed(body)).input.findings.filter(({ kind }) => kind === "lift");

describe("a chip that was out", () => {
  test("is one of several before it was", async () => {
    expect((await diagnosed(LOW)).share("U12")).toBeLessThan(0.6);
  });

  const again = (...lines: readonly string[]) => `## Diode check again\n\n${HEAD}${rows(...lines)}`;
  const PULLED = table("Work done", "Ref | Action", "U12 | pulled");
  test.each([
    ["the note", again("U13 | 1 | 0.56 | U12 out")],
    ["the heading", `## Diode check, U12 pulled\n\n${HEAD}${rows("U13 | 1 | 0.56 |  ")}`],
    ["the heading of a wide table", table("Diode check with U12 out of its socket", "Pin | U13", "1 | 0.56")],
    ["the work before", PULLED + again("U13 | 1 | 0.56 |  ")],
    ["the note of its own socket", again("U12 | 1 | 0.56 | U12 out, read at the socket")],
  ])("and the net came back: it is that chip, said in %s", async (_where, after) => {
    const { input, share, reasons, result } = await diagnosed(LOW + after);
    expect(input.findings).toContainEqual({ kind: "lift", ref: "U12", net: "BUS", cleared: true });
    expect(share("U12")).toBeGreaterThan(0.9);
    expect(result.ranked[0]?.suspect.id).toBe("U12");
    expect(reasons).toContain("BUS came back with U12 off it.");
    // The whole net still reads low: what was read without the chip is no second opinion of it.
    expect(input.withinLimits).toEqual([]);
  });

  test("and the net stayed low: it is one of the others", async () => {
    const { input, share, reasons, result } = await diagnosed(
      `${LOW}## Diode check again\n\n${HEAD}${rows("U13 | 1 | 0.119 | U12 out")}`,
    );
    expect(input.findings).toContainEqual({ kind: "lift", ref: "U12", net: "BUS", cleared: false });
    expect(share("U12")).toBeLessThan(0.1);
    expect(result.ranked[0]?.suspect.id).not.toBe("U12");
    expect(reasons.some((reason) => reason.includes("(so with U12 off it)"))).toBe(true);
  });

  test("with another: one of the two", async () => {
    const { share } = await diagnosed(
      `${LOW}## Diode check again\n\n${HEAD}${rows("U14 | 1 | 0.56 | U12 and U13 out")}`,
    );
    expect(share("U12") + share("U13")).toBeGreaterThan(0.9);
    expect(share("U14")).toBeLessThan(0.1);
  });

  test("with another, and the net stayed low: both were off it, and neither is the cause", async () => {
    const { input, share } = await diagnosed(LOW + again("U14 | 1 | 0.119 | U12 and U13 out"));
    for (const ref of ["U12", "U13"])
      expect(input.findings).toContainEqual({ kind: "lift", ref, net: "BUS", cleared: false });
    expect(share("U12")).toBeLessThan(0.1);
    expect(share("U13")).toBeLessThan(0.1);
  });

  test("says nothing of a net it is not on, nor where the net never read low", async () => {
    expect(
      await lifts(`## Diode check\n\n${HEAD}${rows("U15 | 1 | 0.1 | U12 out", "U14 | 3 | 0.1 | U12 out")}`),
    ).toEqual([]);
    expect(await lifts(`## Diode check\n\n${HEAD}${rows("U13 | 1 | 0.56 | U12 out")}`)).toEqual([]);
  });

  test("an empty socket that reads open accuses nobody", async () => {
    const { input } = await diagnosed(`## Diode check\n\n${HEAD}${rows("U12 | 1 | OL | U12 out")}`);
    expect(input.findings).toEqual([]);
  });

  test.each([
    [
      "put back in the work",
      table("Work done", "Ref | Action", "U12 | pulled", "U12 | put back") + again("U13 | 1 | 0.56 |  "),
    ],
    ["read itself", PULLED + again("U12 | 1 | 0.56 |  ", "U13 | 1 | 0.56 |  ")],
  ])("%s, it is in again", async (_how, after) => {
    expect(await lifts(LOW + after)).toEqual([]);
  });
});

test("where the low reading may have been a slip, so may what a pulled chip did to it", async () => {
  const one = `## Diode check\n\n${HEAD}${rows("U13 | 1 | 0.12 |  ")}\n`;
  const after = `## Diode check again\n\n${HEAD}${rows("U13 | 1 | 0.56 | U12 out")}`;
  const [once, twice] = [await diagnosed(one + after), await diagnosed(LOW + after)];
  expect(once.result.ranked[0]?.suspect.id).toBe("U12");
  expect(once.share("U12")).toBeLessThan(twice.share("U12"));
});

describe("a lifted pin", () => {
  test("that reads wrong by itself is its chip", async () => {
    const { share, reasons } = await diagnosed(
      `${LOW}## Diode check again\n\n${HEAD}${rows("U13 | 1 | 0.119 | pin lifted")}`,
    );
    expect(share("U13")).toBeGreaterThan(0.9);
    expect(reasons).toContain("U13 pin 1 reads low with its leg lifted.");
  });

  test("that reads right by itself is not what pulls its net", async () => {
    const before = await diagnosed(LOW);
    const { share, reasons, input } = await diagnosed(
      `${LOW}## Diode check again\n\n${HEAD}${rows("U13 | 1 | 0.56 | pin lifted")}`,
    );
    expect(share("U13")).toBeLessThan(before.share("U13") / 3);
    expect(reasons.some((reason) => reason.includes("(U13's leg by itself does not)"))).toBe(true);
    expect(input.withinLimits).toEqual([]);
  });

  test("read at its pad is the net without it", async () => {
    const found = await lifts(
      `${LOW}## Diode check again\n\n${HEAD}${rows("U13 | 1 | 0.56 | pin lifted, at the pad")}`,
    );
    expect(found).toEqual([{ kind: "lift", ref: "U13", net: "BUS", cleared: true }]);
  });

  test("named for another row takes that chip off the row's net", async () => {
    const found = await lifts(
      `${LOW}## Diode check again\n\n${HEAD}${rows("U12 | 1 | 0.56 | U13 pin 1 lifted")}`,
    );
    expect(found).toEqual([{ kind: "lift", ref: "U13", net: "BUS", cleared: true }]);
    // Pin 3 of U14 is on another net.
    expect(
      await lifts(`${LOW}## Diode check again\n\n${HEAD}${rows("U12 | 1 | 0.119 | U14 pin 3 lifted")}`),
    ).toEqual([]);
  });
});

describe("a cut track", () => {
  test("between two pins leaves the other end off", async () => {
    const found = await lifts(
      `${LOW}## Diode check again\n\n${HEAD}${rows("U12 | 1 | 0.56 | track cut between U12.1 and U13.1")}`,
    );
    expect(found).toEqual([{ kind: "lift", ref: "U13", net: "BUS", cleared: true }]);
  });

  test("somewhere nobody named says nothing of the parts", async () => {
    const { input } = await diagnosed(
      `${LOW}## Diode check again\n\n${HEAD}${rows("U12 | 1 | 0.56 | track cut")}`,
    );
    expect(input.findings.filter(({ kind }) => kind === "lift")).toEqual([]);
    expect(input.withinLimits).toEqual([]);
  });
});

test("a part replaced afterwards makes what was read without it history", async () => {
  const { input } = await diagnosed(
    `${LOW}## Diode check again\n\n${HEAD}${rows("U13 | 1 | 0.56 | U12 out")}\n## Work done\n\n| Ref | Action | Part |\n|---|---|---|\n| U12 | replaced | 74LS04 |\n`,
  );
  expect(input.findings).toEqual([]);
});

test("a level under power is read the same way", async () => {
  const levels = "## Logic levels\n\n| Ref | Pin | Reading | Note |\n|---|---|---|---|\n";
  const before = await diagnosed(`${levels}${rows("U13 | 1 | 1.4 V |  ")}`);
  const { input, share, result } = await diagnosed(
    `${levels}${rows("U13 | 1 | 1.4 V |  ", "U13 | 1 | 3.4 V | U12 out")}`,
  );
  expect(input.findings).toContainEqual({ kind: "lift", ref: "U12", net: "BUS", cleared: true });
  expect(result.ranked[0]?.suspect.id).toBe("U12");
  expect(share("U12")).toBeGreaterThan(before.share("U12"));
});
