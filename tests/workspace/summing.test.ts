// Closed logs summed up by another thread, and what was remembered at the last start: both give what reading every log again
// here gives, whatever happens in between.
import fc from "fast-check";
import { expect, test } from "vitest";
import { EXAMPLE_BOARD } from "../../server/src/checks/example-board";
import { Service } from "../../server/src/service";
import type { FileText, Shelf, Summing } from "../../server/src/workspace/host";
import { KnowledgeStore } from "../../server/src/workspace/knowledge-store";
import { rememberedWhole } from "../../server/src/workspace/read-index";
import type { Remembered } from "../../server/src/workspace/remembered";
import { Disk } from "../support/disk";

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
const log = (n: number, reading = "0.57") => `---
mendlog: 1
job: J${n}
board: ${n % 2 ? "example" : "unfiled"}
serial: ${n % 9}
received: 2026-01-10
stage: returned
---

## Diode check U14 (${n % 3 ? "7404" : "OWN99"})

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | ${reading} |
`;
const uri = (n: number) => `mem:/logs/${n}.md`;

/** Sums up as a thread does, in a store of its own. */
class Thread implements Summing {
  readonly most = 4;
  asked = 0;
  libraries = 0;
  #known: { files: readonly FileText[]; store: KnowledgeStore } | undefined;
  readonly #gives: (asked: number) => boolean;

  constructor(gives: (asked: number) => boolean = () => true) {
    this.#gives = gives;
  }

  async sum({ uri, text }: FileText, files: readonly FileText[]): Promise<Remembered | undefined> {
    this.asked++;
    if (this.#known?.files !== files) {
      const store = new KnowledgeStore();
      for (const file of files) store.set(file.uri, file.text);
      this.#known = { files, store };
      this.libraries++;
    }
    const { store } = this.#known;
    await new Promise((go) => setTimeout(go, 0));
    return this.#gives(this.asked)
      ? structuredClone(rememberedWhole(uri, text, store.snapshot().library))
      : undefined;
  }
}

/** Keeps what it is given as plain data. */
class Kept implements Shelf {
  kept = new Map<string, readonly Remembered[]>();
  saved = 0;

  async *load(stamp: string): AsyncGenerator<Remembered> {
    yield* structuredClone(this.kept.get(stamp) ?? []);
  }

  async save(all: Iterable<Remembered>, stamp: string): Promise<void> {
    this.saved++;
    this.kept = new Map([[stamp, structuredClone([...all])]]);
  }
}

const files = (count: number) => ({
  "mem:/example.board.yaml": EXAMPLE_BOARD,
  ...Object.fromEntries(Array.from({ length: count }, (_, n) => [uri(n), log(n)])),
});

async function start(disk: Disk, besides: { summing?: Summing; shelf?: Shelf } = {}): Promise<Service> {
  const service = new Service(
    Object.assign(Object.create(disk) as Disk, {
      read: (of: string) => disk.read(of),
      list: () => disk.list(),
      ...besides,
    }),
  );
  await service.load();
  return service;
}

async function readAll(service: Service, most = Number.POSITIVE_INFINITY): Promise<void> {
  let steps = 0;
  for await (const _ of service.index()) if (++steps >= most) return;
}

const remembered = (service: Service) =>
  JSON.stringify(
    [...service.remembered().values()]
      .sort((a, b) => (a.uri < b.uri ? -1 : 1))
      .map(({ stretches, ...one }) => [one, stretches && [...stretches]]),
  );

async function fresh(disk: Disk): Promise<string> {
  const service = await start(disk);
  await readAll(service);
  return remembered(service);
}

test("what threads sum up is what is read here, also where they fail at every third log", async () => {
  const disk = new Disk({ ...files(200), "mem:/notes.md": "# Notes\n", "mem:/own.device.yaml": DEVICE });
  for (const gives of [() => true, (asked: number) => asked % 3 > 0]) {
    const summing = new Thread(gives);
    const service = await start(disk, { summing });
    await readAll(service);
    expect(summing.asked).toBeGreaterThanOrEqual(200);
    expect(summing.libraries).toBe(1);
    expect(remembered(service)).toBe(await fresh(disk));
  }
});

