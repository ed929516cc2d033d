// A log held against one board that is known to work, from the logs on disk to the sentence.

import { describe, expect, it } from "vitest";
import { hoverLog } from "../../../server/src/features/hover";
import { judgeBlock, type Reference } from "../../../server/src/judge";
import { Service } from "../../../server/src/service";
import { inWords } from "../../../server/src/text/saying";
import { Disk } from "../../support/disk";
import { BOARD, SHOP } from "../../support/judged";
import { everything } from "../../support/words";

const GOOD = "mem:/ws/logs/good.md";
const NOW = "mem:/ws/logs/now.md";

interface Log {
  readonly front?: string;
  readonly heading?: string;
  readonly rows?: string;
  readonly more?: string;
}

/** U6 is a 74LS32, pin 3 an output of it: usually 0.4 V to 0.7 V. */
const log = ({ front = "", heading = "Diode check", rows = "| U6 | 3 | 0.58 |\n", more = "" }: Log): string =>
  `---\nmendlog: 1\nboard: trial\n${front}---\n\n## ${heading}\n\n| Ref | Pin | Reading |\n|-|-|-|\n${rows}${more}`;

const GOOD_FRONT = "job: 2026-003\nreference: true\n";
const good = (it: Log = {}) => log({ ...it, front: GOOD_FRONT + (it.front ?? "") });
const drop = (value: string) => log({ rows: `| U6 | 3 | ${value} |\n` });

async function open(now: string, files: Readonly<Record<string, string>>, knowledge = KNOWN) {
  const disk = new Disk({ ...knowledge, ...files, [NOW]: now });
  const service = new Service(disk);
  await service.load();
  service.open(NOW, now);
  await remember(service);
  return { service, disk };
}

const KNOWN = { "mem:/ws/trial.board.yaml": BOARD, "mem:/ws/mendlog.shop.yaml": SHOP };

async function remember(service: Service): Promise<void> {
  for await (const _ of service.index()) {
    // Nobody else waits for a turn here.
  }
}

function judgedAll(service: Service, uri = NOW) {
  const view = service.view(uri);
  if (!view) throw new Error("not a log");
  return view.doc.blocks.flatMap(({ block }) => [...judgeBlock(block, view.ctx).values()]);
}

function judged(service: Service, uri = NOW) {
  const [first] = judgedAll(service, uri);
  if (!first) throw new Error("no reading");
  return first;
}

/** Low and high without what the last bit of a sum adds. */
const ends = (reference: Reference | undefined) =>
  [reference?.low, reference?.high].map((end) => Number(end?.toFixed(9)));

const by = async (now: string, reference = good(), knowledge = KNOWN) =>
  judged((await open(now, { [GOOD]: reference }, knowledge)).service);

