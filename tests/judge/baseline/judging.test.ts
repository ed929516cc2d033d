// A log held against the boards this shop returned, from the logs on disk to the sentence.

import { describe, expect, it } from "vitest";
import { hoverLog } from "../../../server/src/features/hover";
import { judgeBlock } from "../../../server/src/judge";
import { Service } from "../../../server/src/service";
import { inWords } from "../../../server/src/text/saying";
import { Disk } from "../../support/disk";
import { BOARD, SHOP } from "../../support/judged";

const NOW = "mem:/ws/logs/now.md";
/** U6 pin 3, a 74LS32's output: usually 0.4 V to 0.7 V. */
const DROPS = ["0.570", "0.571", "0.572", "0.573", "0.574", "0.575", "0.576"];

interface Job {
  readonly n: number;
  readonly drop: number | string;
  readonly front?: string;
  readonly stage?: string;
  readonly heading?: string;
  readonly more?: string;
}

const table = (pin: string, drop: number | string) =>
  `| Ref | Pin | Reading |\n|-|-|-|\n| U6 | ${pin} | ${drop} |\n`;
const job = ({
  n,
  drop,
  front = "",
  stage = "returned",
  heading = "Diode check after repair",
  more = "",
}: Job) =>
  `---\nmendlog: 1\njob: J${n}\nboard: trial\nserial: "${n}"\nreturned: 2026-01-${String(n).padStart(2, "0")}\nstage: ${stage}\n${front}---\n\n## ${heading}\n\n${table("3", drop)}\n${more}`;
const uriOf = (n: number) => `mem:/ws/logs/j${n}.md`;

async function bench(
  jobs: readonly Job[],
  now = table("3", "0.573"),
  front = "board: trial",
  heading = "Diode check",
) {
  const text = `---\nmendlog: 1\n${front}\n---\n\n## ${heading}\n\n${now}`;
  const disk = new Disk({
    "mem:/ws/trial.board.yaml": BOARD,
    "mem:/ws/mendlog.shop.yaml": SHOP,
    ...Object.fromEntries(jobs.map((it) => [uriOf(it.n), job(it)])),
    [NOW]: text,
  });
  const service = new Service(disk);
  await service.load();
  service.open(NOW, text);
  await remember(service);
  return { service, disk };
}

async function remember(service: Service): Promise<void> {
  for await (const _ of service.index()) {
    // Nobody else waits for a turn here.
  }
}

function judged(service: Service, uri = NOW) {
  const view = service.view(uri);
  if (!view) throw new Error("not a log");
  const all = view.doc.blocks.flatMap(({ block }) => [...judgeBlock(block, view.ctx).values()]);
  const [first] = all;
  if (!first) throw new Error("no reading");
  return first;
}

const seven = DROPS.map((drop, i): Job => ({ n: i + 1, drop }));
/** The reading in question held against these jobs. */
const by = async (jobs: readonly Job[], drop = "0.573", front?: string) =>
  judged((await bench(jobs, table("3", drop), front)).service);

