// What was found before a repair and read right after it is history.
import { describe, expect, test } from "vitest";
import { textOf } from "../../server/src/checks/example";
import { exampleLog } from "../../server/src/checks/example-board";
import { CHECKS } from "../../server/src/checks/registry";
import { openWorld } from "../support/workspace";

const HEAD = "| Ref | Pin | Reading |\n|-----|-----|---------|\n";
const WORK = "## Work done\n\n| Ref | Action | Part |\n|---|---|---|\n| U14 | replaced | 74LS04 |\n\n";
const diode = (heading: string, ...rows: readonly string[]) =>
  `## ${heading}\n\n${HEAD}${rows.map((row) => `| ${row} |\n`).join("")}\n`;

const found = async (body: string) => {
  const { service } = await openWorld(exampleLog(body));
  return service.findings("mem:/ws/log.md").map(({ code, severity, message, related }) => ({
    code,
    severity,
    message,
    related,
  }));
};
const short = async (body: string) => (await found(body)).map(({ code, severity }) => `${code} ${severity}`);

describe("a finding before the repair", () => {
  test("is a hint that names the later reading, and what it said stays", async () => {
    const [only, ...more] = await found(
      diode("Diode check before repair", "U14 | 4 | OL") +
        WORK +
        diode("Diode check after repair", "U14 | 4 | 0.56"),
    );
    expect(more).toEqual([]);
    expect(only).toMatchObject({ code: "diode-out-of-window", severity: "hint" });
    expect(only?.message).toMatch(/^U14 pin 4 .* reads open.*Settled: 0\.56 after the repair\./);
    expect(only?.related?.[0]?.message).toBe("within limits after the repair: 0.56");
  });

  test("needs no words in the headings where the work stands between", async () => {
    const log = diode("Diode check", "U14 | 4 | OL") + WORK + diode("Diode check again", "U14 | 4 | 0.56");
    expect(await short(log)).toEqual(["diode-out-of-window hint"]);
  });

  test("of a rail is settled under the same load only", async () => {
    const rails = (heading: string, value: string) =>
      `## ${heading}\n\n| Rail | Reading |\n|---|---|\n| +5V | ${value} |\n\n`;
    const before = rails("Supply rails, loaded", "4.2 V") + WORK;
    expect(await short(before + rails("Supply rails, loaded, after repair", "5.01 V"))).toContain(
      "rail-out-of-tolerance hint",
    );
    expect(await short(before + rails("Supply rails, unloaded, after repair", "5.01 V"))).toContain(
      "rail-out-of-tolerance warning",
    );
  });

  test("of two pins of a net is settled where both were read right", async () => {
    const before = diode("Diode check before repair", "U14 | 2 | 0.45", "U15 | 1 | 0.68") + WORK;
    expect(
      await short(before + diode("Diode check after repair", "U14 | 2 | 0.55", "U15 | 1 | 0.56")),
    ).toEqual(["net-disagreement hint"]);
    for (const one of ["U14 | 2 | 0.55", "U15 | 1 | 0.56"])
      expect(await short(before + diode("Diode check after repair", one))).toContain(
        "net-disagreement warning",
      );
  });
});

describe("near miss: it stands", () => {
  test.each([
    ["another pin was read after", diode("Diode check after repair", "U14 | 6 | 0.56")],
    ["it was read wrong after", diode("Diode check after repair", "U14 | 4 | 1.5")],
    ["it was not measured after", diode("Diode check after repair", "U14 | 4 | -", "U14 | 6 | 0.56")],
    [
      "it was read right and wrong after",
      diode("Diode check after repair", "U14 | 4 | 0.56", "U14 | 4 | OL"),
    ],
  ])("%s", async (_, after) => {
    const all = await short(diode("Diode check before repair", "U14 | 4 | OL") + WORK + after);
    expect(all[0]).toBe("diode-out-of-window warning");
  });

  test("it was read again without a repair between", async () => {
    const log = diode("Diode check", "U14 | 4 | OL") + diode("Diode check again", "U14 | 4 | 0.56");
    expect(await short(log)).toEqual(["diode-out-of-window warning"]);
  });

  test("it was right before and is wrong after", async () => {
    const log =
      diode("Diode check before repair", "U14 | 4 | 0.56") +
      WORK +
      diode("Diode check after repair", "U14 | 4 | OL");
    expect(await short(log)).toEqual(["diode-out-of-window warning"]);
  });
});

test("a check whose findings readings of each pin settle names the pins in all of them", async () => {
  const checks = CHECKS.filter(({ settledBy }) => settledBy === "later-reading-of-each-pin");
  expect(checks.length).toBeGreaterThan(0);
  for (const { code, examples } of checks) {
    for (const example of examples.bad) {
      const { service, files } = await openWorld(textOf(example));
      const own = files
        .flatMap(({ uri }) => service.findings(uri))
        .filter((finding) => finding.code === code);
      expect(own.length).toBeGreaterThan(0);
      for (const { data } of own) expect((data as { pins?: string[] }).pins?.length).toBeGreaterThan(0);
    }
  }
});

test("a comment that hides what is settled is not needless", async () => {
  const log = `## Diode check before repair\n\n<!-- mendlog-allow diode-out-of-window: U14 was replaced for it -->\n\n${HEAD}| U14 | 4 | OL |\n\n${WORK}${diode("Diode check after repair", "U14 | 4 | 0.56")}`;
  expect(await short(log)).toEqual([]);
});
