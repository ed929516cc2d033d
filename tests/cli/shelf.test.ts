// What the language server remembers between two starts, in a file of a real disk, and the threads that sum up for it.
import { spawn } from "node:child_process";
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
import { fileURLToPath, pathToFileURL } from "node:url";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import {
  createProtocolConnection,
  ExitNotification,
  InitializedNotification,
  InitializeRequest,
  ShutdownRequest,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import { shelfFor } from "../../server/src/cli/kept/shelf";
import { nodeDisk } from "../../server/src/cli/node-disk";
import { Service } from "../../server/src/service";
import type { Shelf } from "../../server/src/workspace/host";
import { nodeHost } from "../../server/src/workspace/node-host";
import type { Remembered } from "../../server/src/workspace/remembered";
import { textHash } from "../../server/src/workspace/text-hash";

const CLI = fileURLToPath(new URL("../../dist/cli.cjs", import.meta.url));
const SERVER = fileURLToPath(new URL("../../dist/server.cjs", import.meta.url));
const LOGS = 160;
const BUILD = "one";
const ALL: readonly Remembered[] = [
  {
    uri: "file:///a.md",
    hash: "1-2-3",
    packed: { head: "{}", rest: "[1]" },
    stretches: Int32Array.of(1, 2, 3),
  },
  { uri: "file:///b.md" },
  { uri: "file:///c.md", hash: "4-5-6" },
];

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "mendlog-shelf-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const shelf = (
  folders = ["file:///jobs"],
  storage: string | undefined = join(folder, "kept"),
  build = BUILD,
) =>
  shelfFor(
    { folders, storage },
    {
      cwd: folder,
      env: { XDG_CACHE_HOME: join(folder, "cache") },
      disk: nodeDisk(),
      clock: () => 5000,
      build: async () => build,
    },
  );
const loaded = async (of: Shelf | undefined, stamp = "s") => {
  const found: Remembered[] = [];
  for await (const one of of?.load(stamp) ?? []) if (one) found.push(one);
  return found.map(({ packed, ...one }) =>
    packed ? { ...one, packed: { head: packed.head, rest: packed.rest } } : one,
  );
};

describe("the shelf", () => {
  it("gives back what was put there, with the places in each log", async () => {
    await shelf()!.save(ALL, "s");
    expect(await loaded(shelf())).toEqual(ALL);
    await shelf()!.save(ALL.slice(1), "s");
    expect(await loaded(shelf())).toEqual(ALL.slice(1));
    expect(readdirSync(join(folder, "kept"))).toEqual(["jobs.kept"]);
  });

  it("gives back what takes many pieces, and keeps what it had where the next is not put together to its end", async () => {
    const many = Array.from({ length: 900 }, (_, n): Remembered => {
      const rest = JSON.stringify(`${n} \u00b5 \u2126 `.repeat(200));
      return { uri: `file:///${n}.md`, hash: `${n}-1`, packed: { head: "{}", rest } };
    });
    await shelf()!.save(many, "s");
    expect(await loaded(shelf())).toEqual(many);
    const half = function* (): Iterable<Remembered> {
      yield* many.slice(0, 800);
      throw new Error("no more");
    };
    await shelf()!.save(half(), "s");
    expect(await loaded(shelf())).toEqual(many);
    expect(readdirSync(join(folder, "kept"))).toEqual(["jobs.kept"]);
  });

  it("is empty for another library, another program, other folders, and where nothing was kept", async () => {
    expect(await loaded(shelf())).toEqual([]);
    await shelf()!.save(ALL, "s");
    expect(await loaded(shelf(), "t")).toEqual([]);
    expect(await loaded(shelf(undefined, undefined, "two"))).toEqual([]);
    expect(await loaded(shelf(["file:///other"]))).toEqual([]);
  });

  it("is empty where any byte of it is another, or its end is missing", async () => {
    await shelf()!.save(ALL, "s");
    const path = join(folder, "kept", "jobs.kept");
    const whole = readFileSync(path);
    for (let at = 0; at < whole.length; at += 37) {
      const broken = Buffer.from(whole);
      broken[at]! ^= 1;
      writeFileSync(path, broken);
      expect(await loaded(shelf()), `byte ${at}`).toEqual([]);
    }
    writeFileSync(path, whole.subarray(0, whole.length - 1));
    expect(await loaded(shelf())).toEqual([]);
  });

  it("lies in the user's folder for such things where the editor has none, another file for other folders", async () => {
    const shared = (folders: string[]) =>
      shelfFor(
        { folders, storage: undefined },
        {
          cwd: folder,
          env: { XDG_CACHE_HOME: join(folder, "cache") },
          disk: nodeDisk(),
          clock: () => 5000,
          build: async () => BUILD,
        },
      );
    await shared(["file:///jobs"])!.save(ALL, "s");
    await shared(["file:///other"])!.save(ALL.slice(1), "s");
    expect(readdirSync(join(folder, "cache", "mendlog"))).toHaveLength(2);
    expect(await loaded(shared(["file:///jobs"]))).toEqual(ALL);
    expect(shared([])).toBeUndefined();
  });

  it("writes through no link and over no log", async () => {
    const log = "---\nmendlog: 1\n---\n";
    writeFileSync(join(folder, "job.md"), log);
    await shelf()!.save(ALL, "s");
    const path = join(folder, "kept", "jobs.kept");
    rmSync(path);
    symlinkSync(join(folder, "job.md"), path);
    await shelf()!.save(ALL, "s");
    expect(readFileSync(join(folder, "job.md"), "utf8")).toBe(log);
    rmSync(path);
    writeFileSync(path, log);
    await shelf()!.save(ALL, "s");
    expect(readFileSync(path, "utf8")).toBe(log);
  });
});

