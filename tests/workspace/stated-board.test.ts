// Logs that no board file stands beside: what they say of their board is what they are judged by.
import { describe, expect, it } from "vitest";
import type { Service } from "../../server/src/service";
import { Service as Made } from "../../server/src/service";
import { Disk } from "../support/disk";

const HEAD = (board: string, more = "") =>
  `---\nmendlog: 1\n${board ? `board: ${board}\n` : ""}${more}---\n\n`;
const table = (...rows: string[]) =>
  `## Diode check\n\n| Ref | Device | Pin | Reading |\n|-----|--------|-----|---------|\n${rows.map((row) => `| ${row} |\n`).join("")}`;
const plain = (...rows: string[]) =>
  `## Diode check\n\n| Ref | Pin | Reading |\n|-----|-----|---------|\n${rows.map((row) => `| ${row} |\n`).join("")}`;

async function open(files: Readonly<Record<string, string>>, edited = Object.keys(files)): Promise<Service> {
  const disk = new Disk(files);
  const service = new Made(disk);
  await service.load();
  for (const uri of edited) service.open(uri, files[uri] ?? "");
  for await (const _ of service.index());
  return service;
}

const codes = (service: Service, uri: string) =>
  service
    .findings(uri)
    .flatMap(({ code, severity }) => (severity === "hint" || code.includes("board") ? [] : [code]));

describe("a log alone", () => {
  it("judges by the number beside the designator and says whose word that is", async () => {
    const service = await open({
      "mem:/log.md": HEAD("") + table("U5 | 7404 | 1 | 0.000", "U5 | 7404 | 2 | 0.58"),
    });
    const found = service.findings("mem:/log.md").filter(({ code }) => code === "diode-out-of-window");
    expect(found).toHaveLength(1);
    expect(found[0]?.more).toContain("U5 is a 7404, as this log says in line 9.");
    expect(found[0]?.message.slice(0, 100)).toContain("U5 pin 1 (1A) reads 0 V");
    expect(found[0]?.related?.at(-1)?.uri).toBe("mem:/log.md");
  });

  it("names the right line after lines were put in above, without judging anything again", async () => {
    const uri = "mem:/log.md";
    const service = await open({ [uri]: `${HEAD("")}# Log\n\n${table("U5 | 7404 | 1 | 0.000")}` });
    const before = service.view(uri)?.ctx;
    service.edit(uri, [{ span: { start: 22, end: 22 }, newText: "One more line.\n\n" }]);
    expect(service.view(uri)?.ctx).toBe(before);
    expect(service.findings(uri).find(({ code }) => code === "diode-out-of-window")?.more).toContain(
      "in line 13.",
    );
  });

  it("keeps its context while readings are typed, and takes a new one where a number is", async () => {
    const uri = "mem:/log.md";
    const service = await open({ [uri]: HEAD("") + table("U5 | 7404 | 1 | 0.58") });
    const before = service.view(uri)?.ctx;
    const type = (old: string, now: string) => {
      const start = service.text(uri)?.indexOf(old) ?? -1;
      service.edit(uri, [{ span: { start, end: start + old.length }, newText: now }]);
    };
    type("0.58", "0.001");
    expect(service.view(uri)?.ctx).toBe(before);
    expect(codes(service, uri)).toEqual(["diode-out-of-window"]);
    type("7404", "7473");
    expect(service.view(uri)?.ctx).not.toBe(before);
  });

  it("takes the first word on a part, and what was fitted from the next section on", async () => {
    const uri = "mem:/log.md";
    const levels = "## Logic levels\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U5 | 1 | 2.5 V |\n";
    const work = (part: string) =>
      `## Work done\n\n| Ref | Action | Part |\n|-|-|-|\n| U5 | replaced | ${part} |\n\n`;
    const list = "## Parts\n\n| Ref | Device |\n|-|-|\n| U5 | 74LS04 |\n\n";
    // 2.5 V is high for TTL and no level for HC at 5 V.
    const count = async (text: string) =>
      (await open({ [uri]: text })).findings(uri).filter(({ code }) => code === "level-undefined").length;
    expect(await count(`${HEAD("")}${list}${levels}`)).toBe(0);
    expect(await count(`${HEAD("")}${list}${levels}\n${work("74HC04")}`)).toBe(0);
    expect(await count(`${HEAD("")}${list}${work("74HC04")}${levels}`)).toBe(1);
    expect(
      await count(
        `${HEAD("")}${list}${work("74HC04")}${levels}\n${work("SN74LS04N")}## Logic levels, again\n${levels.slice(levels.indexOf("\n"))}`,
      ),
    ).toBe(1);
  });

  it("joins supply and ground pins to its rails by themselves", async () => {
    const uri = "mem:/log.md";
    const rails = "## Supply rails\n\n| Rail | Reading |\n|-|-|\n| +5V | 5.0 V |\n\n";
    const service = await open({
      [uri]: HEAD("") + rails + table("U5 | 7404 | 14 | 0.4", "U6 | 74LS00 | 14 | 0.4"),
    });
    const nets = service.view(uri)?.ctx.board?.value.nets;
    expect(nets?.get("+5V")?.pins).toEqual([
      { ref: "U5", pin: "14" },
      { ref: "U6", pin: "14" },
    ]);
    expect(nets?.get("GND")?.pins).toEqual([
      { ref: "U5", pin: "7" },
      { ref: "U6", pin: "7" },
    ]);
  });
});

