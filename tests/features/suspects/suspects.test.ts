import { expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { logDiagnosisSteps } from "../../../server/src/features/shared/diagnosis";
import { suspectList } from "../../../server/src/features/suspects";
import { demoLogs, openDemo } from "../../support/demo";
import { openWorld } from "../../support/workspace";

const [URI = "", LOG = ""] = demoLogs.find(([each]) => each.endsWith("2026-018-controller.md")) ?? [];

async function demo(text = LOG) {
  const service = await openDemo();
  service.open(URI, text);
  const view = service.view(URI);
  if (!view) throw new Error("no log");
  return { service, view };
}

test("each suspect with its evidence, each piece of evidence at the reading it is about", async () => {
  const { service, view } = await demo();
  const list = suspectList(view);
  expect(
    list?.suspects
      .slice(0, 2)
      .map(({ name }) => name)
      .sort(),
  ).toEqual(["U12", "U14"]);
  const first = list?.suspects.find(({ name }) => name === "U12");
  expect(first).toMatchObject({ name: "U12", title: expect.stringContaining("74145") });
  expect(first?.share.how).toBe("about");
  expect(Number.isInteger(first?.share.percent)).toBe(true);
  const pin = first?.for.find(({ text }) => text.startsWith("U12 pin 3"));
  expect(LOG.slice(pin?.at).startsWith("1.42")).toBe(true);
  const board = first?.target;
  expect(
    service
      .text(board?.uri ?? "")
      ?.slice(board?.span.start)
      .startsWith("U12:"),
  ).toBe(true);
  for (const { text, at } of list?.suspects.flatMap(({ notTaken }) => notTaken) ?? [])
    if (at !== undefined) expect(LOG.slice(0, at).length, text).toBeLessThan(LOG.length);
});

test("the next reading says what to do, why, for how long, and where it stands", async () => {
  const { view } = await demo();
  const next = suspectList(view)?.next;
  expect(next?.action).toBe("Read U14 pin 7 again (GND), unpowered, pressing the chip and flexing the board");
  expect(next?.why).toMatch(
    /^This pin read in limits once and out of limits once, so a reading out of limits would speak for/,
  );
  expect(next?.minutes).toBeGreaterThan(0);
  expect(LOG.slice(0, next?.at)).toMatch(/\| *$/);
});

test("what is read under power says how to stay safe first", async () => {
  const { view } = await demo();
  const list = suspectList(view);
  for (const { action, cautions } of [list?.next, ...(list?.others ?? [])].flatMap((each) => each ?? [])) {
    if (/With power on|under power/.test(action)) expect(cautions.join()).toMatch(/licensed practice/);
    if (/With power off/.test(action)) expect(cautions.join()).toMatch(/discharged/);
  }
});

test("what the board's proving list still lacks is counted", async () => {
  const { view } = await demo();
  const list = suspectList(view);
  expect(list?.toProve).toBe(9);
  expect(list?.unproven.length).toBeGreaterThan(0);
  expect(list?.unproven.length).toBeLessThanOrEqual(9);
  for (const { title, wants } of list?.unproven ?? []) expect(`${title}${wants}`).not.toBe("");
});

test("without a word of a board there is no list, without findings an empty one that proves nothing", async () => {
  const nothing = "---\nmendlog: 1\nboard: nowhere\n---\n\nWords.\n";
  const none = await demo(nothing);
  expect(suspectList(none.view)).toBeUndefined();
  // What the log itself says of its board is enough for one.
  const stated = await demo(
    `${nothing}\n## Diode check U5 (7404)\n\n| Pin | Reading |\n|-|-|\n| 1 | 0.001 |\n`,
  );
  expect(suspectList(stated.view)?.suspects.map(({ name }) => name)).toEqual([
    "U5",
    expect.stringContaining("U5"),
  ]);
  const { service, files } = await openWorld(exampleLog("Words.\n"));
  const view = service.view(files[0]?.uri ?? "");
  const list = view && suspectList(view);
  expect(list?.suspects).toEqual([]);
  expect(list?.next).toBeUndefined();
  expect(list?.notes.join(" ")).toContain("Nothing was found wrong");
});

test("one whose diagnosis was begun and left is whole", async () => {
  const { view } = await demo(`${LOG}\n`);
  expect(logDiagnosisSteps(view).next().done).toBe(false);
  expect(suspectList(view)).toEqual(suspectList((await demo(`${LOG}\n`)).view));
  expect(suspectList(view)?.suspects.length).toBeGreaterThan(0);
});