describe("two logs of a board that no file describes, the first a reference", () => {
  const named = (value: string) =>
    `\n## Diode check U5 (7404)\n\n| Pin | Reading |\n|-|-|\n| 1 | ${value} |\n`;
  const of = (front: string, value: string) => `---\nmendlog: 1\n${front}board: halden\n---\n${named(value)}`;
  const reference = of("job: 2026-003\nreference: true\n", "0.48");

  it("tell of a pin that reads 120 mV off inside the family's window, and name the job", async () => {
    const { service } = await open(of("", "0.60"), { [GOOD]: reference }, {} as typeof KNOWN);
    const { says, verdict, reference: held } = judged(service);
    const sentence = [inWords(says), says.more, says.source].filter(Boolean).join(" ");
    expect(verdict).toBe("out-of-limits");
    expect(held).toMatchObject({ kind: "reference-job", low: 0.43, high: 0.53 });
    expect(sentence).toContain("U5 pin 1 (1A) reads 0.6 V; the reference job reads 0.43 V to 0.53 V.");
    expect(sentence).toContain("The chip itself may read so, but other boards do not");
    const [finding] = service.findings(NOW).filter(({ code }) => code === "diode-out-of-window");
    expect(finding?.related?.[0]).toEqual({
      uri: GOOD,
      span: { start: 0, end: 0 },
      message: "job 2026-003 reads 0.48 V here",
    });
    const view = service.view(NOW)!;
    const hover = hoverLog(view, view.doc.text.indexOf("0.60") + 1);
    expect(hover?.markdown).toContain("reference job 2026-003 read 0.48 V there");
    expect(hover?.markdown).not.toContain("Probability");
  });

  it("tell nothing once the key is gone", async () => {
    const files = { [GOOD]: reference.replace("reference: true\n", "") };
    const { service } = await open(of("", "0.60"), files, {} as typeof KNOWN);
    expect(judged(service)).toMatchObject({ verdict: "within-limits", reference: { kind: "family" } });
    expect(service.findings(NOW).filter(({ code }) => code === "diode-out-of-window")).toEqual([]);
  });

  it.each(["reference: false", 'reference: "true"', "reference: yes"])(
    "tell nothing where the job is none: %s",
    async (no) => {
      const files = { [GOOD]: reference.replace("reference: true", no) };
      const { service } = await open(of("", "0.60"), files, {} as typeof KNOWN);
      expect(judged(service).reference?.kind).toBe("family");
    },
  );

  it("compare pins of chips that nobody named as well", async () => {
    const nameless = (text: string) => text.replace(" (7404)", "");
    const { service } = await open(
      nameless(of("", "0.60")),
      { [GOOD]: nameless(reference) },
      {} as typeof KNOWN,
    );
    expect(judged(service)).toMatchObject({
      verdict: "out-of-limits",
      reference: { kind: "reference-job", low: 0.43, high: 0.53 },
    });
    const alone = await open(nameless(of("", "0.60")), {}, {} as typeof KNOWN);
    expect(judged(alone.service).verdict).toBe("unjudged");
  });

  it("do not compare a chip with one of another family", async () => {
    const other = await open(
      of("", "0.60").replace("(7404)", "(74HC04)"),
      { [GOOD]: reference },
      {} as typeof KNOWN,
    );
    expect(judged(other.service).reference?.kind).toBe("family");
  });
});

