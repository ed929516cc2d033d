// What was found in closed logs, given again at the next start: it is what a start without anything kept finds.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { layerOf } from "../../server/build/layers.js";
import { EXAMPLE_BOARD } from "../../server/src/checks/example-board";
import { DEFAULT_SETTINGS } from "../../server/src/checks/run";
import { Service } from "../../server/src/service";
import type { FindingsShelf, KeptFindings } from "../../server/src/workspace/host";
import type { Settings } from "../../server/src/workspace/settings";
import { sourcesOf } from "../support/imports";
import { foundHere, Pictures, toldOf, WorkersHere } from "../support/workers-here";

const ROOT = fileURLToPath(new URL("../../server/src", import.meta.url));
const LOGS = 160;
const BOARDS = ["example", "unfiled", "mem-b"];
const SHOP = `mendlog-shop: 1
checks:
  diode-out-of-window: hint
`;
const uri = (n: number) => `mem:/logs/${n}.md`;
/** Every eighth names a picture; 7 came back from a job that there is only where somebody writes it. */
const log = (n: number, reading = "0.57", job = `J${n}`) => `---
mendlog: 1
job: ${job}
board: ${BOARDS[n % 3]}
serial: ${n % 9}
received: 2026-01-${10 + (n % 15)}
stage: returned
${n === 7 ? "comeback-of: J900\n" : ""}---

## Diode check U14 (7404)

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | ${reading} |
| U14 | 2   | O.6 |
${n % 8 === 0 ? `\n![the board](${n}.png)\n` : ""}`;

const files = (count = LOGS) => ({
  "mem:/example.board.yaml": EXAMPLE_BOARD,
  "mem:/notes.md": "# Notes\n",
  ...Object.fromEntries(Array.from({ length: count }, (_, n) => [uri(n), log(n)])),
});

/** A shelf in memory; it may lose anything. */
class Kept implements FindingsShelf {
  readonly all = new Map<string, { readonly stamp: string; readonly json: string | undefined }>();
  saved = 0;
  closed = 0;

  async load(): Promise<ReadonlyMap<string, KeptFindings>> {
    return new Map([...this.all].map(([of, { stamp, json }]) => [of, { stamp, json: () => json }]));
  }

  async save(more: ReadonlyMap<string, KeptFindings>, counts: (uri: string) => boolean): Promise<void> {
    this.saved++;
    for (const [of, { stamp, json }] of more) this.all.set(of, { stamp, json: json() });
    for (const of of [...this.all.keys()]) if (!counts(of)) this.all.delete(of);
  }

  close(): void {
    this.closed++;
  }

  hold(stamp: string, json: string): KeptFindings {
    return { stamp, json: () => json };
  }
}

async function start(disk: Pictures, settings?: Settings, checking?: WorkersHere, findings?: Kept) {
  const service = new Service({
    read: (of) => disk.read(of),
    list: () => disk.list(),
    readBytes: (of, most) => disk.readBytes(of, most),
    ...(checking ? { checking } : {}),
    ...(findings ? { findings } : {}),
  });
  if (settings) service.settings = settings;
  await service.load();
  for await (const _ of service.index());
  return service;
}

/** Asks for the findings of these logs, as an editor does. */
async function look(service: Service, disk: Pictures, some: Iterable<number>) {
  const found = new Map<number, unknown>();
  for (const n of some) {
    const text = disk.files.get(uri(n));
    const told = text === undefined ? undefined : await service.findElsewhere(uri(n), text);
    if (told) found.set(n, toldOf(told));
  }
  await service.allChecked();
  return found;
}

const ALL = Array.from({ length: LOGS }, (_, n) => n);
const NO_SETTINGS: Settings = { otherwise: DEFAULT_SETTINGS, folders: [] };

