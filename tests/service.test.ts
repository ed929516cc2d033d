import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { checkOf } from "../server/src/checks/registry";
import { type CheckSettings, DEFAULT_SETTINGS } from "../server/src/checks/run";
import { judgeBlock } from "../server/src/judge";
import { Service } from "../server/src/service";
import { bigLog, type PlainBoard } from "./fixtures/big-log.js";
import { demoText, openDemo } from "./support/demo";
import { Disk } from "./support/disk";

const LOG = "mem:/ws/logs/1.md";
const BOARD = "mem:/ws/x.board.yaml";
const board = (limit: string) =>
  `mendlog-board: 1\nid: x\ntitle: X\nsource: invented\nrails:\n  "+5V": { nominal: 5 V, tolerance: ${limit}, source: invented }\n`;
const log = (reading: string, front = "") =>
  `---\nmendlog: 1\nboard: x\n${front}---\n\n## Supply rails\n\n| Rail | DC |\n|-|-|\n| +5V | ${reading} |\n`;

async function open(reading = "4.60"): Promise<{ service: Service; disk: Disk }> {
  const disk = new Disk({ [BOARD]: board("5 %") });
  const service = new Service(disk);
  await service.load();
  service.open(LOG, log(reading));
  return { service, disk };
}

const codes = (service: Service, uri = LOG) => service.findings(uri).map(({ code }) => code);

describe("knowledge files", () => {
  it("as edited win over the disk, and go back to it on close", async () => {
    const { service, disk } = await open();
    expect(codes(service)).toEqual(["rail-out-of-tolerance"]);
    service.open(BOARD, board("10 %"));
    expect(codes(service)).toEqual([]);
    disk.files.set(BOARD, board("1 %"));
    expect(await service.fileChanged(BOARD)).toBe(false);
    expect(codes(service)).toEqual([]);
    const at = board("10 %").indexOf("10 %");
    service.edit(BOARD, [{ span: { start: at, end: at + 2 }, newText: "2" }]);
    expect(service.text(BOARD)).toBe(board("2 %"));
    expect(codes(service)).toEqual(["rail-out-of-tolerance"]);
    disk.files.set(BOARD, board("20 %"));
    await service.close(BOARD);
    expect(service.text(BOARD)).toBe(board("20 %"));
    expect(codes(service)).toEqual([]);
  });

  it("changed, made and deleted on disk change the findings", async () => {
    const { service, disk } = await open("4.70");
    disk.files.set(BOARD, board("10 %"));
    expect(await service.fileChanged(BOARD)).toBe(true);
    expect(await service.fileChanged(BOARD)).toBe(false);
    expect(codes(service)).toEqual([]);
    disk.files.delete(BOARD);
    expect(await service.fileChanged(BOARD)).toBe(true);
    // Without the file the rail is judged by its name.
    expect(codes(service)).toEqual(["unknown-board", "rail-out-of-tolerance"]);
    disk.files.set(BOARD, board("1 %"));
    expect(await service.fileChanged(BOARD)).toBe(true);
    expect(codes(service)).toEqual(["rail-out-of-tolerance"]);
    expect(await service.fileChanged(LOG)).toBe(false);
  });

  it("deleted while open stay as edited until they are closed", async () => {
    const { service, disk } = await open();
    service.open(BOARD, board("10 %"));
    disk.files.delete(BOARD);
    await service.fileChanged(BOARD);
    expect(codes(service)).toEqual([]);
    await service.close(BOARD);
    expect(codes(service)).toEqual(["unknown-board", "rail-out-of-tolerance"]);
    expect(service.text(BOARD)).toBeUndefined();
    expect(service.findings(BOARD)).toEqual([]);
    expect(service.knowledgeFile(BOARD)).toBeUndefined();
  });

  it("broken have findings of their own and are given for features", async () => {
    const { service } = await open();
    service.open(BOARD, `${board("5 %")}partz: {}\n`);
    expect(codes(service, BOARD)).toEqual(["knowledge-file-invalid"]);
    expect(service.knowledgeFile(BOARD)).toMatchObject({ uri: BOARD, kind: "board" });
    expect(service.knowledgeFile(LOG)).toBeUndefined();
    const [finding] = service.findings(BOARD);
    expect(finding && service.fixes(BOARD, finding)[0]?.edits).toEqual([
      { span: finding?.span, newText: "parts" },
    ]);
  });
});

