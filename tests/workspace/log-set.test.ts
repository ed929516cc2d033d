import { describe, expect, test } from "vitest";
import { statusOf } from "../../server/src/features/jobs/status";
import { completionsAt, hoverAt, tokensIn } from "../../server/src/protocol/features";
import { openWorld } from "../support/workspace";

const LOG = "mem:/ws/log.md";

const FILES = `//- driver.board.yaml
mendlog-board: 1
id: driver-1
title: Driver board
rails: { "+5V": { nominal: 5 V, tolerance: 5 % }, AUX: { nominal: 8 V, tolerance: 5 % } }
parts:
  U1: { device: "7407", note: of the driver }
  Q7: { device: TIP102 }
symptoms:
  coil-stuck: { title: Coil stuck }
proving:
  - { id: soak, title: Soak of the driver, procedure: soak }
//- lamps.board.yaml
mendlog-board: 1
id: lamps-1
title: Lamp board
rails: { AUX: { nominal: 12 V, tolerance: 5 % } }
parts:
  U1: { device: "7404", note: of the lamps }
symptoms:
  lamps-dark: { title: Lamps dark }
proving:
  - { id: soak, title: Soak of the lamps, procedure: soak }
  - { id: rails, title: Rails of the lamps, procedure: supply-rails }
//- log.md
`;

const front = (more = "") => `---
mendlog: 1
job: "7"
boards:
  driver: driver-1
  lamps: { board: lamps-1, serial: "0042" }
${more}---

# A pair

`;