const log = (n: number) => `---
mendlog: 1
job: J${n}
board: trial
stage: returned
---

## Diode check U14 (7404)

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | ${1 + (n % 6)} | 0.5${n % 10} |
`;

describe.each([
  ["the server", [SERVER, "--stdio"]],
  ["mendlog serve", [CLI, "serve", "--stdio"]],
])("%s in a folder of many logs", (_, command) => {
  it("keeps what its threads summed up, to the last place what is read here", async () => {
    const jobs = join(folder, "jobs");
    const storage = join(folder, "storage");
    mkdirSync(jobs);
    for (let n = 0; n < LOGS; n++) writeFileSync(join(jobs, `${n}.md`), log(n));
    const root = pathToFileURL(jobs).href;
    const child = spawn(process.execPath, command, { stdio: ["pipe", "pipe", "inherit"] });
    const ended = new Promise((resolve) => child.on("exit", resolve));
    const client = createProtocolConnection(
      new StreamMessageReader(child.stdout),
      new StreamMessageWriter(child.stdin),
    );
    client.listen();
    try {
      await client.sendRequest(InitializeRequest.type, {
        processId: process.pid,
        rootUri: root,
        workspaceFolders: [{ uri: root, name: "jobs" }],
        capabilities: {},
        initializationOptions: { storage },
      });
      await client.sendNotification(InitializedNotification.type, {});
      const file = join(storage, "jobs.kept");
      for (let tries = 0; !existsSync(file) && tries < 600; tries++)
        await new Promise((go) => setTimeout(go, 50));
      await client.sendRequest(ShutdownRequest.type);
      await client.sendNotification(ExitNotification.type);
      expect(await ended).toBe(0);
    } finally {
      child.kill();
    }
    const bytes = readFileSync(join(storage, "jobs.kept"));
    const { build } = JSON.parse(bytes.subarray(0, bytes.indexOf(10)).toString()) as { build: string };
    const kept = await loaded(shelf([root], storage, build), textHash("[]"));
    const service = new Service(nodeHost([root]));
    await service.load();
    for await (const _step of service.index());
    const plain = (all: Iterable<Remembered>) =>
      new Map(
        [...all].map(({ uri, hash, packed, stretches }) => [
          uri,
          [hash, packed, stretches && [...stretches]],
        ]),
      );
    expect(plain(kept)).toEqual(plain(service.remembered().values()));
    expect(kept).toHaveLength(LOGS);
  });
});
