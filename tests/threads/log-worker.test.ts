// Closed logs checked by another thread: what is found there is what is found here, whatever happened in between.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import fc from "fast-check";
import { afterEach, expect, test } from "vitest";
import type { Diagnostic } from "vscode-languageserver-protocol";
import { EXAMPLE_BOARD } from "../../server/src/checks/example-board";
import { DEFAULT_SETTINGS } from "../../server/src/checks/run";
import { Service } from "../../server/src/service";
import { lineIndex } from "../../server/src/text/line-index";
import { LogWorker } from "../../server/src/threads/log-worker";
import type { Checking } from "../../server/src/workspace/host";
import { nodeHost } from "../../server/src/workspace/node-host";
import type { Settings } from "../../server/src/workspace/settings";
import { FULL_CAPABILITIES, startClient } from "../protocol/client.js";
import { foundHere, Pictures, toldOf, WorkersHere } from "../support/workers-here";

const LOGS = 160;
const DEVICE = `mendlog-device: 1
id: own-chip
title: Own chip
kind: logic
source: invented for these tests
part-numbers: [OWN99]
pins:
  1: { name: A, direction: input }
  2: { name: GND, direction: ground }
  3: { name: VCC, direction: supply }
  4: { name: Y, direction: output }
`;
const SHOP = `mendlog-shop: 1
checks:
  diode-out-of-window: hint
`;
const BOARDS = ["example", "unfiled", "mem-b"];
const log = (n: number, reading = "0.57") => `---
mendlog: 1
job: J${n % 50}
board: ${BOARDS[n % 3]}
serial: ${n % 9}
received: 2026-01-${10 + (n % 15)}
stage: returned
${n % 7 ? "" : `comeback-of: J${n + 400}\n`}---

## Diode check U14 (${n % 4 ? "7404" : "OWN99"})

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | ${reading} |
| U14 | 2   | O.6 |

![the board](${n}.png)

## Proving

| Item | Result |
|------|--------|
| soak test | ${n % 5 ? "pass" : "fail"} |
`;
const uri = (n: number) => `mem:/logs/${n}.md`;

async function start(disk: Pictures, checking?: Checking): Promise<Service> {
  const service = new Service({
    read: (of) => disk.read(of),
    list: () => disk.list(),
    readBytes: (of, most) => disk.readBytes(of, most),
    ...(checking ? { checking } : {}),
  });
  await service.load();
  for await (const _ of service.index());
  return service;
}

const files = () => ({
  "mem:/example.board.yaml": EXAMPLE_BOARD,
  "mem:/notes.md": "# Notes\n",
  ...Object.fromEntries(Array.from({ length: LOGS }, (_, n) => [uri(n), log(n)])),
});

test("what threads find is what is found here, after any changes", async () => {
  const change = fc.oneof(
    fc.record({
      kind: fc.constant("log" as const),
      n: fc.nat(LOGS + 20),
      reading: fc.constantFrom("0.5", "OL", "x"),
    }),
    fc.record({ kind: fc.constant("no log" as const), n: fc.nat(3) }),
    fc.record({ kind: fc.constant("device" as const), there: fc.boolean() }),
    fc.record({ kind: fc.constant("shop" as const), there: fc.boolean() }),
    fc.record({ kind: fc.constant("board" as const), title: fc.constantFrom("One", "Other") }),
    fc.record({ kind: fc.constant("picture" as const), n: fc.nat(20), there: fc.boolean() }),
    fc.record({ kind: fc.constant("severity" as const), level: fc.constantFrom("hint", "off", "error") }),
  );
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.tuple(fc.array(change, { maxLength: 5 }), fc.array(fc.nat(LOGS), { minLength: 8 })), {
        minLength: 1,
        maxLength: 3,
      }),
      async (rounds) => {
        const disk = new Pictures(files());
        const threads = new WorkersHere(disk, 2);
        const service = await start(disk, threads);
        let settings: Settings = { otherwise: DEFAULT_SETTINGS, folders: [] };
        for (const [changes, looked] of rounds) {
          const put = async (of: string, text: string | undefined): Promise<void> => {
            if (text === undefined) disk.files.delete(of);
            else disk.files.set(of, text);
            await service.fileChanged(of);
          };
          for (const one of changes) {
            if (one.kind === "log") await put(uri(one.n), log(one.n, one.reading));
            else if (one.kind === "no log") await put(uri(one.n), one.n ? "# Nothing\n" : undefined);
            else if (one.kind === "device") await put("mem:/own.device.yaml", one.there ? DEVICE : undefined);
            else if (one.kind === "shop") await put("mem:/mendlog.shop.yaml", one.there ? SHOP : undefined);
            else if (one.kind === "board")
              await put(
                "mem:/b.board.yaml",
                `mendlog-board: 1\nid: mem-b\ntitle: ${one.title}\nsource: invented\n`,
              );
            else if (one.kind === "picture")
              await put(`mem:/logs/${one.n}.png`, one.there ? "picture" : undefined);
            else
              service.settings = settings = {
                otherwise: { severity: new Map([["unreadable-value", one.level as "hint"]]) },
                folders: [],
              };
          }
          for await (const _ of service.index());
          const fresh = await start(disk);
          fresh.settings = settings;
          expect(await service.shopPage()).toBe(fresh.shopPageHere());
          for (const n of looked) {
            const text = disk.files.get(uri(n));
            if (text === undefined) continue;
            const found = await service.findElsewhere(uri(n), text);
            if (!fresh.isLog(uri(n), text)) expect(found).toBeUndefined();
            else {
              expect(toldOf(found ?? [])).toEqual(await foundHere(fresh, uri(n), text));
              expect(service.imagesNamedBy(uri(n))).toEqual(fresh.imagesNamedBy(uri(n)));
            }
          }
        }
        expect(threads.asked).toBeGreaterThan(0);
      },
    ),
    { seed: 20_261_201, numRuns: 2 },
  );
}, 240_000);

