import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { finish } from "../../server/src/base/steps";
import { builtinLibrary } from "../../server/src/knowledge/library";
import { Service } from "../../server/src/service";
import { LONGEST_REMEMBERED, LogIndex } from "../../server/src/workspace/log-index";
import { openDemo } from "../support/demo";
import { Disk } from "../support/disk";
import { BOARD } from "../support/judged";
import { logSummary } from "../support/log-summary";

const library = builtinLibrary();
const log = (job: string, drop = "0.57", front = "") =>
  `---\nmendlog: 1\njob: ${job}\nboard: trial\nstage: returned\n${front}---\n\n## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U6 | 3 | ${drop} |\n`;

async function remember(service: Service, most = Number.POSITIVE_INFINITY): Promise<number> {
  let steps = 0;
  for await (const _ of service.index()) if (++steps >= most) break;
  return steps;
}

const open = async (files: Readonly<Record<string, string>>) => {
  const disk = new Disk(files);
  const service = new Service(disk);
  await service.load();
  return { service, disk };
};
const jobs = (service: Service) => [...service.memory().logs.values()].map(({ job }) => job);

describe("the index", () => {
  const summary = logSummary("mem:/a.md");

  it("waits for every Markdown file of the workspace, each once, and for no other", () => {
    const index = new LogIndex();
    index.list(["mem:/a.md", "mem:/x.board.yaml", "mem:/b.md"]);
    index.changed("mem:/a.md");
    index.changed("mem:/mendlog.shop.yaml");
    expect([index.next(library), index.next(library), index.next(library)]).toEqual([
      "mem:/a.md",
      "mem:/b.md",
      undefined,
    ]);
  });

  it("shows what it took in when it is told to, and the same memory where nothing changed", () => {
    const index = new LogIndex();
    expect(index.memory.version).toBe(0);
    index.put("mem:/a.md", "x", library, summary);
    expect(index.memory.logs.size).toBe(0);
    const first = index.finish();
    expect([first.version, first.logs.get("mem:/a.md")]).toEqual([1, summary]);
    index.put("mem:/a.md", "x and prose", library, { ...summary });
    expect(index.finish()).toBe(first);
    index.put("mem:/a.md", "y", library, { ...summary, job: "2" });
    const second = index.finish();
    expect(second.version).toBe(2);
    expect(first.logs.get("mem:/a.md")).toEqual(summary);
    index.list([]);
    expect(index.finish().logs.size).toBe(0);
  });

  it("has every file read again with another library", () => {
    const index = new LogIndex();
    index.put("mem:/a.md", "x", library, summary);
    index.skip("mem:/b.md", library);
    expect(index.next(library)).toBeUndefined();
    const other = { ...library };
    expect(index.next(other)).toBe("mem:/a.md");
    expect(index.knows("mem:/a.md", "x", library)).toBe(true);
    expect(index.knows("mem:/a.md", "x", other)).toBe(false);
    expect(index.knows("mem:/a.md", "y", library)).toBe(false);
  });
});

describe("the memory of a workspace", () => {
  it("holds the logs, not the other Markdown, nor what is too long", async () => {
    const long = `${log("3")}\n${"x".repeat(LONGEST_REMEMBERED)}`;
    const { service } = await open({
      "mem:/b.md": log("2"),
      "mem:/a.md": log("1"),
      "mem:/n.md": "# Notes",
      "mem:/l.md": long,
    });
    expect(service.memory()).toMatchObject({ version: 0 });
    await remember(service);
    expect(jobs(service)).toEqual(["1", "2"]);
  });

  it("is of what was saved, not of what is typed", async () => {
    const { service, disk } = await open({ "mem:/a.md": log("1") });
    await remember(service);
    const before = service.memory();
    service.open("mem:/a.md", log("1"));
    service.open("mem:/a.md", log("9"));
    service.findings("mem:/a.md");
    await remember(service);
    expect(service.memory()).toBe(before);
    disk.files.set("mem:/a.md", log("9"));
    await service.fileChanged("mem:/a.md");
    expect(service.memory()).toBe(before);
    await remember(service);
    expect(jobs(service)).toEqual(["9"]);
  });

  it("reads again only what changed", async () => {
    const { service, disk } = await open({
      "mem:/a.md": log("1"),
      "mem:/b.md": log("2"),
      "mem:/n.md": "# Notes",
    });
    await remember(service);
    disk.reads = 0;
    await remember(service);
    expect(disk.reads).toBe(0);
    disk.files.set("mem:/c.md", log("3"));
    await service.fileChanged("mem:/c.md");
    await remember(service);
    expect(disk.reads).toBe(1);
    disk.files.delete("mem:/a.md");
    await service.fileChanged("mem:/a.md");
    await remember(service);
    expect(jobs(service)).toEqual(["2", "3"]);
  });

  it("left half read goes on with the files that are left, and shows nothing until it is through", async () => {
    const files = Object.fromEntries(Array.from({ length: 9 }, (_, i) => [`mem:/${i}.md`, log(String(i))]));
    const { service } = await open(files);
    let runs = 0;
    do {
      expect(jobs(service)).toEqual([]);
      runs++;
    } while ((await remember(service, 7)) === 7 && runs < 30);
    expect(runs).toBeGreaterThan(3);
    expect(jobs(service)).toEqual(["0", "1", "2", "3", "4", "5", "6", "7", "8"]);
  });

  it("changes what logs are judged by only where the readings of their board did", async () => {
    const files = Object.fromEntries(
      Array.from({ length: 6 }, (_, i) => [`mem:/${i}.md`, log(String(i), `0.57${i}`)]),
    );
    const { service, disk } = await open({
      ...files,
      "mem:/trial.board.yaml": BOARD,
      "mem:/now.md": log("now", "0.573", ""),
    });
    service.open("mem:/now.md", log("now", "0.573").replace("stage: returned", "stage: diagnosing"));
    const none = service.view("mem:/now.md")?.ctx;
    expect(none?.baselines).toBeUndefined();
    await remember(service);
    const ctx = service.view("mem:/now.md")?.ctx;
    expect(ctx).not.toBe(none);
    const [token] = service.earlierJobs("mem:/now.md");
    expect(token).toBeDefined();
    const put = async (uri: string, text: string) => {
      disk.files.set(uri, text);
      await service.fileChanged(uri);
      await remember(service);
      return service.view("mem:/now.md")?.ctx;
    };
    // Prose, a log of another board and one that is not returned.
    expect(await put("mem:/0.md", `${log("0", "0.570")}\nSome prose.\n`)).toBe(ctx);
    expect(await put("mem:/x.md", log("x").replace("board: trial", "board: other"))).toBe(ctx);
    expect(await put("mem:/y.md", log("y").replace("stage: returned", "stage: proving"))).toBe(ctx);
    expect(service.earlierJobs("mem:/now.md")[0]).toBe(token);
    expect(await put("mem:/0.md", log("0", "0.571"))).not.toBe(ctx);
    expect(service.earlierJobs("mem:/now.md")[0]).not.toBe(token);
  });

  it("of the demo changes no verdict: one returned board a type is too few; a warranty that runs is told", async () => {
    const [before, after] = [await openDemo(), await openDemo()];
    await remember(after);
    expect(after.memory().logs.size).toBeGreaterThan(5);
    const told: string[] = [];
    for (const uri of after.memory().logs.keys()) {
      const text = (await after.read(uri)) ?? "";
      const found = after.findingsOf(uri, text);
      told.push(...found.filter(({ code }) => code === "comeback-in-warranty").map(({ fact }) => fact));
      expect(found.filter(({ code }) => code !== "comeback-in-warranty")).toEqual(
        before.findingsOf(uri, text),
      );
    }
    expect(told).toEqual([expect.stringContaining("Job 2026-004 is under warranty")]);
    expect(finish(after.earlierJobsOfAll()).every((it) => it === undefined)).toBe(true);
  });
});

