// File names as macOS has them, held on the core: accents may be put together or stand apart (NFC, NFD), and mean one file.
// No such machine was there; that its file systems take both for the same is from memory.
import { expect, test } from "vitest";
import { EXAMPLE_BOARD, exampleLog } from "../../server/src/checks/example-board";
import { Service } from "../../server/src/service";
import { readWithin } from "../../server/src/workspace/read-within";
import { canonicalUri } from "../../server/src/workspace/uri";

const TOGETHER = "B\u00e4nder.bin";
const APART = "Ba\u0308nder.bin";

test("there a name has one spelling; elsewhere they are two files", () => {
  const [together, apart] = [TOGETHER, APART].map((name) => `file:///Users/b/${encodeURIComponent(name)}`);
  expect(canonicalUri(apart!, "darwin")).toBe(together);
  expect(canonicalUri(together!, "darwin")).toBe(together);
  expect(canonicalUri(apart!, "linux")).not.toBe(together);
});

test("a folder whose name the disk spells otherwise holds its files all the same", async () => {
  const disk = {
    look: async (path: string) => ({
      ok: true as const,
      value: {
        kind: /bin$/.test(path) ? ("file" as const) : ("folder" as const),
        size: 1,
        real: path.normalize("NFD").toLowerCase(),
      },
    }),
    read: async () => ({ ok: true as const, value: Uint8Array.of(7) }),
  };
  const read = await readWithin(disk, ["/Users/B\u00e4nke"], "/users/Ba\u0308nke/u2.bin", 10);
  expect(read).toEqual({ ok: true, bytes: Uint8Array.of(7) });
  expect(await readWithin(disk, ["/Users/B\u00e4nke"], "/users/Banke/u2.bin", 10)).toEqual({
    ok: false,
    reason: "outside",
  });
});

test.each(["\r\n", "\r"])(
  "a log whose lines end with %j is read as one whose lines end with \\n",
  async (end) => {
    const log = exampleLog(
      "## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U41 | 1 | 0.58 |\n| U14 | 2 | 1.42 |\n",
    );
    const findings = async (text: string, board: string) => {
      const service = new Service({
        read: async () => board,
        list: async () => ["mem:/ws/example.board.yaml"],
      });
      await service.load();
      service.open("mem:/ws/log.md", text);
      return service
        .findings("mem:/ws/log.md")
        .map(({ code, message, span }) => [code, message, text.slice(span.start, span.end)]);
    };
    const found = await findings(log, EXAMPLE_BOARD);
    expect(found.length).toBeGreaterThan(1);
    const turned = (text: string) => text.replaceAll("\n", end);
    expect(await findings(turned(log), turned(EXAMPLE_BOARD))).toEqual(found);
  },
);