describe("a reading where seven boards were returned", () => {
  it.each([
    ["0.573", "within-limits"],
    // 0.573 ± 4.0 * 0.00216, then as much again.
    ["0.580", "within-limits"],
    ["0.583", "suspect"],
    ["0.562", "suspect"],
    ["0.595", "out-of-limits"],
    ["0.550", "out-of-limits"],
    ["OL", "out-of-limits"],
  ])("%s is %s by them, all inside the family's window but the last", async (drop, verdict) => {
    const judgement = await by(seven, drop);
    expect(judgement.verdict).toBe(verdict);
    expect(judgement.reference).toMatchObject({ kind: "shop", unit: "V" });
    expect(judgement.code).toBe(verdict === "within-limits" ? undefined : "diode-out-of-window");
  });

  it("names them, and points to the two returned last", async () => {
    const { service } = await bench(seven, table("3", "0.583"));
    const { says, reference } = judged(service);
    const sentence = [inWords(says), says.more, says.source].filter(Boolean).join(" ");
    expect(sentence).toContain("boards returned here read 0.564");
    expect(reference?.source).toContain(
      "this shop's own readings: 7 returned boards, 95 %/95 % tolerance interval; jobs J7, J6, J5, J4 and 3 more",
    );
    expect(sentence).toContain("before you blame a part");
    expect(reference?.jobs).toEqual([
      { uri: uriOf(7), job: "J7", value: 0.576 },
      { uri: uriOf(6), job: "J6", value: 0.575 },
    ]);
    const [finding] = service.findings(NOW).filter(({ code }) => code === "diode-out-of-window");
    expect(finding).toMatchObject({ severity: "information" });
    expect(finding?.related).toEqual([
      { uri: uriOf(7), span: { start: 0, end: 0 }, message: "job J7 reads 0.576 V here" },
      { uri: uriOf(6), span: { start: 0, end: 0 }, message: "job J6 reads 0.575 V here" },
    ]);
    const view = service.view(NOW)!;
    const hover = hoverLog(view, view.doc.text.indexOf("0.583") + 1);
    expect(hover?.markdown).toContain("7 returned boards");
    expect(hover?.markdown).toContain("Suspect");
  });

  it("comes after the board file's expectation", async () => {
    // BOARD expects 0.50 V to 0.56 V at U2 pin 3, three boards.
    const at = (text: string) => text.replaceAll("U6", "U2");
    const { service, disk } = await bench([], at(table("3", "0.52")));
    for (const it of seven) disk.files.set(uriOf(it.n), at(job(it)));
    for (const it of seven) await service.fileChanged(uriOf(it.n));
    await remember(service);
    expect(judged(service)).toMatchObject({ verdict: "within-limits", reference: { kind: "board" } });
    expect(service.view(NOW)?.ctx.baselines?.history.jobs).toHaveLength(7);
  });

  it("comes before nothing at all: what had no reference gets one", async () => {
    const heading = "Frequency";
    const clocks = ["1.000", "1.001", "1.002", "0.999", "0.998", "1.000", "1.001"].map(
      (f, i): Job => ({ n: i + 1, drop: `${f} MHz`, heading: "Frequency after repair" }),
    );
    const rows = (f: string) => `| Ref | Pin | Reading |\n|-|-|-|\n| U6 | 3 | ${f} |\n`;
    const { service } = await bench(clocks, rows("0.5 MHz"), "board: trial", heading);
    expect(judged(service)).toMatchObject({ verdict: "out-of-limits", code: "outside-expected" });
    const without = await bench([], rows("0.5 MHz"), "board: trial", heading);
    expect(judged(without.service).verdict).toBe("unjudged");
  });

  it("leaves logic levels alone, which hang on what the board was doing", async () => {
    const levels = seven.map((it): Job => ({ ...it, drop: "3.4", heading: "Logic levels after repair" }));
    const { service } = await bench(levels, table("3", "1.4"), "board: trial", "Logic levels");
    expect(judged(service).reference?.kind).not.toBe("shop");
    expect(judged(service).verdict).not.toBe("within-limits");
  });

  it("is compared with the same load only", async () => {
    const rails = seven.map(
      (it): Job => ({
        ...it,
        heading: "Supply rails, loaded",
        drop: 1,
        more: `\n## Supply rails, loaded\n\n| Rail | Current |\n|-|-|\n| +5V | ${(1.1 + it.n / 1000).toFixed(3)} |\n`,
      }),
    );
    const now = "| Rail | Current |\n|-|-|\n| 5V | 1.9 A |\n";
    const loaded = await bench(rails, now, "board: trial", "Supply rails, loaded");
    expect(judged(loaded.service)).toMatchObject({ verdict: "out-of-limits", reference: { kind: "shop" } });
    const unloaded = await bench(rails, now, "board: trial", "Supply rails, unloaded");
    expect(judged(unloaded.service).reference?.kind).not.toBe("shop");
  });
});