test("a thread is told of a job that another log names, and of a board file that is gone", async () => {
  const disk = new Pictures(files());
  const service = await start(disk, new WorkersHere(disk, 1));
  const look = async (n: number) => toldOf((await service.findElsewhere(uri(n), log(n))) ?? []);
  const put = async (of: string, text: string | undefined): Promise<void> => {
    if (text === undefined) disk.files.delete(of);
    else disk.files.set(of, text);
    await service.fileChanged(of);
    for await (const _ of service.index());
  };
  const before = await look(0);
  await put(uri(1), log(1).replace("job: J1", "job: J400"));
  const named = await look(0);
  expect(named).not.toEqual(before);
  expect(named).toEqual(await foundHere(await start(disk), uri(0), log(0)));
  await put("mem:/example.board.yaml", undefined);
  const without = await look(0);
  expect(without).not.toEqual(named);
  expect(without).toEqual(await foundHere(await start(disk), uri(0), log(0)));
}, 120_000);

test("few logs, and those that are open, are checked here", async () => {
  const disk = new Pictures({ [uri(1)]: log(1), [uri(2)]: log(2) });
  const few = new WorkersHere(disk, 1);
  const small = await start(disk, few);
  expect(small.mostElsewhere).toBe(1);
  expect(await small.findElsewhere(uri(1), log(1))).toBeUndefined();
  const many = new Pictures(files());
  const service = await start(many, new WorkersHere(many, 1));
  service.open(uri(1), log(1));
  expect(await service.findElsewhere(uri(1), log(1))).toBeUndefined();
  expect(await service.findElsewhere(uri(2), log(2))).toBeDefined();
});

test("a thread that breaks down at a log says so, and answers the next", async () => {
  const worker = new LogWorker({ setFolders: () => {} });
  // What a broken message leaves: no text at all.
  const broken = { uri: uri(1), text: undefined as unknown as string };
  expect(await worker.answer({ kind: "sum", id: 1, log: broken })).toEqual({ id: 1 });
  const next = await worker.answer({ kind: "sum", id: 2, log: { uri: uri(1), text: log(1) } });
  expect(next.found).toMatchObject({ uri: uri(1) });
});

let folder: string | undefined;
afterEach(() => folder && rmSync(folder, { recursive: true, force: true }));

test("the server tells of closed logs what is found in them", async () => {
  folder = mkdtempSync(join(tmpdir(), "mendlog-closed-"));
  const jobs = join(folder, "jobs");
  mkdirSync(jobs);
  for (let n = 0; n < LOGS; n++) writeFileSync(join(jobs, `${n}.md`), log(n));
  writeFileSync(join(jobs, "3.png"), "picture");
  writeFileSync(join(jobs, "example.board.yaml"), EXAMPLE_BOARD);
  const root = pathToFileURL(jobs).href;
  const client = await startClient({
    folders: [root],
    capabilities: FULL_CAPABILITIES,
    initializationOptions: { storage: join(folder, "kept") },
  });
  try {
    const { items } = await client.request("workspace/diagnostic", { previousResultIds: [] });
    const service = new Service(nodeHost([root]));
    await service.load();
    for await (const _ of service.index());
    expect(items).toHaveLength(LOGS + 1);
    for (const { uri: of, items: diagnostics } of items as { uri: string; items: Diagnostic[] }[]) {
      if (!of.endsWith(".md")) continue;
      const text = (await service.read(of)) ?? "";
      const lines = lineIndex(text);
      expect(
        diagnostics.map(({ code, message, range }) => [code, message, lines.offsetAt(range.start)]),
      ).toEqual(
        (await foundHere(service, of, text)).map(([code, , from, , message]) => [code, message, from]),
      );
    }
    expect(await client.stop()).toBe(0);
  } finally {
    client.kill();
  }
});
