// Image files that a log names, from the disk to the finding.
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, truncateSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { EXAMPLE_BOARD, exampleLog } from "../../server/src/checks/example-board";
import { checksOf } from "../../server/src/compute/memory/image";
import { imagePath } from "../../server/src/compute/memory/image-file";
import { hoverLog } from "../../server/src/features/hover";
import { Service } from "../../server/src/service";
import { imageUri } from "../../server/src/workspace/image-uri";
import { nodeHost, uriOf } from "../../server/src/workspace/node-host";
import { run } from "../cli/memory";
import { readable } from "../support/features";

let home: string;
const at = (path: string) => join(home, path);
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), "mendlog images "));
  mkdirSync(at("ws/roms"), { recursive: true });
  writeFileSync(at("ws/example.board.yaml"), EXAMPLE_BOARD);
});
afterEach(() => rmSync(home, { recursive: true, force: true }));

const table = (path: string) => exampleLog(`## ROM check\n\n| Ref | Image |\n|---|---|\n| U34 | ${path} |\n`);

async function opened(text: string) {
  const service = new Service(nodeHost([uriOf(at("ws"))]));
  await service.load();
  const uri = uriOf(at("ws/log.md"));
  service.open(uri, text);
  await service.prepareImages(uri);
  return {
    service,
    uri,
    said: () => service.findings(uri).map(({ code, message }) => `${code}: ${message}`),
  };
}

test.each([
  ["roms/none.bin", "There is no file"],
  ["../secret.bin", "is outside the workspace"],
  ["roms/../../secret.bin", "is outside the workspace"],
  ["/etc/hostname", "is outside the workspace"],
  ["https://example.org/a.bin", "is outside the workspace"],
  ["roms/out.bin", "is outside the workspace"],
  ["roms", "is a folder"],
  ["roms/huge.bin", "has 67108864 bytes and was not read"],
  ["[blank](roms/blank.bin)", "All 2048 bytes are FF"],
  ["`roms/twice.bin`", "the same 4 bytes 2 times"],
  ["roms/empty.bin", "The image is empty"],
])("%s is told of, by the editor's service and the command line alike", async (path, words) => {
  writeFileSync(at("secret.bin"), "secret");
  symlinkSync(at("secret.bin"), at("ws/roms/out.bin"));
  writeFileSync(at("ws/roms/huge.bin"), "");
  truncateSync(at("ws/roms/huge.bin"), 64 * 1024 * 1024);
  writeFileSync(at("ws/roms/blank.bin"), Buffer.alloc(2048, 0xff));
  writeFileSync(at("ws/roms/twice.bin"), "abcdabcd");
  writeFileSync(at("ws/roms/empty.bin"), "");
  const { said } = await opened(table(path));
  expect(said()).toEqual([expect.stringMatching(/^rom-image-unreadable: /)]);
  expect(said()[0]).toContain(words);

  const ran = await run(["check", "--format=json", "log.md"], {
    "/w/log.md": table(path),
    "/w/example.board.yaml": EXAMPLE_BOARD,
    "/secret.bin": "secret",
    "/etc/hostname": "x",
    "/w/roms/out.bin": { link: "/secret.bin" },
    "/w/roms/huge.bin": { size: 64 * 1024 * 1024, head: "" },
    "/w/roms/blank.bin": new Uint8Array(2048).fill(0xff),
    "/w/roms/twice.bin": "abcdabcd",
    "/w/roms/empty.bin": "",
  });
  const findings: { code: string; message: string }[] = JSON.parse(ran.out).files.flatMap(
    (file: { findings: [] }) => file.findings,
  );
  expect(findings.map(({ code, message }) => `${code}: ${message}`)).toEqual(said());
});

test("an image in no set is told with the nearest set, and read again when it changed", async () => {
  writeFileSync(at("ws/roms/a.bin"), "one");
  const { service, uri, said } = await opened(table("roms/a.bin"));
  expect(said()).toEqual([
    expect.stringContaining("rom-unidentified: U34: The image (CRC-32 7a6c86f1) is in no set"),
  ]);
  expect(said()[0]).toContain("Nearest is U34 of first (First release, revision A), which has 2048 bytes");
  const view = service.view(uri)!;
  const hover = hoverLog(view, view.doc.text.indexOf("roms/a"))?.markdown;
  expect(readable(hover ?? "")).toMatchInlineSnapshot(`
    "**\`roms/a.bin\`**: 3 bytes

    - 8-bit sum \`42\`
    - 16-bit sum \`0142\`
    - CRC-32 \`7a6c86f1\`
    - SHA-1 \`fe05bcdcdc4928012781a5f1a2a77cbb5398e106\`

    The image (CRC-32 7a6c86f1) is in no set of the board. It may have lost bits or be another program. Nearest is U34 of first (First release, revision A), which has 2048 bytes. Keep it, and read the chip again. 3 bytes, CRC-32 7a6c86f1, sum 0142.

    It shows what the programmer read; the board may see something else."
  `);

  const { ctx } = view;
  await service.prepareImages(uri);
  expect(service.view(uri)!.ctx).toBe(ctx);
  const before = service.imagesOf(uri);
  writeFileSync(at("ws/roms/a.bin"), Buffer.alloc(4));
  expect(await service.fileChanged(uriOf(at("ws/roms/a.bin")))).toBe(true);
  expect(service.imagesOf(uri)).not.toBe(before);
  await service.prepareImages(uri);
  expect(said()).toEqual([expect.stringContaining("All 4 bytes are 00")]);
});

test("a path is plain, quoted or a link, and is counted from the log", () => {
  expect(["a b.bin", "`a.bin`", "[A](<a b.bin>)", "[A](a%20b.bin)", "x\\y.bin", "-"].map(imagePath)).toEqual([
    "a b.bin",
    "a.bin",
    "a b.bin",
    "a b.bin",
    "x/y.bin",
    undefined,
  ]);
  expect(imageUri("file:///w/logs/1.md", "../r/a b.bin")).toBe("file:///w/r/a%20b.bin");
  expect(imageUri("file:///w/1.md", "../../a.bin")).toBeUndefined();
  expect(imageUri("untitled:Untitled-1#.md", "a.bin")).toBeUndefined();
});

test("images name the set, and a log that says another is told", async () => {
  const bytes = Buffer.from("program of the second release");
  const { crc32 } = checksOf(bytes);
  writeFileSync(at("ws/roms/a.bin"), bytes);
  writeFileSync(
    at("ws/example.board.yaml"),
    EXAMPLE_BOARD.replaceAll("size: 2048, ", "").replace("9d1f4c72", crc32).replace('sum16: "70d5", ', ""),
  );
  const { said } = await opened(table("roms/a.bin").replace("example\n", "example\nrom-set: first\n"));
  expect(said()).toEqual([expect.stringContaining('rom-set-differs: The log says rom-set "first"')]);
  expect(said()[0]).toContain("second (Second release, revision B)");
});
