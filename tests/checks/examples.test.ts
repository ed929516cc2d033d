import { describe, expect, test } from "vitest";
import { CHECKS } from "../../server/src/checks/registry";
import { applyEdits } from "../../server/src/text/edits";
import { checkFindings, openWorld } from "../support/workspace";

// Every check's own examples: the bad ones give exactly the findings marked in them, the good ones none at all.
describe.each(CHECKS.map((check) => [check.code, check] as const))("%s", (code, check) => {
  test.each(check.examples.bad.map((example, i) => [i, example] as const))(
    "bad example %i",
    async (_, example) => {
      const found = [...(await checkFindings(example)).values()].flat();
      expect(found.filter((finding) => finding.code === code)).not.toHaveLength(0);
    },
  );

  test.each(check.examples.good.map((example, i) => [i, example] as const))(
    "good example %i",
    async (_, example) => {
      const found = await checkFindings(example);
      expect([...found.values()].flat()).toEqual([]);
    },
  );

  if (check.fixes) {
    test("its fix makes the finding go away in at least one bad example", async () => {
      let mended = 0;
      for (const example of check.examples.bad) {
        const { service, files } = await openWorld(example);
        for (const { uri, marked } of files) {
          const finding = service.findings(uri).find((f) => f.code === code);
          const fix = finding && service.fixes(uri, finding)[0];
          // What a board's other logs are asked for is done by a command, and has tests of its own.
          if (!fix || fix.asks) continue;
          const before = service.findings(uri).filter((f) => f.code === code).length;
          service.open(uri, applyEdits(marked.text, fix.edits));
          for (const { uri: other, text, edits } of fix.elsewhere ?? [])
            service.open(other, applyEdits(text, edits));
          const after = service.findings(uri).filter((f) => f.code === code).length;
          expect(after).toBe(before - 1);
          mended += 1;
        }
      }
      expect(mended).toBeGreaterThan(0);
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
