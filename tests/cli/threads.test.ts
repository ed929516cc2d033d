import { describe, expect, it } from "vitest";
import { EXAMPLE_BOARD } from "../../server/src/checks/example-board";
import type { Checked } from "../../server/src/cli/desk";
import type { Disk } from "../../server/src/cli/io";
import type { Opening, Replies, Task, Thread, Threads } from "../../server/src/cli/threads/messages";
import { resultPacker, unpackResults } from "../../server/src/cli/threads/packed-results";
import { FEWEST_FOR_THREADS } from "../../server/src/cli/threads/share-out";
import { worker } from "../../server/src/cli/threads/work";
import { packSums, shareRests, unpackSums } from "../../server/src/workspace/shared-sums";
import { run } from "./memory";

const log = (n: number): string => `---
mendlog: 1
job: J${n}
board: ${n % 3 === 0 ? "example" : `other-${n % 2}`}
serial: ${n % 40}
received: 2026-01-${String(1 + (n % 28)).padStart(2, "0")}
stage: returned
${n % 10 === 0 ? `comeback-of: J${n - 40}\n` : ""}---

# Job ${n}

## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | ${n % 17 === 0 ? "OL" : `0.5${n % 10}`} |
| U14 | 2   | 0.6${n % 7} |
`;

const files: Record<string, string> = { "x.board.yaml": EXAMPLE_BOARD, "notes.md": "# no log\n" };
for (let n = 1; n <= FEWEST_FOR_THREADS + 20; n += 1) files[`logs/${n}.md`] = log(n);
files["logs/odd.md"] = "---\nmendlog: 1\n---\n\0";

/** Threads that work in this one, their tasks and answers copied as a thread would get them. */
const threadsHere =
  (asked: Task["kind"][] = [], fault?: Task["kind"]) =>
  (disk: Disk): Threads => ({
    most: 2,
    start(opening: Opening): Thread {
      const { work } = worker(disk, structuredClone(opening));
      return {
        async ask(task) {
          asked.push(task.kind);
          if (task.kind === fault) throw new Error("A thread ended before its work.");
          return structuredClone(await work(structuredClone(task))) as Replies[typeof task.kind];
        },
        end: async () => {},
      };
    },
  });

describe("a folder of many logs", () => {
  it.each(["human", "json", "sarif"])("reads as %s on threads as it does without", async (format) => {
    const asked: Task["kind"][] = [];
    const alone = await run(["check", ".", "--format", format], files);
    const many = await run(["check", ".", "--format", format], files, { threads: threadsHere(asked) });
    expect(many).toEqual(alone);
    expect(many.code).toBe(2);
    expect(many.out).toContain("diode-out-of-window");
    expect(new Set(asked)).toEqual(new Set(["sum", "recall", "check"]));
  });

  it("is remembered by threads where one file is asked for, which is checked as one of them", async () => {
    const asked: Task["kind"][] = [];
    const alone = await run(["check", "logs/153.md"], files);
    expect(await run(["check", "logs/153.md"], files, { threads: threadsHere(asked) })).toEqual(alone);
    expect(new Set(asked)).toEqual(new Set(["sum"]));
  });

  it("tells of a thread that broke down, and not that nothing was found", async () => {
    const ran = await run(["check", "."], files, { threads: threadsHere([], "check") });
    expect(ran.code).toBe(2);
    expect(ran.err).toContain("A thread ended before its work.");
    expect(ran.out).toBe("");
  });
});

it("what threads tell each other of summaries comes out as it went in", () => {
  const all = [
    { uri: "a" },
    { uri: "b", hash: "1", packed: { head: '{"uri":"b"}', rest: '{"Ω":1}' } },
    { uri: "c", hash: "2", packed: { head: "{}", rest: "" } },
  ];
  const before = structuredClone(all);
  shareRests(all.slice(0, 2));
  const sums = packSums(all);
  expect(sums.bytes).toHaveLength(2);
  const again = unpackSums(structuredClone(sums));
  expect(again.map(({ packed, ...rest }) => (packed ? { ...rest, packed: { ...packed } } : rest))).toEqual(
    before,
  );
  // Who packed them says the same, and reads it from where all do.
  expect(all).toEqual(before);
  new Uint8Array(sums.bytes[0]!).set(new TextEncoder().encode("["));
  expect(all[1]?.packed?.rest).toBe('["Ω":1}');
});

it("what threads tell each other of findings comes out as it went in, and what is alike is small", () => {
  const checked = (n: number): Checked => ({
    is: "checked",
    path: `${n}.md`,
    kind: "log",
    json: JSON.stringify(
      Array.from({ length: 60 }, (_, i) => `\u03a9 ${(i * 7919) % 1009} ${i === n ? n : ""}`),
    ),
    alone: n % 2 === 0,
  });
  const none: Checked[] = [{ is: "no log" }, { is: "unread", reason: "is no text" }];
  const pack = resultPacker();
  for (const results of [none, [...none, checked(1), checked(2)], [checked(3)], []]) {
    const again = unpackResults(structuredClone(pack(results)));
    expect(again.map((one) => ({ ...one }))).toEqual(results);
  }
  const size = pack([checked(5)]).bytes.length;
  expect(size).toBeGreaterThan(0);
  expect(size).toBeLessThan(100);
  // What all are packed by lies there once.
  expect(pack([checked(6)]).like.buffer).toBe(pack([checked(7)]).like.buffer);
});