describe("a reading held against a reference job", () => {
  it.each([
    // 0.58 V: half of the window is the least, 50 mV; the digit typed leaves 5.8 mV open (0.01 / sqrt(12) times 2).
    ["0.58", "within-limits"],
    ["0.63", "within-limits"],
    ["0.64", "suspect"],
    ["0.68", "suspect"],
    ["0.69", "out-of-limits"],
    ["0.52", "suspect"],
    ["0.47", "out-of-limits"],
    ["OL", "out-of-limits"],
    ["0.001", "out-of-limits"],
  ])("%s is %s", async (value, verdict) => {
    const judgement = await by(drop(value));
    expect(judgement.verdict).toBe(verdict);
    expect(judgement.reference).toMatchObject({ kind: "reference-job", unit: "V" });
  });

  it("has the width of the like pins in the job where they spread by more, and no more than the family's window", async () => {
    // Six outputs of 74LS chips, none on a rail: the drop of U6 pin 3 and five others.
    const outputs = ["U6 | 3", "U6 | 6", "U6 | 8", "U6 | 11", "U1 | 2", "U1 | 4"];
    const spread = (values: readonly string[]) =>
      good({ rows: values.map((value, i) => `| ${outputs[i]} | ${value} |\n`).join("") });
    // Median 0.575, median distance 0.015: 22.2 mV. Student's t of five is 2.571, the digit typed leaves 2.89 mV open:
    // 2.571 * sqrt(2 * 22.24^2 + 2.89^2) mV = 81.2 mV.
    const some = (await by(drop("0.65"), spread(["0.58", "0.55", "0.56", "0.59", "0.60", "0.57"]))).reference;
    expect(some?.low).toBeCloseTo(0.58 - 0.0812, 4);
    expect(some?.high).toBeCloseTo(0.58 + 0.0812, 4);
    expect(some?.source).toContain("one board, ±81 mV: its 6 like pins spread by 22 mV");
    const wide = await by(drop("0.71"), spread(["0.58", "0.50", "0.54", "0.62", "0.66", "0.46"]));
    expect(ends(wide.reference)).toEqual([0.4, 0.7]);
    expect(wide.verdict).toBe("out-of-limits");
  });

  it("says of a doubtful one what to do, and of none that it is good", async () => {
    const { says } = await by(drop("0.66"));
    const sentence = [inWords(says), says.more, says.source].filter(Boolean).join(" ");
    expect(sentence).toContain("It differs from the reference job, but not by much");
    expect(everything(await by(drop("0.58")))).toContain("Not disproved");
  });

  it("comes after the board file's expectation", async () => {
    // BOARD expects 0.50 V to 0.56 V at U2 pin 3, three boards.
    const rows = (value: string) => `| U2 | 3 | ${value} |\n`;
    const judgement = await by(log({ rows: rows("0.60") }), good({ rows: rows("0.58") }));
    expect(judgement).toMatchObject({ verdict: "out-of-limits", reference: { kind: "board" } });
  });

  it("comes after the boards this shop returned, once there are enough of them", async () => {
    const returned = (n: number) =>
      log({ front: `job: J${n}\nserial: "${n}"\nstage: returned\n`, rows: `| U6 | 3 | 0.65${n} |\n` });
    const files = (count: number) =>
      Object.fromEntries(Array.from({ length: count }, (_, i) => [`mem:/ws/logs/j${i}.md`, returned(i)]));
    const kindWith = async (count: number) =>
      judged((await open(drop("0.652"), { [GOOD]: good(), ...files(count) })).service).reference?.kind;
    expect(await kindWith(4)).toBe("reference-job");
    expect(await kindWith(5)).toBe("shop");
  });

  it("leaves a ground pin to what ground is", async () => {
    const rows = (value: string) => `| U2 | 8 | ${value} |\n`;
    const { verdict, reference } = await by(log({ rows: rows("0.07") }), good({ rows: rows("0.02") }));
    expect({ verdict, kind: reference?.kind }).toEqual({ verdict: "out-of-limits", kind: "physics" });
  });

  it("leaves the rail's own limits first, and judges what has none", async () => {
    const rails = (front: string, dc: string, load: string) =>
      `---\nmendlog: 1\nboard: trial\n${front}---\n\n## Supply rails, loaded\n\n| Rail | DC | Current |\n|-|-|-|\n| +5V | ${dc} | ${load} |\n`;
    const { service } = await open(rails("", "4.90", "1.6 A"), {
      [GOOD]: rails(GOOD_FRONT, "5.21", "1.0 A"),
    });
    const [dc, load] = judgedAll(service);
    expect(dc).toMatchObject({ verdict: "within-limits", reference: { kind: "board" } });
    expect(load).toMatchObject({ verdict: "out-of-limits", reference: { kind: "reference-job" } });
    expect(everything(load)).toContain("at least ±20 % by common practice, no source");
  });

  it("leaves levels and parts out of circuit alone", async () => {
    const levels = { heading: "Logic levels", rows: "| U6 | 3 | 3.4 |\n" };
    const now = log({ ...levels, rows: "| U6 | 3 | 2.6 |\n" });
    expect((await by(now, good(levels))).reference?.kind).not.toBe("reference-job");
    const passive = { heading: "Resistance", rows: "| R1 | | 9k9 |\n" };
    const read = await by(log({ ...passive, rows: "| R1 | | 4k |\n" }), good(passive));
    expect(read.reference?.kind).not.toBe("reference-job");
  });

  it("is none where the job read open, or where what it read before the repair was wrong itself", async () => {
    const kind = async (reference: string) => (await by(drop("0.58"), reference)).reference?.kind;
    const rows = (value: string) => `| U6 | 3 | ${value} |\n`;
    expect(await kind(good({ rows: rows("OL"), heading: "Diode check after repair" }))).toBe("family");
    expect(await kind(good({ rows: rows("0.9"), heading: "Diode check before repair" }))).toBe("family");
    const work = "\n## Work done\n\n| Ref | Action |\n|-|-|\n| U6 | replaced |\n";
    expect(await kind(good({ rows: rows("0.6"), more: work }))).toBe("family");
    expect(await kind(good({ rows: rows("0.6"), more: work.replace("replaced", "reflowed") }))).toBe(
      "reference-job",
    );
  });

  it("never judges the reference log itself, but by another one", async () => {
    const { service } = await open(drop("0.58"), { [GOOD]: good() });
    service.open(GOOD, good());
    expect(judged(service, GOOD).reference?.kind).toBe("family");
    const second = "mem:/ws/logs/second.md";
    const two = await open(drop("0.58"), { [GOOD]: good(), [second]: good().replace("003", "009") });
    two.service.open(second, good().replace("003", "009"));
    expect(judged(two.service, second).reference?.jobs).toEqual([
      { uri: GOOD, job: "2026-003", value: 0.58 },
    ]);
  });
});