test("no finding hangs on the day or the hour: what is kept holds tomorrow", () => {
  const clocks = sourcesOf(ROOT)
    .filter((file) => layerOf(`server/src/${file}`) === "core")
    .filter((file) => /new Date\(\)|Date\.now\(|Temporal\.Now/.test(readFileSync(join(ROOT, file), "utf8")));
  expect(clocks).toEqual([]);
});

describe("findings that are kept", () => {
  test("are given again without a look at any log but those that name a picture", async () => {
    const disk = new Pictures(files());
    const shelf = new Kept();
    const first = new WorkersHere(disk, 1);
    const before = await look(await start(disk, NO_SETTINGS, first, shelf), disk, ALL);
    expect(first.asked).toBe(LOGS);
    expect(shelf.all.size).toBe(LOGS - LOGS / 8);
    const second = new WorkersHere(disk, 1);
    const again = await look(await start(disk, NO_SETTINGS, second, shelf), disk, ALL);
    expect(second.asked).toBe(LOGS / 8);
    expect(again).toEqual(before);
    expect([...before.values()].flat().length).toBeGreaterThan(LOGS);
    expect(shelf.saved).toBe(1);
    expect(shelf.closed).toBe(2);
  });

  test("are not asked for where they were lost, or a log's text is another", async () => {
    const disk = new Pictures(files());
    const shelf = new Kept();
    await look(await start(disk, NO_SETTINGS, new WorkersHere(disk, 1), shelf), disk, ALL);
    shelf.all.set(uri(1), { stamp: shelf.all.get(uri(1))!.stamp, json: undefined });
    const workers = new WorkersHere(disk, 1);
    const service = await start(disk, NO_SETTINGS, workers, shelf);
    await look(service, disk, [1, 2, 3]);
    expect(workers.asked).toBe(1);
    // Written since it was read for the memory: nobody knows yet what it is to others.
    disk.files.set(uri(2), log(2, "1.4"));
    const found = await look(service, disk, [2]);
    expect(workers.asked).toBe(2);
    expect(found.get(2)).toEqual(await foundHere(await start(disk), uri(2), log(2, "1.4")));
  });

  test("are made again where a log of another board has the number that one came back from", async () => {
    const disk = new Pictures(files());
    const shelf = new Kept();
    const before = await look(await start(disk, NO_SETTINGS, new WorkersHere(disk, 1), shelf), disk, ALL);
    disk.files.set(uri(3), log(3, "0.57", "J900"));
    const workers = new WorkersHere(disk, 1);
    const service = await start(disk, NO_SETTINGS, workers, shelf);
    expect((await look(service, disk, [4])).get(4)).toEqual(before.get(4));
    expect(workers.asked).toBe(0);
    const now = (await look(service, disk, [7])).get(7);
    expect(now).not.toEqual(before.get(7));
    expect(now).toEqual(await foundHere(await start(disk), uri(7), log(7)));
  });

  test("of logs that are there no longer are not kept, and few new ones are not worth it", async () => {
    const disk = new Pictures(files(200));
    const shelf = new Kept();
    const looked = Array.from({ length: 200 }, (_, n) => n);
    await look(await start(disk, NO_SETTINGS, new WorkersHere(disk, 1), shelf), disk, looked);
    expect(shelf.all.has(uri(1))).toBe(true);
    disk.files.set(uri(500), log(500));
    await look(await start(disk, NO_SETTINGS, new WorkersHere(disk, 1), shelf), disk, [500]);
    expect(shelf.saved).toBe(1);
    disk.files.delete(uri(1));
    await look(await start(disk, NO_SETTINGS, new WorkersHere(disk, 1), shelf), disk, looked);
    expect(shelf.saved).toBe(2);
    expect(shelf.all.has(uri(1))).toBe(false);
  });

  test("are put there on the way, where there are many", async () => {
    const disk = new Pictures(files(2400));
    const shelf = new Kept();
    const service = await start(disk, NO_SETTINGS, new WorkersHere(disk, 1), shelf);
    for (let n = 0; n < 2400; n++) await service.findElsewhere(uri(n), log(n));
    expect(shelf.saved).toBe(1);
    await service.allChecked();
    expect(shelf.all.size).toBe(2100);
    const workers = new WorkersHere(disk, 1);
    await look(await start(disk, NO_SETTINGS, workers, shelf), disk, [1, 1999, 2399]);
    expect(workers.asked).toBe(0);
  }, 120_000);

  test("are what a start without anything kept finds, whatever changed between", async () => {
    const change = fc.oneof(
      fc.record({
        kind: fc.constant("log" as const),
        n: fc.nat(LOGS + 5),
        reading: fc.constantFrom("0.5", "OL", "x", "1.4"),
        job: fc.constantFrom("J900", "J1", "J77"),
      }),
      fc.record({ kind: fc.constant("gone" as const), n: fc.nat(LOGS) }),
      fc.record({ kind: fc.constant("no log" as const), n: fc.nat(LOGS) }),
      fc.record({ kind: fc.constant("shop" as const), there: fc.boolean() }),
      fc.record({ kind: fc.constant("board" as const), title: fc.constantFrom("One", "Other") }),
      fc.record({ kind: fc.constant("picture" as const), n: fc.nat(20), there: fc.boolean() }),
      fc.record({ kind: fc.constant("severity" as const), level: fc.constantFrom("hint", "off", "error") }),
      fc.record({ kind: fc.constant("lost" as const), n: fc.nat(LOGS) }),
    );
    let kept = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.array(change, { maxLength: 3 }), { minLength: 2, maxLength: 4 }),
        fc.array(fc.nat(LOGS), { minLength: 12, maxLength: 20 }),
        async (rounds, looked) => {
          const disk = new Pictures(files());
          const shelf = new Kept();
          let settings = NO_SETTINGS;
          await look(await start(disk, settings, new WorkersHere(disk, 1), shelf), disk, ALL);
          for (const changes of rounds) {
            for (const one of changes) {
              const put = (of: string, text: string | undefined) =>
                text === undefined ? disk.files.delete(of) : disk.files.set(of, text);
              if (one.kind === "log") put(uri(one.n), log(one.n, one.reading, one.job));
              else if (one.kind === "gone") put(uri(one.n), undefined);
              else if (one.kind === "no log") put(uri(one.n), "# Nothing\n");
              else if (one.kind === "shop") put("mem:/mendlog.shop.yaml", one.there ? SHOP : undefined);
              else if (one.kind === "board")
                put(
                  "mem:/b.board.yaml",
                  `mendlog-board: 1\nid: mem-b\ntitle: ${one.title}\nsource: invented\n`,
                );
              else if (one.kind === "picture")
                put(`mem:/logs/${one.n * 8}.png`, one.there ? "picture" : undefined);
              else if (one.kind === "lost") shelf.all.delete(uri(one.n));
              else
                settings = {
                  otherwise: { severity: new Map([["unreadable-value", one.level as "hint"]]) },
                  folders: [],
                };
            }
            const workers = new WorkersHere(disk, 1);
            const found = await look(
              await start(disk, settings, workers, shelf),
              disk,
              new Set([...looked, 7]),
            );
            const fresh = await start(disk, settings);
            for (const [n, told] of found)
              expect(told, uri(n)).toEqual(await foundHere(fresh, uri(n), disk.files.get(uri(n))!));
            kept += found.size - workers.asked;
          }
        },
      ),
      { seed: 20_261_201, numRuns: 5 },
    );
    expect(kept).toBeGreaterThan(30);
  }, 240_000);
});
