import { describe, expect, test } from "vitest";
import { fixesIn, madeBy, textOf } from "../../server/src/checks/example";
import { CHECKS } from "../../server/src/checks/registry";
import { nameOfBad, nameOfGood } from "../support/example-name";
import { everyFix } from "../support/mended";
import { checkFindings } from "../support/workspace";

// Every check's own examples: the bad ones give exactly the findings marked in them and the fixes shown with them, the
// good ones none at all.
describe.each(CHECKS.map((check) => [check.code, check] as const))("%s", (code, check) => {
  test.each(check.examples.bad.map((example) => [nameOfBad(code, example), textOf(example)] as const))(
    "tells of %s",
    async (_, example) => {
      const found = [...(await checkFindings(example)).values()].flat();
      expect(found.filter((finding) => finding.code === code)).not.toHaveLength(0);
    },
  );

  test.each(check.examples.good.map((example) => [nameOfGood(example), example] as const))(
    "leaves alone %s",
    async (_, example) => {
      const found = await checkFindings(example);
      expect([...found.values()].flat()).toEqual([]);
    },
  );

  if (check.fixes) {
    test("each fix is shown in an example with what it makes, and takes its finding away", async () => {
      const kinds = new Set<string>();
      for (const example of check.examples.bad) {
        const shown = fixesIn(example);
        const answerTo = (title: string) => shown.find((fix) => fix.title === title)?.answer;
        const offered = await everyFix(check, textOf(example), answerTo);
        const differing = [...new Map(offered.map((one) => [`${one.title}\n${one.makes}`, one])).values()];
        expect(differing.map(({ title, makes }) => ({ title, makes }))).toEqual(
          shown.map((fix) => ({ title: fix.title, makes: madeBy(fix) })),
        );
        for (const [at, { kind, before, after }] of differing.entries()) {
          expect(after).toBe(shown[at]?.leaves ?? before - 1);
          kinds.add(kind);
        }
      }
      expect(kinds.size).toBeGreaterThan(0);
      expect([...kinds].sort()).toEqual(Object.keys(check.fixes ?? {}).sort());
    });
  } else {
    test("says why it has no fix", () => {
      expect(check.noFix).toMatch(/\w.*\.$/);
    });
  }
});

test("every code is unique, kebab-case and documented", () => {
  expect(new Set(CHECKS.map((check) => check.code)).size).toBe(CHECKS.length);
  for (const check of CHECKS) {
    expect(check.code).toMatch(/^[a-z]+(-[a-z]+)*$/);
    expect(check.title).toMatch(/^[A-Z]/);
    expect(check.why).toMatch(/\.$/);
    expect(check.remedy).toMatch(/\.$/);
  }
});