describe("whatever happens to the files", () => {
  const URIS = ["mem:/a.md", "mem:/b.md", "mem:/c.md"] as const;
  const TEXTS = [
    log("1"),
    log("2", "OL", "serial: A\n"),
    `${log("3", "580 mV")}\n## Work done\n\n| Ref | Action |\n|-|-|\n| U6 | replaced |\n`,
    "---\nmendlog: 1\nboard: [\n---\n\n## Diode check\n\n| Ref |",
    "# No log",
    "",
  ] as const;
  const GAUGE =
    "mendlog-procedure: 1\nid: trial-check\ntitle: Trial check\naliases: []\npowered: unpowered\ncolumns:\n  - { role: item, headers: [Item], required: true }\n  - { role: reading, measure: gap, headers: [Gap], quantity: voltage, unit: V, required: true }\npurpose: trial\nsource: invented\n";
  const uri = fc.constantFrom(...URIS);
  const text = fc.constantFrom(...TEXTS);
  const step = fc.oneof(
    fc.record({ kind: fc.constant("write" as const), uri, text }),
    fc.record({ kind: fc.constant("delete" as const), uri }),
    fc.record({ kind: fc.constant("open" as const), uri, text }),
    fc.record({
      kind: fc.constant("type" as const),
      uri,
      at: fc.nat(200),
      put: fc.constantFrom("|", "\n## ", "0.5", "---"),
    }),
    fc.record({ kind: fc.constant("save" as const), uri }),
    fc.record({ kind: fc.constant("close" as const), uri }),
    fc.record({ kind: fc.constant("look" as const), uri }),
    fc.record({ kind: fc.constant("library" as const), on: fc.boolean() }),
    fc.record({ kind: fc.constant("index" as const), steps: fc.nat(6) }),
  );

  it("the memory kept up to date is the one made from scratch", async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(step, { maxLength: 25 }), async (steps) => {
        const { service, disk } = await open({ "mem:/a.md": TEXTS[0] });
        for (const it of steps) {
          if (it.kind === "write" || it.kind === "delete") {
            if (it.kind === "write") disk.files.set(it.uri, it.text);
            else disk.files.delete(it.uri);
            await service.fileChanged(it.uri);
          } else if (it.kind === "open") service.open(it.uri, it.text);
          else if (it.kind === "type") {
            const length = service.text(it.uri)?.length;
            const at = length === undefined ? 0 : it.at % (length + 1);
            service.edit(it.uri, [{ span: { start: at, end: at }, newText: it.put }]);
          } else if (it.kind === "save") {
            const typed = service.text(it.uri);
            if (typed === undefined) continue;
            disk.files.set(it.uri, typed);
            await service.fileChanged(it.uri);
          } else if (it.kind === "close") await service.close(it.uri);
          else if (it.kind === "look") service.findings(it.uri);
          else if (it.kind === "library") {
            const path = "mem:/trial.procedure.yaml";
            if (it.on) disk.files.set(path, GAUGE);
            else disk.files.delete(path);
            await service.fileChanged(path);
          } else await remember(service, it.steps);
        }
        await remember(service);
        const fresh = new Service(disk);
        await fresh.load();
        await remember(fresh);
        expect([...service.memory().logs]).toEqual([...fresh.memory().logs]);
        expect(service.knowledge.snapshot().procedures).toHaveLength(
          disk.files.has("mem:/trial.procedure.yaml") ? 1 : 0,
        );
      }),
      { numRuns: 60 },
    );
  }, 60_000);
});
