import { chmod, mkdtemp, readdir, readFile, rm, stat, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { nodeDisk } from "../../server/src/cli/node-disk";

let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "mendlog-replace-"));
});
afterEach(() => rm(folder, { recursive: true }));

test("a file is replaced as a whole, and keeps who may read it", async () => {
  const path = join(folder, "a.board.yaml");
  await writeFile(path, "before");
  await chmod(path, 0o640);
  expect(await nodeDisk().replace(path, "behind\n")).toEqual({ ok: true, value: undefined });
  expect(await readFile(path, "utf8")).toBe("behind\n");
  expect((await stat(path)).mode & 0o777).toBe(0o640);
  expect(await readdir(folder)).toEqual(["a.board.yaml"]);
});

test("what is not there is not made", async () => {
  expect(await nodeDisk().replace(join(folder, "a.board.yaml"), "x")).toEqual({
    ok: false,
    reason: "is not there",
  });
  expect(await readdir(folder)).toEqual([]);
});

test("where it cannot be put in place, the file stays and nothing is left beside it", async () => {
  // A folder in its place: a rename over it fails for everybody, root too.
  const path = join(folder, "a.board.yaml");
  await symlink(folder, path);
  const { ok } = await nodeDisk().replace(path, "x");
  expect(ok).toBe(false);
  expect(await readdir(folder)).toEqual(["a.board.yaml"]);
});