test("few logs are read here, and so are those whose parse is to be kept", async () => {
  const few = new Thread();
  await readAll(await start(new Disk(files(60)), { summing: few }));
  expect(few.asked).toBe(0);
  const some = new Thread();
  const service = await start(new Disk(files(200)), { summing: some });
  for await (const _ of service.index({ keep: log(1).length * 50 }));
  expect(some.asked).toBeGreaterThan(100);
  expect(some.asked).toBeLessThan(160);
});

test("left at any step and begun again, it comes to the same", async () => {
  const disk = new Disk(files(170));
  const summing = new Thread();
  const service = await start(disk, { summing });
  for (const most of [1, 7, 30, 60]) {
    await readAll(service, most);
    expect(service.memory().version).toBe(0);
  }
  await readAll(service);
  expect(remembered(service)).toBe(await fresh(disk));
});

test("logs handed over before the library changed are read again with the new one", async () => {
  const disk = new Disk(files(170));
  const summing = new Thread();
  const service = await start(disk, { summing });
  let steps = 0;
  for await (const _ of service.index()) {
    if (++steps !== 40) continue;
    disk.files.set("mem:/own.device.yaml", DEVICE);
    await service.fileChanged("mem:/own.device.yaml");
  }
  expect(summing.libraries).toBe(2);
  expect(remembered(service)).toBe(await fresh(disk));
});

test("a second start reads only what changed, and keeps that only where it is worth it", async () => {
  const disk = new Disk(files(200));
  const shelf = new Kept();
  await readAll(await start(disk, { shelf }));
  expect(shelf.saved).toBe(1);

  disk.files.set(uri(7), log(7, "1.4"));
  disk.files.delete(uri(8));
  disk.files.set(uri(300), log(300));
  const summing = new Thread();
  const again = await start(disk, { shelf, summing });
  await readAll(again);
  expect(summing.asked).toBe(2);
  expect(shelf.saved).toBe(1);
  expect(remembered(again)).toBe(await fresh(disk));

  for (let n = 20; n < 40; n++) disk.files.set(uri(n), log(n, "0.6"));
  await readAll(await start(disk, { shelf }));
  expect(shelf.saved).toBe(2);
});

test("another library of its own makes what was kept useless", async () => {
  const disk = new Disk(files(200));
  const shelf = new Kept();
  await readAll(await start(disk, { shelf }));
  disk.files.set("mem:/own.device.yaml", DEVICE);
  const summing = new Thread();
  const service = await start(disk, { shelf, summing });
  await readAll(service);
  expect(summing.asked).toBe(200);
  expect(remembered(service)).toBe(await fresh(disk));
});

test("any changes between two starts come to what a start without anything kept comes to", async () => {
  const change = fc.oneof(
    fc.record({
      kind: fc.constant("write" as const),
      n: fc.nat(40),
      reading: fc.constantFrom("0.5", "OL", "x"),
    }),
    fc.record({ kind: fc.constant("delete" as const), n: fc.nat(40) }),
    fc.record({ kind: fc.constant("no log" as const), n: fc.nat(40) }),
    fc.record({ kind: fc.constant("device" as const), there: fc.boolean() }),
  );
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.array(change, { maxLength: 6 }), { minLength: 1, maxLength: 4 }),
      async (rounds) => {
        const disk = new Disk(files(30));
        const shelf = new Kept();
        for (const round of [[], ...rounds]) {
          for (const one of round) {
            if (one.kind === "write") disk.files.set(uri(one.n), log(one.n, one.reading));
            else if (one.kind === "delete") disk.files.delete(uri(one.n));
            else if (one.kind === "no log") disk.files.set(uri(one.n), "# Nothing\n");
            else if (one.there) disk.files.set("mem:/own.device.yaml", DEVICE);
            else disk.files.delete("mem:/own.device.yaml");
          }
          const service = await start(disk, { shelf });
          await readAll(service);
          expect(remembered(service)).toBe(await fresh(disk));
        }
      },
    ),
    { seed: 20_261_201, numRuns: 12 },
  );
});
