// What the language server found in closed logs, in a file of a real disk, and a second start that tells it again.
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { findingsShelfFor } from "../../server/src/cli/kept/findings-shelf";
import { nodeDisk } from "../../server/src/cli/node-disk";
import type { FindingsShelf } from "../../server/src/workspace/host";
import { FULL_CAPABILITIES, startClient } from "../protocol/client.js";

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "mendlog-findings-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const shelf = (
  folders = ["file:///jobs"],
  storage: string | undefined = join(folder, "kept"),
  build = "one",
): FindingsShelf =>
  findingsShelfFor(
    { folders, storage },
    {
      cwd: folder,
      env: { XDG_CACHE_HOME: join(folder, "cache") },
      disk: nodeDisk(),
      build: async () => build,
    },
  )!;

const all = (): boolean => true;
const json = (n: number): string => JSON.stringify([{ message: `${n} Ω is more than 5 µΩ` }]);
const some = (of: FindingsShelf, count: number) =>
  new Map(Array.from({ length: count }, (_, n) => [`file:///${n}.md`, of.hold(`stamp-${n}`, json(n))]));

async function loaded(of: FindingsShelf): Promise<[string, string, string | undefined][]> {
  const all = [...(await of.load())].map(([uri, kept]): [string, string, string | undefined] => [
    uri,
    kept.stamp,
    kept.json(),
  ]);
  of.close();
  return all;
}
const expected = (count: number) =>
  Array.from({ length: count }, (_, n) => [`file:///${n}.md`, `stamp-${n}`, json(n)]);

describe("the shelf of findings", () => {
  it("gives back what was put there, also what was there before", async () => {
    const one = shelf();
    await one.save(some(one, 300), all);
    expect(readdirSync(join(folder, "kept"))).toEqual(["findings.kept"]);
    const two = shelf();
    const before = await two.load();
    await two.save(
      new Map([["file:///0.md", two.hold("other", json(7))]]),
      (uri) => uri !== "file:///299.md",
    );
    // What was loaded is what it was.
    expect([...before].map(([uri, kept]) => [uri, kept.stamp, kept.json()])).toEqual(expected(300));
    two.close();
    const after = [["file:///0.md", "other", json(7)], ...expected(299).slice(1)];
    expect(await loaded(shelf())).toEqual(after);
    expect(readdirSync(join(folder, "kept"))).toEqual(["findings.kept"]);
  });

  it("lies in the user's own folder where the editor names none, one file for each workspace", async () => {
    const one = findingsShelfFor(
      { folders: ["file:///a"], storage: undefined },
      {
        cwd: folder,
        env: { XDG_CACHE_HOME: join(folder, "cache") },
        disk: nodeDisk(),
        build: async () => "x",
      },
    )!;
    await one.save(some(one, 1), all);
    expect(readdirSync(join(folder, "cache", "mendlog"))[0]).toMatch(/^findings-\d+\.kept$/);
    expect(
      findingsShelfFor({ folders: [], storage: folder }, { cwd: folder, env: {}, disk: nodeDisk() }),
    ).toBe(undefined);
  });

  it("is empty for another program and another workspace", async () => {
    const one = shelf();
    await one.save(some(one, 3), all);
    expect(await loaded(shelf(undefined, undefined, "two"))).toEqual([]);
    expect(await loaded(shelf(["file:///other"]))).toEqual([]);
    expect(await loaded(shelf())).toEqual(expected(3));
  });

  it("gives nothing that is not there as it was written, whichever byte is another or missing", async () => {
    const one = shelf();
    await one.save(some(one, 4), all);
    const path = join(folder, "kept", "findings.kept");
    const whole = readFileSync(path);
    const right = new Set(expected(4).map((each) => JSON.stringify(each)));
    let lost = 0;
    for (let at = 0; at < whole.length; at += 7) {
      const spoilt = Buffer.from(whole);
      spoilt[at] = spoilt[at]! ^ 0x11;
      writeFileSync(path, at % 2 ? spoilt : whole.subarray(0, at));
      for (const each of await loaded(shelf())) {
        if (each[2] === undefined) lost++;
        else expect(right.has(JSON.stringify(each)), `byte ${at}`).toBe(true);
      }
    }
    expect(lost).toBeGreaterThan(0);
  });

  it("leaves out what was spoilt when it is put there again", async () => {
    const one = shelf();
    await one.save(some(one, 3), all);
    const path = join(folder, "kept", "findings.kept");
    const bytes = readFileSync(path);
    bytes[3] = bytes[3]! ^ 1;
    writeFileSync(path, bytes);
    const two = shelf();
    await two.save(new Map(), all);
    expect(await loaded(shelf())).toEqual(expected(3).slice(1));
  });

  it("is not written through a link or where nobody may, and fails nowhere", async () => {
    const target = join(folder, "elsewhere.txt");
    writeFileSync(target, "mine");
    mkdirSync(join(folder, "kept"));
    symlinkSync(target, join(folder, "kept", "findings.kept"));
    const one = shelf();
    await one.save(some(one, 2), all);
    expect(readFileSync(target, "utf8")).toBe("mine");
    const blocked = shelf(undefined, join(target, "kept"));
    await blocked.save(some(blocked, 2), all);
    expect(await loaded(blocked)).toEqual([]);
  });
});

const LOGS = 170;
const log = (n: number) => `---
mendlog: 1
job: J${n}
board: ${n % 2 ? "left" : "right"}
stage: returned
---

## Rails

| Rail | Reading |
|------|---------|
| +5V  | ${n % 7 === 0 ? "6.9" : "5.0O"} V |
${n === 5 ? "\n![a picture](5.png)\n" : ""}`;

/** By uri the findings of all closed files, as they are told to an editor that asks once. */
async function toldAtStart(root: string, storage: string) {
  const client = await startClient({
    folders: [root],
    capabilities: FULL_CAPABILITIES,
    initializationOptions: { storage },
  });
  try {
    const { items } = await client.request("workspace/diagnostic", { previousResultIds: [] });
    expect(await client.stop()).toBe(0);
    return new Map(
      (items as { uri: string; items: unknown[] }[]).map(({ uri, items: found }) => [uri, found]),
    );
  } finally {
    client.kill();
  }
}

describe("a second start", () => {
  it("tells the findings of closed logs that the first one told, and those of one that changed", async () => {
    const jobs = join(folder, "jobs");
    const storage = join(folder, "storage");
    mkdirSync(jobs);
    for (let n = 0; n < LOGS; n++) writeFileSync(join(jobs, `${n}.md`), log(n));
    const root = pathToFileURL(jobs).href;
    const cold = await toldAtStart(root, storage);
    expect(cold.size).toBe(LOGS);
    expect([...cold.values()].flat().length).toBeGreaterThan(LOGS);
    expect(existsSync(join(storage, "findings.kept"))).toBe(true);
    expect(await toldAtStart(root, storage)).toEqual(cold);

    writeFileSync(join(jobs, "3.md"), log(3).replace("5.0O V", "0.2 V"));
    const changed = await toldAtStart(root, storage);
    rmSync(storage, { recursive: true });
    expect(changed).toEqual(await toldAtStart(root, storage));
    expect(changed).not.toEqual(cold);
  }, 120_000);
});