describe("logs of one board that no file describes", () => {
  const first = HEAD("timer", "job: 2026-001\nreceived: 2026-01-05\n") + table("U5 | 7404 | 2 | 0.58");
  const second = HEAD("timer", "job: 2026-002\nreceived: 2026-02-05\n") + plain("U5 | 1 | 0.000");

  it("share what they say of it", async () => {
    const service = await open({ "mem:/1.md": first, "mem:/2.md": second });
    const [found] = service.findings("mem:/2.md").filter(({ code }) => code === "diode-out-of-window");
    expect(found?.more).toContain("U5 is a 7404, as the log of job 2026-001 says.");
    expect(found?.related?.at(-1)?.uri).toBe("mem:/1.md");
  });

  it("find the same closed and open", async () => {
    const files = { "mem:/1.md": first, "mem:/2.md": second };
    const closed = await open(files, []);
    const opened = await open(files);
    for (const uri of Object.keys(files)) {
      const text = files[uri as keyof typeof files];
      expect(closed.findingsOf(uri, text)).toEqual(opened.findings(uri));
    }
  });

  it("do not decide where as many say one number as another", async () => {
    const third = HEAD("timer", "job: 2026-003\nreceived: 2026-03-05\n") + table("U5 | 7408 | 2 | 0.58");
    const service = await open({ "mem:/1.md": first, "mem:/2.md": second, "mem:/3.md": third });
    expect(service.view("mem:/2.md")?.ctx.board?.value.parts.get("U5")?.device).toBeUndefined();
    // The log's own word stands over all others.
    expect(service.view("mem:/3.md")?.ctx.board?.value.parts.get("U5")?.device).toBe("7408");
  });

  it("mean one number by all ways of writing it", async () => {
    const third = HEAD("timer", "job: 2026-003\nreceived: 2026-03-05\n") + table("U5 | SN7404N | 2 | 0.58");
    const service = await open({ "mem:/1.md": first, "mem:/2.md": second, "mem:/3.md": third });
    expect(codes(service, "mem:/2.md")).toEqual(["diode-out-of-window"]);
  });

  it("know a part by what was read there, whatever another board got fitted", async () => {
    const work = "## Work done\n\n| Ref | Action | Part |\n|-|-|-|\n| U5 | replaced | 74HCT04 |\n";
    const third = HEAD("timer", "job: 2026-003\nreceived: 2026-03-05\n") + work;
    const device = async (files: Readonly<Record<string, string>>) =>
      (await open({ ...files, "mem:/2.md": second })).view("mem:/2.md")?.ctx.board?.value.parts.get("U5")
        ?.device;
    expect(await device({ "mem:/1.md": first, "mem:/3.md": third })).toBe("7404");
    expect(await device({ "mem:/3.md": third })).toBe("74HCT04");
  });

  it("are not mixed with those of another board, nor with a board that has a file", async () => {
    const other = second.replace("board: timer", "board: other");
    const file = "mendlog-board: 1\nid: timer\ntitle: Timer\nparts:\n  U9: { device: 7400 }\n";
    const service = await open({ "mem:/1.md": first, "mem:/2.md": other });
    expect(service.view("mem:/2.md")?.ctx.board).toBeUndefined();
    const filed = await open({ "mem:/1.md": first, "mem:/2.md": second, "mem:/timer.board.yaml": file }, [
      "mem:/2.md",
    ]);
    expect(filed.view("mem:/2.md")?.ctx.board?.value.parts.has("U5")).toBe(false);
  });

  it("speak for themselves as they stand in the editor", async () => {
    const uri = "mem:/1.md";
    const service = await open({ [uri]: first });
    service.open(uri, HEAD("timer", "job: 2026-001\n") + plain("U5 | 1 | 0.000"));
    expect(codes(service, uri)).toEqual([]);
  });
});

