// Which image files are offered where a log names one, from the disk to the list.
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { EXAMPLE_BOARD, exampleLog } from "../../server/src/checks/example-board";
import { completeImages, imageCellAt } from "../../server/src/features/completion/images";
import { Service } from "../../server/src/service";
import { imagePathFrom, imageUri } from "../../server/src/workspace/image-uri";
import { nodeHost, uriOf } from "../../server/src/workspace/node-host";

let home: string;
const at = (path: string) => join(home, path);
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), "mendlog paths "));
  for (const folder of ["ws/logs/here", "ws/roms", "ws/.git", "out"])
    mkdirSync(at(folder), { recursive: true });
  writeFileSync(at("ws/example.board.yaml"), EXAMPLE_BOARD);
  for (const file of ["ws/logs/here/u35.bin", "ws/roms/a b-u34.ROM", "ws/roms/z%20.bin", "ws/roms/notes.txt"])
    writeFileSync(at(file), "x");
  for (const file of ["ws/.git/x.bin", "out/secret.bin", "ws/roms/a|b.bin"]) writeFileSync(at(file), "x");
  symlinkSync(at("out/secret.bin"), at("ws/roms/link.bin"));
  symlinkSync(at("out"), at("ws/roms/linked"));
});
afterEach(() => rmSync(home, { recursive: true, force: true }));

async function offered(text: string): Promise<readonly string[] | undefined> {
  const service = new Service(nodeHost([uriOf(at("ws"))]));
  await service.load();
  const uri = uriOf(at("ws/logs/1.md"));
  const offset = text.indexOf("$0");
  service.open(uri, text.replace("$0", ""));
  const view = service.view(uri)!;
  if (!imageCellAt(view, offset)) return undefined;
  const paths = await service.imagePathsFor(uri);
  const items = completeImages(view, offset, paths);
  for (const { newText, label } of items) expect(newText).toBe(label);
  return items.map(({ label }) => label);
}

const table = (rows: string) => exampleLog(`## ROM check\n\n| Ref | Image | Note |\n|---|---|---|\n${rows}`);

test("those of the workspace and no others, the row's own first, those named already last", async () => {
  expect(await offered(table("| U34 | $0 | |\n"))).toEqual([
    "../roms/a b-u34.ROM",
    "../roms/z%20.bin",
    "here/u35.bin",
  ]);
  expect(await offered(table("| U35 | ../ro$0 | |\n| U34 | `../roms/z%20.bin` | |\n"))).toEqual([
    "here/u35.bin",
    "../roms/a b-u34.ROM",
    "../roms/z%20.bin",
  ]);
});

test("nowhere but in the cells that name an image", async () => {
  expect(await offered(table("| $0 |  | |\n"))).toBeUndefined();
  expect(await offered(table("| U34 |  | $0 |\n"))).toBeUndefined();
  expect(await offered(exampleLog("Some prose $0\n"))).toBeUndefined();
});

test.each([
  ["file:///ws/logs/1.md", "file:///ws/roms/u%202.bin", "../roms/u 2.bin"],
  ["file:///ws/1.md", "file:///ws/u2.bin", "u2.bin"],
  ["file:///c%3A/ws/1.md", "file:///c%3A/ws/a/u2.bin", "a/u2.bin"],
  ["file:///c%3A/ws/1.md", "untitled:u2.bin", undefined],
])("from %s to %s", (log, file, path) => {
  expect(imagePathFrom(log, file)).toBe(path);
  if (path !== undefined) expect(imageUri(log, path)).toBe(file);
});