describe("a log about several boards", () => {
  test("judges each section by its own board", async () => {
    const { service } = await openWorld(
      `${FILES}${front()}## Driver

### Supply rails

| Rail | Reading |
|------|---------|
| AUX  | 8.00 V  |

## Lamps

### Supply rails

| Rail | Reading |
|------|---------|
| AUX  | 8.00 V  |
| +5V  | 5.00 V  |
`,
    );
    const text = service.text(LOG) ?? "";
    const found = service
      .findings(LOG)
      .map(({ code, span }) => [code, text.slice(0, span.start).split("\n").length]);
    expect(found.filter(([code]) => code === "rail-out-of-tolerance")).toEqual([
      ["rail-out-of-tolerance", 25],
    ]);
    // The lamp board's file has no +5V.
    expect(found).toContainEqual(["not-in-board-file", 26]);
  });

  test("a symptom is of the boards that know it, and one that none knows is told once", async () => {
    const { service } = await openWorld(
      `${FILES}${front("symptoms: [coil-stuck, lamps-dark, dead-lane]\n")}## Driver\n\n## Lamps\n`,
    );
    expect(service.view(LOG)?.set?.map((one) => one.front.symptoms)).toEqual([
      ["coil-stuck", "dead-lane"],
      ["lamps-dark", "dead-lane"],
    ]);
    const unknown = service.findings(LOG).filter(({ code }) => code === "unknown-symptom");
    expect(unknown.map(({ message }) => /"(.*?)"/.exec(message)?.[1])).toEqual(["dead-lane"]);
  });

  test("what is open of one board is told by its name", async () => {
    const { service } = await openWorld(
      `${FILES}${front("stage: returned\nreturned: 2026-04-01\n")}## Driver\n\n### Soak\n\n| Item | Result |\n|---|---|\n| Soak of the driver | ok |\n\n## Lamps\n`,
    );
    const open = service.findings(LOG).filter(({ code }) => code === "returned-unproven");
    expect(open.map(({ message }) => message.split(":")[0])).toEqual(expect.arrayContaining(["lamps"]));
    expect(new Set(open.map(({ message }) => message)).size).toBe(open.length);
  });

  test("an id that no file has is told at its own entry", async () => {
    const { service } = await openWorld(
      `${FILES}${front().replace("lamps-1", "lmaps-1")}## Driver\n\n## Lamps\n`,
    );
    const text = service.text(LOG) ?? "";
    const found = service.findings(LOG).filter(({ code }) => code === "unknown-board");
    expect(found.map(({ span }) => text.slice(span.start, span.end))).toEqual(["lmaps-1"]);
    expect(service.fixes(LOG, found[0]!).map(({ title }) => title)).toEqual(["Change to lamps-1"]);
  });

  test("hover, completion and colours ask the board of the section", async () => {
    const { service } = await openWorld(
      `${FILES}${front()}## Driver\n\n### Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U1 | 1 | 0.6 |\n|  | | |\n\n## Lamps\n\n### Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U1 | 1 | 0.6 |\n|  | | |\n`,
    );
    const text = service.text(LOG) ?? "";
    const first = text.indexOf("| U1 |") + 2;
    const second = text.lastIndexOf("| U1 |") + 2;
    expect(hoverAt(service, LOG, first)?.markdown).toMatch(/7407/);
    expect(hoverAt(service, LOG, second)?.markdown).toMatch(/7404/);
    const offered = (at: number) => completionsAt(service, LOG, at).map(({ label }) => label);
    expect(offered(text.indexOf("|  | | |") + 2)).toContain("Q7");
    expect(offered(text.lastIndexOf("|  | | |") + 2)).not.toContain("Q7");
    const tokens = tokensIn(service, LOG) ?? [];
    const starts = tokens.map(({ span }) => span.start);
    expect(starts).toEqual([...new Set(starts)].sort((a, b) => a - b));
    expect(starts).toEqual(expect.arrayContaining([first, second]));
  });

  test("short names are free, and ids are offered behind them", async () => {
    const { service } = await openWorld(
      `${FILES}---\nmendlog: 1\nboards:\n  driver: \n  lamps: lamps-1\n---\n\n## Lamps\n`,
    );
    const text = service.text(LOG) ?? "";
    const at = text.indexOf("driver:") + "driver: ".length;
    expect(completionsAt(service, LOG, at).map(({ label }) => label)).toEqual(
      expect.arrayContaining(["driver-1", "lamps-1"]),
    );
    expect(hoverAt(service, LOG, text.indexOf("lamps-1"))?.markdown).toMatch(/Lamp board/);
  });

  test("a keystroke in one board's section leaves the other board's context as it is", async () => {
    const { service } = await openWorld(
      `${FILES}${front()}## Driver\n\n### Diode check U1\n\n| Pin | Reading |\n|---|---|\n| 1 | 0.6 |\n\n## Lamps\n\n### Diode check U1\n\n| Pin | Reading |\n|---|---|\n| 1 | 0.6 |\n`,
    );
    const before = service.view(LOG);
    const at = (service.text(LOG) ?? "").indexOf("0.6") + 3;
    service.edit(LOG, [{ span: { start: at, end: at }, newText: "1" }]);
    const after = service.view(LOG);
    expect(after).not.toBe(before);
    expect(after?.ctx).toBe(before?.ctx);
    expect(after?.set?.map(({ ctx }) => ctx)).toEqual(before?.set?.map(({ ctx }) => ctx));
    for (const [i, one] of (after?.set ?? []).entries()) expect(one.ctx).toBe(before?.set?.[i]?.ctx);
    // Only the block that was typed in is another one.
    const blocks = new Set(before?.doc.blocks.map(({ block }) => block));
    expect(after?.doc.blocks.filter(({ block }) => !blocks.has(block))).toHaveLength(1);
  });

  test("its state is that of all of it", async () => {
    const { service } = await openWorld(`${FILES}${front("stage: proving\n")}## Driver\n\n## Lamps\n`);
    const status = statusOf(service.view(LOG)!, { today: "2026-04-01", oldAfterDays: 30 });
    expect(status).toMatchObject({ toProve: 3, unproven: 3, failed: 0 });
    expect(status.next).toMatch(/^driver: Soak of the driver/);
  });

  test("what one board's log says of its chips is not said of the other", async () => {
    const { service } = await openWorld(
      `---\nmendlog: 1\nboards: { a: one, b: two }\n---\n\n## A\n\n### Diode check U5 (7404)\n\n| Pin | Reading |\n|---|---|\n| 1 | 0.6 |\n\n## B\n\n### Diode check U5 (7400)\n\n| Pin | Reading |\n|---|---|\n| 1 | 0.6 |\n`,
    );
    expect(service.view(LOG)?.set?.map(({ ctx }) => ctx.board?.value.parts.get("U5")?.device)).toEqual([
      "7404",
      "7400",
    ]);
    expect(service.findings(LOG).filter(({ code }) => code === "stated-twice")).toEqual([]);
  });
});