describe("the boards that count", () => {
  const kindOf = async (jobs: readonly Job[], front?: string) =>
    (await by(jobs, "0.573", front)).reference?.kind;

  it("are five at least", async () => {
    expect(await kindOf(seven.slice(0, 4))).toBe("family");
    expect(await kindOf(seven.slice(0, 5))).toBe("shop");
  });

  it.each(["proving", "scrapped"])("are none of a job whose stage is %s", async (stage) => {
    expect(await kindOf([...seven.slice(0, 4), { n: 5, drop: 0.574, stage }])).toBe("family");
  });

  it("are none of another board", async () => {
    const { service, disk } = await bench(seven.slice(0, 5));
    disk.files.set(uriOf(5), job({ n: 5, drop: 0.574 }).replace("board: trial", "board: other"));
    await service.fileChanged(uriOf(5));
    expect(judged(service).reference?.kind).toBe("shop");
    await remember(service);
    expect(judged(service).reference?.kind).toBe("family");
  });

  it("count once each, by their last job, and not where they came back", async () => {
    const again = job({ n: 5, drop: 0.574 }).replace('serial: "5"', 'serial: "4"');
    const { service, disk } = await bench(seven.slice(0, 4));
    disk.files.set(uriOf(5), again);
    await service.fileChanged(uriOf(5));
    await remember(service);
    expect(judged(service).reference?.kind).toBe("family");
    const back: Job = { n: 8, drop: 0.574, stage: "received", front: "comeback-of: J5\n" };
    expect(await kindOf([...seven.slice(0, 5), back])).toBe("family");
  });

  it("are of the log's own revision where there are enough of it", async () => {
    const old = seven.slice(0, 5).map((it): Job => ({ ...it, front: "revision: A\n" }));
    const later = [0.62, 0.621, 0.622, 0.623, 0.624].map(
      (drop, i): Job => ({ n: 11 + i, drop, front: "revision: B\n" }),
    );
    const on = async (front: string) => (await by([...old, ...later], "0.622", front)).reference;
    expect((await on("board: trial\nrevision: B"))?.source).toContain("5 returned boards of revision B");
    expect((await on("board: trial\nrevision: C"))?.source).toContain("10 returned boards,");
    expect((await on("board: trial"))?.source).toContain("10 returned boards,");
  });

  it("are never the log itself", async () => {
    const { service } = await bench(seven.slice(0, 5));
    service.open(uriOf(5), job(seven[4]!));
    expect(judged(service, uriOf(5)).reference?.kind).toBe("family");
    const six = await bench(seven.slice(0, 6));
    six.service.open(uriOf(5), job(seven[4]!));
    const { reference } = judged(six.service, uriOf(5));
    expect(reference?.source).toContain("5 returned boards");
    expect(reference?.source).not.toContain("J5");
  });

  it("are read under any name of the pin", async () => {
    const jobs = seven.map((it): Job => ({ ...it, more: "" }));
    const { service, disk } = await bench(jobs);
    const names = ["3", "pin 3", "03", "1Y", "p3", "3 (1Y)", "1y"];
    for (const [i, it] of jobs.entries())
      disk.files.set(uriOf(it.n), job(it).replace("| 3 |", `| ${names[i]} |`));
    for (const it of jobs) await service.fileChanged(uriOf(it.n));
    await remember(service);
    expect(judged(service).reference?.source).toContain("7 returned boards");
  });
});

describe("the reading that counts of a job", () => {
  const n = 5;
  const four = seven.slice(0, 4);
  const source = async (it: Job) => (await by([...four, it])).reference?.kind;

  it("is the last one after repair", async () => {
    const more = `\n## Diode check after repair\n\n${table("3", 0.574)}`;
    const found = await by([...four, { n, drop: 0.9, more }]);
    expect(found.reference?.jobs?.[0]).toMatchObject({ job: "J5", value: 0.574 });
    const before = await by([
      ...four,
      { n, drop: 0.574, more: more.replace("after", "before").replace("0.574", "0.5") },
    ]);
    expect(before.reference?.jobs?.[0]).toMatchObject({ value: 0.574 });
  });

  it("may be one before repair, of a part that stayed and that nothing accuses", async () => {
    const heading = "Diode check before repair";
    expect(await source({ n, drop: 0.574, heading })).toBe("shop");
    // Above the family's window: it may be the fault itself.
    expect(await source({ n, drop: 0.9, heading })).toBe("family");
    const work = (action: string) => `\n## Work done\n\n| Ref | Action |\n|-|-|\n| U6 | ${action} |\n`;
    expect(await source({ n, drop: 0.574, heading, more: work("replaced") })).toBe("family");
    expect(await source({ n, drop: 0.574, heading, more: work("reflowed") })).toBe("shop");
  });

  it("is after repair too where it stands below the work", async () => {
    const more = `\n## Work done\n\n| Ref | Action |\n|-|-|\n| U6 | replaced |\n\n## Diode check\n\n${table("3", 0.574)}`;
    const found = await by([...four, { n, drop: 0.5, heading: "Diode check", more }]);
    expect(found.reference?.jobs?.[0]).toMatchObject({ value: 0.574 });
  });

  it.each(["0.5-0.6", "~0.574", ">0.5", "O.574"])("is not %s, which is no single value", async (drop) => {
    expect(await source({ n, drop })).toBe("family");
  });

  it("is left out and told of where it is unlike all others", async () => {
    const found = await by([...seven.slice(0, 5), { n: 6, drop: 0.69 }]);
    expect(found.reference?.source).toContain("5 returned boards, 1 more left out as unlike the others,");
  });
});