describe("several reference jobs", () => {
  const second = "mem:/ws/logs/second.md";
  const held = async (other: string, now = drop("0.58")) =>
    judged((await open(now, { [GOOD]: good(), [second]: other })).service).reference;
  const at = (value: string, front = "") =>
    log({ front: `job: 2026-009\nreference: true\n${front}`, rows: `| U6 | 3 | ${value} |\n` });

  it("allow what each of them allows", async () => {
    const reference = await held(at("0.62"));
    expect(ends(reference)).toEqual([0.53, 0.67]);
    expect(reference?.beyond).toEqual({ low: 0.48, high: 0.72 });
    expect(reference?.of).toBe("the window from the reference jobs");
    expect(reference?.source).toContain("2026-003 and 2026-009 read 0.58 V and 0.62 V there; 2 boards, each");
  });

  it("say nothing where one of them reads open", async () => {
    const repaired = at("OL").replace("## Diode check", "## Diode check after repair");
    expect((await held(repaired))?.kind).toBe("family");
    // Found before any repair, an open clamp is a fault and nothing that a board of the type reads.
    expect(ends(await held(at("OL")))).toEqual([0.53, 0.63]);
  });

  it("are one where they are one board, read twice", async () => {
    const front = 'serial: "7"\nreturned: 2026-02-01\n';
    const first = good({ front: 'serial: "7"\nreturned: 2026-01-01\n' });
    const { service } = await open(drop("0.58"), { [GOOD]: first, [second]: at("0.62", front) });
    expect(judged(service).reference?.jobs).toEqual([{ uri: second, job: "2026-009", value: 0.62 }]);
  });

  it("count only where the board did not come back", async () => {
    const back = log({ front: "job: 2026-020\ncomeback-of: 2026-003\n", rows: "| U1 | 1 | 0.5 |\n" });
    expect((await held(back))?.kind).toBe("family");
  });

  it("are those of the board's own revision where there is one", async () => {
    const b = at("0.62", "revision: B\n");
    const now = log({ front: "revision: B\n" });
    expect(ends(await held(b, now))).toEqual([0.57, 0.67]);
    const c = await held(b, log({ front: "revision: C\n" }));
    expect(c?.source).toContain("2026-009 (revision B)");
  });
});

describe("what is kept", () => {
  it("is read once, and is the same object until a reference job changes", async () => {
    const { service, disk } = await open(drop("0.66"), { [GOOD]: good() });
    const ctx = service.view(NOW)?.ctx;
    const stamp = service.earlierJobs(NOW);
    expect(ctx?.references).toBeDefined();
    const put = async (uri: string, text: string) => {
      disk.files.set(uri, text);
      await service.fileChanged(uri);
      await remember(service);
      return service.view(NOW)?.ctx;
    };
    expect(await put(GOOD, `${good()}\nSome prose.\n`)).toBe(ctx);
    expect(await put("mem:/ws/logs/x.md", drop("0.6"))).toBe(ctx);
    service.open(NOW, drop("0.67"));
    expect(service.view(NOW)?.ctx).toBe(ctx);
    expect(service.earlierJobs(NOW)).toEqual(stamp);
    const { reads } = disk;
    judgedAll(service);
    service.findings(NOW);
    expect(disk.reads).toBe(reads);
    expect(await put(GOOD, good({ rows: "| U6 | 3 | 0.61 |\n" }))).not.toBe(ctx);
    expect(service.earlierJobs(NOW)[1]).not.toBe(stamp[1]);
    expect(judged(service).verdict).toBe("suspect");
    expect(ends(judged(service).reference)).toEqual([0.56, 0.66]);
    expect((await put(GOOD, log({ front: "job: 2026-003\n" })))?.references).toBeUndefined();
  });
});
