// The reports of the demo's returned jobs, and one of a job still being proven, as they are written. The golden files
// were looked at in a browser; UPDATE_GOLDEN=1 writes them again, to be looked at again.
import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { ownerHtml, ownerJson, ownerMarkdown, ownerReport } from "../../../server/src/report/owner";
import { demoText, openDemo } from "../../support/demo";

const GOLDEN = fileURLToPath(new URL("./golden/", import.meta.url));

async function reportOf(name: string) {
  const service = await openDemo();
  const uri = `mem:/demo/logs/${name}.md`;
  service.open(uri, demoText(uri));
  return ownerReport(service.view(uri)!);
}

function expectGolden(file: string, text: string): void {
  if (process.env.UPDATE_GOLDEN) writeFileSync(GOLDEN + file, text);
  expect(text).toBe(readFileSync(GOLDEN + file, "utf8"));
}

describe.each(["2026-004-controller", "2025-087-driver", "2026-011-controller"])("%s", (name) => {
  test.each([
    ["html", ownerHtml],
    ["md", ownerMarkdown],
    ["json", ownerJson],
  ] as const)("as %s", async (ending, write) => {
    expectGolden(`${name}.${ending}.golden`, write(await reportOf(name)));
  });
});