describe("returned boards that no file describes", () => {
  const job = (n: number, reading: string, device: string, stage = "returned") =>
    HEAD(
      "timer",
      `job: 2026-00${n}\nserial: "${n}"\nreceived: 2026-01-0${n}\n${stage === "returned" ? `returned: 2026-02-0${n}\n` : ""}stage: ${stage}\n`,
    ) + (device ? table(`U5 | ${device} | 1 | ${reading}`) : plain(`U5 | 1 | ${reading}`));

  it.each(["7404", ""])(
    "are what the next one is held against, with their chips' numbers or without (%s)",
    async (device) => {
      const files: Record<string, string> = { "mem:/9.md": job(9, "0.68", "", "diagnosing") };
      for (let n = 1; n <= 6; n++) files[`mem:/${n}.md`] = job(n, (0.58 + n / 1000).toFixed(3), device);
      const service = await open(files, ["mem:/9.md"]);
      const [found] = service.findings("mem:/9.md").filter(({ code }) => code === "diode-out-of-window");
      expect(found?.message).toContain("6 boards returned here read");
      expect(found?.source).toContain("this shop's own readings: 6 returned boards");
    },
  );
});

describe("over a board file", () => {
  const file = (parts: string) =>
    `mendlog-board: 1\nid: timer\ntitle: Timer\nrails:\n  "+5V": { nominal: 5 V, tolerance: 5 % }\nparts:\n  ${parts}\n`;
  const uri = "mem:/log.md";
  const judged = async (parts: string, text: string) => {
    const service = await open({ [uri]: HEAD("timer") + text, "mem:/timer.board.yaml": file(parts) }, [uri]);
    return service.view(uri)?.ctx;
  };

  it("the log's own word on a part holds, and the rest is the file's", async () => {
    const ctx = await judged("U5: { device: 7404, circuit: x }", table("U5 | 7408 | 1 | 0.58"));
    expect(ctx?.board?.value.parts.get("U5")).toMatchObject({ device: "7408", circuit: "x" });
    expect([...(ctx?.stated?.parts.keys() ?? [])]).toEqual(["U5"]);
  });

  it("the same number in other words is no news, and the board is the very one of all logs", async () => {
    const ctx = await judged("U5: { device: 7404 }", table("U5 | SN7404N | 1 | 0.58"));
    expect(ctx?.stated).toBeUndefined();
  });

  it("pins that the library knows are on the rails follow, unless the file says otherwise", async () => {
    const ctx = await judged("U5: { device: 7404 }\nnets:\n  VX: [U5.14]", "");
    expect(ctx?.board?.value.nets.get("VX")?.pins).toEqual([{ ref: "U5", pin: "14" }]);
    expect(ctx?.board?.value.nets.get("GND")?.pins).toEqual([{ ref: "U5", pin: "7" }]);
    expect(ctx?.board?.value.nets.get("+5V")).toBeUndefined();
  });
});
