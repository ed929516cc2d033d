// The built program with the writer of Parquet beside it and, as the extension's package has it, without.
import { execFile } from "node:child_process";
import { copyFile, mkdir, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { CLEAN } from "../cli/memory";

const ROOT = join(import.meta.dirname, "../..");

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "mendlog-package-"));
  await mkdir(join(folder, "alone"));
  await mkdir(join(folder, "logs"));
  for (const name of ["cli.cjs", "core.cjs"])
    await copyFile(join(ROOT, "dist", name), join(folder, "alone", name));
  await writeFile(join(folder, "logs/1.md"), CLEAN);
});
afterAll(() => rm(folder, { recursive: true }));

const run = (program: string, ...args: string[]) =>
  new Promise<{ readonly code: number | null; readonly err: string }>((resolve) => {
    const child = execFile(process.execPath, [program, ...args], { cwd: folder }, (_, __, err) =>
      resolve({ code: child.exitCode, err }),
    );
  });

test("with the writer beside it every table is there twice", async () => {
  const ran = await run(join(ROOT, "dist/cli.cjs"), "export", "logs", "-o", "both");
  expect(ran).toEqual({ code: 0, err: "" });
  const names = await readdir(join(folder, "both"));
  expect(names.filter((name) => name.endsWith(".parquet"))).toHaveLength(9);
  expect((await readFile(join(folder, "both/readings.parquet"))).subarray(0, 4).toString("latin1")).toBe(
    "PAR1",
  );
});

test("without it the lines are, and what is missing is said before anything is written", async () => {
  const alone = join(folder, "alone/cli.cjs");
  const { code, err } = await run(alone, "export", "logs", "-o", "none");
  expect(code).toBe(2);
  expect(err).toMatch(/^mendlog: none cannot be written as Parquet: .*Say --format ndjson.*\n$/);
  expect(await readdir(folder)).not.toContain("none");
  expect(await run(alone, "export", "logs", "-o", "lines", "--format", "ndjson")).toEqual({
    code: 0,
    err: "",
  });
});

test("the extension's package leaves it out", async () => {
  const { files } = JSON.parse(await readFile(join(ROOT, "package.json"), "utf8"));
  expect(files).toEqual(expect.arrayContaining(["dist/cli.cjs", "dist/core.cjs", "dist/extension.cjs"]));
  expect(files.filter((name: string) => /parquet|dist\/\*/.test(name))).toEqual([]);
});
