// A check's code stands in its file, which has its name, and in the list of codes, from which the registry is made.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import type { CheckCode } from "../../server/src/checks/check";
import { CHECKS, checkOf } from "../../server/src/checks/registry";
import type { JudgementCode } from "../../server/src/judge/codes";

const FOLDER = fileURLToPath(new URL("../../server/src/checks", import.meta.url));

test("every file with a check is named by its code and stands in the registry", () => {
  const inFiles = readdirSync(FOLDER).flatMap((name) => {
    const code = /^ {2}code: "(.*)",$/m.exec(readFileSync(join(FOLDER, name), "utf8"))?.[1];
    if (code !== undefined) expect(name).toBe(`${code}.ts`);
    return code ?? [];
  });
  expect(inFiles.sort()).toEqual(CHECKS.map(({ code }) => code).sort());
});

test("a code that no check has does not compile, and is found of none", () => {
  // @ts-expect-error two letters swapped
  const judged: JudgementCode = "diode-out-of-windwo";
  // @ts-expect-error no judge gives it: it is found in the whole log
  const notJudged: JudgementCode = "shared-net-fault";
  // @ts-expect-error a letter left out
  const misspelt: CheckCode = "shard-net-fault";
  expect([judged, notJudged, misspelt].map((code) => checkOf(code)?.code)).toEqual([
    undefined,
    "shared-net-fault",
    undefined,
  ]);
});
