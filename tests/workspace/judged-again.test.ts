// Which open logs are judged again when a knowledge file is typed in: those that see it, and no others.
import { beforeEach, expect, test } from "vitest";
import { judgeBlock } from "../../server/src/judge";
import { Service } from "../../server/src/service";
import { Disk } from "../support/disk";

const EACH = 5;
const board = (id: string, title = id) =>
  `mendlog-board: 1\nid: ${id}\ntitle: ${title}\nsource: invented\nparts:\n  U1: { device: 74LS04 }\nnets:\n  N: [U1.1]\n`;
const shop = (name: string) =>
  `mendlog-shop: 1\nname: ${name}\nmeters:\n  bench: { title: Meter, ranges: [] }\n`;
const device = (title: string) =>
  `mendlog-device: 1\nid: "9999"\ntitle: ${title}\nkind: logic\nfamilies: [LS]\npackage: { name: DIP-14, pins: 2 }\npins:\n  1: { name: A, direction: input }\n  2: { name: B, direction: output }\nsource: from memory\n`;
const log = (id: string) =>
  `---\nmendlog: 1\nboard: ${id}\nmeter: bench\n---\n\n## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U1 | 1 | 0.58 |\n`;

const X = "mem:/ws/boards/x.board.yaml";
const Y = "mem:/ws/boards/y.board.yaml";
const SHOP = "mem:/ws/x/mendlog.shop.yaml";
const TOP = "mem:/ws/mendlog.shop.yaml";
const DEVICE = "mem:/ws/own.device.yaml";

let service: Service;
/** Logs that were judged since it was last asked, by their board. */
let judged: () => { x: number; y: number };

beforeEach(async () => {
  const files = { [X]: board("x"), [Y]: board("y"), [SHOP]: shop("of x"), [TOP]: shop("of all") };
  service = new Service(new Disk({ ...files, [DEVICE]: device("Oddity") }));
  await service.load();
  const logs = ["x", "y"].flatMap((id) =>
    Array.from({ length: EACH }, (_, i) => ({ id, uri: `mem:/ws/${id}/${i}.md` })),
  );
  for (const { id, uri } of logs) service.open(uri, log(id));
  // The judgements of a block are the same object until it is judged again.
  const seen = new Map<string, unknown>();
  judged = () => {
    const again = { x: 0, y: 0 };
    for (const { id, uri } of logs) {
      service.findings(uri);
      const view = service.view(uri)!;
      const now = judgeBlock(view.doc.blocks.at(-1)!.block, view.ctx);
      expect(now.size).toBe(1);
      if (seen.get(uri) !== now) again[id as "x" | "y"] += 1;
      seen.set(uri, now);
    }
    return again;
  };
  expect(judged()).toEqual({ x: EACH, y: EACH });
  expect(judged()).toEqual({ x: 0, y: 0 });
});

test("of a board file, its own logs", () => {
  service.open(X, board("x", "X again"));
  expect(judged()).toEqual({ x: EACH, y: 0 });
  expect(service.view("mem:/ws/y/0.md")?.knowledge.boards.get("x")?.value.title).toBe("X again");
});

test("of a board that no log names, none, also when it is new", () => {
  service.open("mem:/ws/boards/z.board.yaml", board("z"));
  expect(judged()).toEqual({ x: 0, y: 0 });
});

test("of a shop file, the logs it is the nearest to", () => {
  service.open(SHOP, shop("moved"));
  expect(judged()).toEqual({ x: EACH, y: 0 });
  service.open(TOP, shop("renamed"));
  expect(judged()).toEqual({ x: 0, y: EACH });
});

test("of a device, all: it may be on any board", () => {
  service.open(DEVICE, device("Another oddity"));
  expect(judged()).toEqual({ x: EACH, y: EACH });
});

test("findings that speak of other boards follow them all the same", () => {
  const lost = "mem:/ws/lost.md";
  service.open(lost, log("somewhere-else"));
  const message = () => service.findings(lost).find(({ code }) => code === "unknown-board")?.message;
  expect(message()).toContain("x, y");
  const before = service.judgedBy(lost);
  service.open("mem:/ws/boards/w.board.yaml", board("w"));
  expect(message()).toContain("w, x, y");
  expect(service.judgedBy(lost)).not.toEqual(before);
  // What stands for its findings is as it was where only the inside of another board changed.
  const names = service.judgedBy(lost);
  service.open(X, board("x").replace("U1.1", "U1.2"));
  expect(service.judgedBy(lost).every((each, i) => each === names[i])).toBe(true);
});
