// Before and after stand side by side in the owner's report, and what was tried and failed is in it.
import { expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { inlineImages, ownerHtml, ownerReport } from "../../../server/src/report/owner";
import { openWorld } from "../../support/workspace";

const PNG = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 0);

async function reportOf(body: string) {
  const { service } = await openWorld(exampleLog(body));
  return ownerReport(service.view("mem:/ws/log.md")!);
}

test("the one of after stands beside the one of before, wherever it is in the log", async () => {
  const report = await inlineImages(
    await reportOf("![U14 before](a.png)\n\n![J3](b.png)\n\n![U14 after](photos/c%20d.png)\n"),
    async () => ({ ok: true, bytes: PNG }),
  );
  expect(report.images.map(({ source, when }) => [source, when])).toEqual([
    ["a.png", "before"],
    ["photos/c%20d.png", "after"],
    ["b.png", undefined],
  ]);
  const page = ownerHtml(report);
  expect(page.match(/<div class="pair">\n(?:<figure>.*<\/figure>\n){2}<\/div>/g)).toHaveLength(1);
  expect(page.match(/<figure><img /g)).toHaveLength(3);
});

test("of a pair that cannot be shown the words stand there, and every element is closed", async () => {
  const report = await inlineImages(
    await reportOf("![U14 before](a.png)\n\n![U14 after](b.png)\n"),
    async (path) => (path === "a.png" ? { ok: true, bytes: PNG } : { ok: false, reason: "absent" }),
  );
  const page = ownerHtml(report);
  expect(page).toContain("Left out: b.png, because it is not there.");
  expect(page.match(/<div/g)?.length).toBe(page.match(/<\/div>/g)?.length);
});

test("what a test program, an output, a beep and a game showed is told; what did not fail is not", async () => {
  const page = ownerHtml(
    await reportOf(`## Continuity

| From  | To    | Reading |
|-------|-------|---------|
| U14-2 | U15-1 | no beep |

## Test program

| Test  | Code |
|-------|------|
| run 1 | E 3  |

## Coils fired

| Coil | Driver | Result |
|------|--------|--------|
| Gate | Q5     | dead   |
| Bell |        | fires  |

## Play test

| Game   | Result |
|--------|--------|
| game 1 | fail   |
`),
  );
  for (const words of ["no beep", "E 3", "dead", "game 1"]) expect(page).toContain(words);
  expect(page).not.toContain("Bell");
  expect(page).not.toMatch(/no test that did not work/i);
});
