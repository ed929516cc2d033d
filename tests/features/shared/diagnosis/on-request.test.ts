// A keystroke must not diagnose: the diagnosis is counted here while a log is typed in.
import { beforeEach, expect, test, vi } from "vitest";
import { exampleLog } from "../../../../server/src/checks/example-board";

const made = vi.hoisted(() => ({ count: 0 }));
vi.mock("../../../../server/src/compute/diagnosis", async (original) => {
  const real = await original<typeof import("../../../../server/src/compute/diagnosis")>();
  return {
    ...real,
    diagnosisSteps: (...args: Parameters<typeof real.diagnosisSteps>) => {
      made.count += 1;
      return real.diagnosisSteps(...args);
    },
  };
});

const { diagnosisOf } = await import("../../../../server/src/features/shared/diagnosis");
const { lensesOf, lensTitle } = await import("../../../../server/src/features/code-lens");
const { openWorld } = await import("../../../support/workspace");

const TEXT = exampleLog(`Some words.

## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 2   | 1.42    |
| U15 | 3   | 0.58    |
`);
const URI = "mem:/ws/log.md";

beforeEach(() => {
  made.count = 0;
});

test("findings, lenses' places and typing make no diagnosis; asking makes one, once", async () => {
  const { service } = await openWorld(TEXT);
  const view = () => service.view(URI)!;
  for (const letter of "typing") {
    service.edit(URI, [
      { span: { start: TEXT.indexOf("words"), end: TEXT.indexOf("words") }, newText: letter },
    ]);
    service.findings(URI);
    expect(lensesOf(view()).length).toBeGreaterThanOrEqual(2);
  }
  expect(made.count).toBe(0);
  const titles = lensesOf(view()).map((lens) => lensTitle(view(), lens)?.title ?? "");
  expect(titles.filter((title) => title.includes("U14"))).toHaveLength(2);
  diagnosisOf(view());
  expect(made.count).toBe(1);
});

test("words elsewhere keep the diagnosis, a reading makes another", async () => {
  const { service } = await openWorld(TEXT);
  const view = () => service.view(URI)!;
  const title = () => lensesOf(view()).map((lens) => lensTitle(view(), lens)?.title);
  const before = title();
  service.open(URI, TEXT.replace("Some words.", "Some other words,\n\nmany of them."));
  expect(title()).toEqual(before);
  expect(made.count).toBe(1);
  service.open(URI, TEXT.replace("0.58", "OL"));
  expect(title().filter((each) => /^2 findings here point to/.test(each ?? ""))).toHaveLength(1);
  expect(made.count).toBe(2);
});
