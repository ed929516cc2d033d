// What the shop file says of the checks, at the command line.
import { describe, expect, test } from "vitest";
import { BOARD, CLEAN, FAULTY, type Files, run, runJson } from "./memory";

const SHOP = "mendlog-shop: 1\nname: Test bench\n";
const bench = (checks: string): Files => ({
  "example.board.yaml": BOARD,
  "mendlog.shop.yaml": `${SHOP}checks:\n${checks}`,
  "logs/1.md": CLEAN,
  "logs/2.md": FAULTY,
});
const severities = async (files: Files, ...args: string[]) => {
  const { json } = await runJson(["logs", ...args], files);
  return json.files.flatMap(({ findings }) => findings.map(({ code, severity }) => `${severity} ${code}`));
};

describe("checks in the shop file", () => {
  const off = bench("  unknown-designator: { severity: off }\n");
  const hint = bench("  unknown-designator: { severity: hint }\n");

  test("weigh findings, and an option of the command comes before them", async () => {
    expect(await severities(bench(""))).toEqual(["warning unknown-designator"]);
    expect(await severities(hint)).toEqual(["hint unknown-designator"]);
    expect(await severities(off)).toEqual([]);
    expect(await severities(off, "--severity=unknown-designator=error")).toEqual([
      "error unknown-designator",
    ]);
    expect(await severities(off, "--severity=unknown-designator=default")).toEqual([
      "warning unknown-designator",
    ]);
    expect(await severities(off, "--severity=unknown-heading=error")).toEqual([]);
  });

  test("make the exit status", async () => {
    expect((await run(["check", "logs"], bench(""))).code).toBe(1);
    expect((await run(["check", "logs"], off)).code).toBe(0);
    expect(
      (await run(["check", "--fail-on=error", "logs"], bench("  unknown-designator: { severity: error }\n")))
        .code,
    ).toBe(1);
  });

  test("a number goes to the check, and an option of the command comes before it", async () => {
    const net = FAULTY.replace("U41", "U14").replace(
      /\| U14 \| 1 .*\n/,
      "| U14 | 3 | 0.500 |\n| U15 | 3 | 0.512 |\n",
    );
    const text = BOARD.replace(/^nets:\n/m, "nets:\n  JOINED: [U14.3, U15.3]\n");
    const files = (margin: string): Files => ({
      ...bench(`  net-disagreement: { margin: ${margin} }\n`),
      "example.board.yaml": text,
      "logs/2.md": net,
    });
    const told = async (files: Files, ...args: string[]) =>
      (await severities(files, ...args)).includes("warning net-disagreement");
    const [least, most] = ["0.1", "20"];
    const loose = await told(files(most));
    const tight = await told(files(least));
    expect([loose, tight]).toEqual([false, true]);
    expect(await told(files(most), `--option=net-disagreement.margin=${least}`)).toBe(true);
    expect(await told(files(least), `--option=net-disagreement.margin=${most}`)).toBe(false);
  });

  test("the nearest shop file counts", async () => {
    const { json } = await runJson(["."], { ...off, "logs/mendlog.shop.yaml": SHOP });
    const found = json.files.flatMap(({ findings }) =>
      findings.map(({ code, severity }) => `${severity} ${code}`),
    );
    expect(found).toEqual(["warning unknown-designator"]);
  });

  test.each([
    ["  unknown-desgnator: { severity: off }\n", "unknown-designator"],
    ["  unknown-designator: { severity: of }\n", "`off`"],
    ["  unknown-designator: { severty: off }\n", "severity"],
    ["  unknown-designator: off\n", "mapping"],
    ["  net-disagreement: { margin: 5000 }\n", "at most"],
    ["  net-disagreement: { margin: wide }\n", "number"],
  ])("%j is told at its place, and is left out", async (checks, says) => {
    const { json } = await runJson(["."], bench(checks));
    const [shop] = json.files.filter(({ path }) => path === "mendlog.shop.yaml");
    expect(shop?.findings).toHaveLength(1);
    const [finding] = shop!.findings;
    expect(finding).toMatchObject({ code: "knowledge-file-invalid", severity: "error" });
    expect(finding!.message).toContain(says);
    expect(finding!.start.line).toBe(4);
    expect(json.files.find(({ path }) => path === "logs/2.md")?.findings).toHaveLength(1);
  });
});
