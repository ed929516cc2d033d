// What the commands may write over, on a real disk with links, hard links and no room.
import { execFile } from "node:child_process";
import { link, mkdir, mkdtemp, readdir, readFile, rm, stat, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { main } from "../../server/src/cli/main";
import { nodeDisk } from "../../server/src/cli/node-disk";
import { BOARD, CLEAN } from "./memory";

const CLI = join(fileURLToPath(new URL("../..", import.meta.url)), "dist/cli.cjs");

let bench: string;
let outside: string;
beforeEach(async () => {
  bench = await mkdtemp(join(tmpdir(), "mendlog-writer-"));
  outside = await mkdtemp(join(tmpdir(), "mendlog-outside-"));
  await writeFile(join(bench, "a.board.yaml"), BOARD);
  await writeFile(join(bench, "1.md"), CLEAN);
  await writeFile(join(bench, "README.md"), "# Mine\n");
});
afterEach(() => Promise.all([bench, outside].map((folder) => rm(folder, { recursive: true }))));

const at = (name: string): string => join(bench, name);

/** Runs a command in the folder, on its real disk. */
async function run(...args: string[]): Promise<{ readonly code: number; readonly err: string }> {
  let err = "";
  const told = (text: string): void => {
    err += text;
  };
  const code = await main(args, {
    cwd: bench,
    env: {},
    out: { write: () => {}, isTerminal: false },
    err: { write: told, isTerminal: false },
    disk: nodeDisk(),
    stdin: async () => ({ ok: false, reason: "is not there" }),
    now: () => 0,
    today: () => "2026-03-20",
    parquet: async () => undefined,
    serve: async () => {},
  });
  return { code, err };
}

/** Every command that writes to a file that was named, with all that it may be told to write over. */
const COMMANDS: readonly (readonly [string, readonly string[]])[] = [
  ["check", ["check", ".", "--fail-on", "never", "--force"]],
  ["report", ["report", "1.md", "--force"]],
  ["parts", ["parts", "1.md", "--force"]],
  ["order", ["order", "--force"]],
];

describe.each(COMMANDS)("%s --force", (_, command) => {
  test("spares a log by its name, by a soft link and by a hard link", async () => {
    await symlink("1.md", at("soft.html"));
    await link(at("1.md"), at("hard.html"));
    for (const name of ["1.md", "soft.html", "hard.html"]) {
      const { code, err } = await run(...command, "-o", name);
      expect([name, code]).toEqual([name, 2]);
      expect(err).toContain(`mendlog: ${name} is refused: it is a `);
    }
    expect(await readFile(at("1.md"), "utf8")).toBe(CLEAN);
    expect((await stat(at("1.md"))).nlink).toBe(2);
  });

  test("leaves a knowledge file whole, by whatever name it is reached", async () => {
    await symlink("a.board.yaml", at("soft.json"));
    await link(at("a.board.yaml"), at("hard.json"));
    for (const name of ["a.board.yaml", "soft.json", "hard.json"]) await run(...command, "-o", name);
    expect(await readFile(at("a.board.yaml"), "utf8")).toBe(BOARD);
  });

  test("writes through no link that leads outside", async () => {
    await writeFile(join(outside, "theirs.txt"), "theirs");
    await symlink(join(outside, "theirs.txt"), at("file.txt"));
    await symlink(outside, at("folder"));
    await symlink(join(outside, "none.txt"), at("nowhere.txt"));
    for (const name of ["file.txt", "folder/theirs.txt", "folder/new.txt", "nowhere.txt"]) {
      const { code, err } = await run(...command, "-o", name);
      expect([name, code]).toEqual([name, 2]);
      expect(err).toContain("is refused: ");
    }
    expect(await readdir(outside)).toEqual(["theirs.txt"]);
    expect(await readFile(join(outside, "theirs.txt"), "utf8")).toBe("theirs");
  });

  test("writes over another file, and leaves nothing beside it", async () => {
    const before = await readdir(bench);
    expect(await run(...command, "-o", "README.md")).toEqual({ code: 0, err: "" });
    expect(await readFile(at("README.md"), "utf8")).not.toBe("# Mine\n");
    expect(await readdir(bench)).toEqual(before);
  });

  test("asks for --force where a file is there", async () => {
    const careful = command.filter((word) => word !== "--force");
    const { code, err } = await run(...careful, "-o", "README.md");
    expect(code).toBe(2);
    expect(err).toBe(
      "mendlog: README.md is there already and stays as it is. Say --force to write over it.\n",
    );
    expect(await readFile(at("README.md"), "utf8")).toBe("# Mine\n");
  });
});

test("a board file is not written through a link", async () => {
  await writeFile(join(outside, "b.board.yaml"), BOARD);
  await symlink(join(outside, "b.board.yaml"), at("b.board.yaml"));
  await writeFile(at("parts.csv"), "Ref,Value\nU9,7404\n");
  const { code, err } = await run("board", "import", "parts.csv", "-o", "b.board.yaml");
  expect(code).toBe(2);
  expect(err).toContain("b.board.yaml is refused: it is a link. Name the file itself.");
  expect(await readFile(join(outside, "b.board.yaml"), "utf8")).toBe(BOARD);
});

test("a name that would move the cursor is shown, not sent", async () => {
  const { code, err } = await run("check", "\u001b[2Jx.md");
  expect(code).toBe(2);
  expect(err).toBe("mendlog: ␛[2Jx.md is not there.\n");
});

/** The built program in a shell, where output can be led to a device and a file's size be bounded. */
const shell = (script: string): Promise<{ readonly code: number | null; readonly err: string }> =>
  new Promise((resolve) => {
    const child = execFile(
      "bash",
      ["-c", script, "bash", process.execPath, CLI],
      { cwd: bench },
      (_, __, err) => resolve({ code: child.exitCode, err }),
    );
  });

describe.skipIf(process.platform !== "linux")("no room", () => {
  test("on standard output: exit status 2 and one line", async () => {
    expect(await shell('"$1" "$2" check . --format json > /dev/full')).toEqual({
      code: 2,
      err: "mendlog: the output cannot be written: the disk is full.\n",
    });
  });

  test("in a file: the one that was there is whole, and no half is left", async () => {
    await mkdir(at("out"));
    await writeFile(at("out/old.json"), "mine");
    // The findings as SARIF, with every check's description, are longer than the bound of 8 KiB.
    for (const name of ["old.json", "new.json"]) {
      const ran = await shell(`ulimit -f 8; "$1" "$2" check . --format sarif --force -o out/${name}`);
      expect(ran).toEqual({
        code: 2,
        err: `mendlog: out/${name} cannot be written: it is larger than a file may be here.\n`,
      });
    }
    expect(await readdir(at("out"))).toEqual(["old.json"]);
    expect(await readFile(at("out/old.json"), "utf8")).toBe("mine");
  });
});