describe("logs", () => {
  it("are those Markdown files that say so", async () => {
    const { service } = await open();
    service.open("mem:/ws/readme.md", "# Read me\n\n| Ref | Reading |\n|-|-|\n| U1 | O.5 |\n");
    service.open("mem:/ws/log.txt", log("9"));
    expect(service.view("mem:/ws/readme.md")).toBeUndefined();
    expect(service.findings("mem:/ws/readme.md")).toEqual([]);
    expect(service.findings("mem:/ws/log.txt")).toEqual([]);
    expect(service.findingsOf("mem:/ws/other.md", "# no log")).toEqual([]);
    service.edit("mem:/ws/readme.md", [{ span: { start: 0, end: 0 }, newText: "---\nmendlog: 1\n---\n" }]);
    expect(service.view("mem:/ws/readme.md")).toBeDefined();
  });

  it("are forgotten on close, and can be asked about without being opened", async () => {
    const { service, disk } = await open();
    expect(service.openLogs()).toEqual([LOG]);
    await service.close(LOG);
    expect(service.openLogs()).toEqual([]);
    expect(service.findings(LOG)).toEqual([]);
    expect(service.findingsOf(LOG, log("4.60")).map(({ code }) => code)).toEqual(["rail-out-of-tolerance"]);
    expect(service.openLogs()).toEqual([]);
    disk.files.set(LOG, "on disk");
    expect(await service.read(LOG)).toBe("on disk");
    service.open(LOG, "as edited");
    expect(await service.read(LOG)).toBe("as edited");
    expect(await service.files()).toContain(LOG);
  });

  it("not open are not edited", async () => {
    const { service } = await open();
    service.edit("mem:/ws/none.md", [{ span: { start: 0, end: 0 }, newText: "x" }]);
    expect(service.text("mem:/ws/none.md")).toBeUndefined();
  });

  it("are viewed once for a text and what is known", async () => {
    const { service } = await open();
    const view = service.view(LOG);
    expect(service.view(LOG)).toBe(view);
    service.open(LOG, log("4.60"));
    expect(service.view(LOG)).toBe(view);
    service.open(LOG, log("4.61"));
    const next = service.view(LOG);
    expect(next).not.toBe(view);
    expect(next?.ctx).toBe(view?.ctx);
    service.open(BOARD, board("6 %"));
    expect(service.view(LOG)?.ctx).not.toBe(view?.ctx);
  });

  it("follow the settings", async () => {
    const { service } = await open();
    const code = "rail-out-of-tolerance";
    expect(checkOf(code)?.severity).toBe("warning");
    const all = (settings: CheckSettings) => ({ otherwise: settings, folders: [] });
    service.settings = all({ severity: new Map([[code, "error"]]) });
    expect(service.findings(LOG)[0]?.severity).toBe("error");
    service.settings = all({ severity: new Map([[code, "off"]]) });
    expect(codes(service)).toEqual([]);
    service.settings = all(DEFAULT_SETTINGS);
    expect(service.findings(LOG)[0]?.severity).toBe("warning");
  });

  it("with a finding get its fix for the text as it stands", async () => {
    const { service } = await open("O.58");
    const [finding] = service.findings(LOG);
    const [fix] = finding ? service.fixes(LOG, finding) : [];
    expect(fix?.title).toBe("Change to 0.58");
    service.edit(LOG, fix?.edits ?? []);
    expect(service.text(LOG)).toContain("| +5V | 0.58 |");
    expect(finding && service.fixes("mem:/ws/none.md", finding)).toEqual([]);
  });
});

describe("the cost of a keystroke", () => {
  const plain = parse(demoText("mem:/demo/boards/regatta-controller.board.yaml")) as PlainBoard;
  const text = bigLog({ lines: 1_000, board: plain, meter: "bench" });
  const uri = "mem:/demo/logs/big.md";

  it("is one block of a log of a thousand lines, wherever it is typed", async () => {
    const service = await openDemo();
    service.open(uri, text);
    const cells = [...text.matchAll(/\| 0\.(\d)/g)].map((match) => match.index + match[0].length - 1);
    for (const at of [cells[0], cells[Math.floor(cells.length / 2)], cells.at(-1)]) {
      if (at === undefined) return expect.fail("no reading");
      const before = service.view(uri);
      service.findings(uri);
      service.edit(uri, [{ span: { start: at, end: at + 1 }, newText: "77" }]);
      const after = service.view(uri);
      if (!before || !after) return expect.fail("not a log");
      expect(after.doc.blocks).toHaveLength(before.doc.blocks.length);
      expect(before.doc.blocks.length).toBeGreaterThan(40);
      const changed = after.doc.blocks.filter(({ block }, i) => block !== before.doc.blocks[i]?.block);
      expect(changed).toHaveLength(1);
      expect(
        after.doc.blocks.filter(({ block }, i) => block.source !== before.doc.blocks[i]?.block.source),
      ).toHaveLength(1);
      // Nothing is judged again but what is in that block.
      expect(after.ctx).toBe(before.ctx);
      const judged = after.doc.blocks.filter(
        ({ block }, i) =>
          judgeBlock(block, after.ctx) !== judgeBlock(before.doc.blocks[i]!.block, before.ctx),
      );
      expect(judged).toEqual(changed);
    }
  });

  it("is no block at all where the front matter changes and what it names does not", async () => {
    const service = await openDemo();
    service.open(uri, text);
    const before = service.view(uri);
    service.open(uri, text.replace("job: generated", "job: 2026-099"));
    const after = service.view(uri);
    expect(after?.front.job).toBe("2026-099");
    expect(after?.ctx).toBe(before?.ctx);
    const moved = after?.doc.blocks.filter(({ block }, i) => block !== before?.doc.blocks[i]?.block) ?? [];
    // At most the block that holds the front matter itself.
    expect(moved.flatMap(({ block }) => block.tables)).toEqual([]);
  });

  it("is not more for text that moves", async () => {
    const service = await openDemo();
    service.open(uri, text);
    const before = service.view(uri);
    const at = text.indexOf("## ");
    service.edit(uri, [{ span: { start: at, end: at }, newText: "## New\n\nwords\n\n" }]);
    const after = service.view(uri);
    const known = new Set(before?.doc.blocks.map(({ block }) => block));
    expect(after?.doc.blocks.filter(({ block }) => !known.has(block))).toHaveLength(1);
  });
});
