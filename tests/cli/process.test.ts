// The built program as a real process. `npm test` builds it first.
import { execFile, spawn } from "node:child_process";
import { mkdir, mkdtemp, readFile, rm, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { nodeDisk } from "../../server/src/cli/node-disk";
import { Service } from "../../server/src/service";
import { nodeHost, uriOf } from "../../server/src/workspace/node-host";
import { sarifErrors } from "../report/sarif-schema";
import { BOARD, CLEAN, FAULTY, type JsonFinding, type JsonShape } from "./memory";
import { pullDiagnostics } from "./stdio-client";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const CLI = join(ROOT, "dist/cli.cjs");

interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

function mendlog(args: readonly string[], cwd: string, input = ""): Promise<Ran> {
  return new Promise((resolve) => {
    const child = execFile(process.execPath, [CLI, ...args], { cwd, maxBuffer: 1e8 }, (_error, out, err) =>
      resolve({ code: child.exitCode, out, err }),
    );
    child.stdin?.end(input);
  });
}

let bench = "";
beforeAll(async () => {
  bench = await mkdtemp(join(tmpdir(), "mendlog-"));
  await mkdir(join(bench, "logs"));
  await writeFile(join(bench, "a.board.yaml"), BOARD);
  await writeFile(join(bench, "logs", "1.md"), CLEAN);
  await writeFile(join(bench, "logs", "2.md"), FAULTY);
  await symlink("..", join(bench, "logs", "up"));
});
afterAll(() => rm(bench, { recursive: true }));

describe("the program", () => {
  test("ends with 0, 1 or 2", async () => {
    expect(await mendlog(["check", "logs/1.md"], bench)).toMatchObject({ code: 0, err: "" });
    const found = await mendlog(["check"], bench);
    expect(found).toMatchObject({ code: 1, err: "" });
    expect(found.out).toContain("logs/2.md:10:3: warning: ");
    expect(found.out).not.toContain("\u001b");
    expect(await mendlog(["check", "logs/1.md", "nowhere"], bench)).toMatchObject({
      code: 2,
      err: "mendlog: nowhere is not there.\n",
    });
    expect(await mendlog(["chekc"], bench)).toMatchObject({ code: 2, out: "" });
  });

  test("reads the image that the demo's log names, and finds the slip beside it", async () => {
    const ran = await mendlog(["check", "--format=json", "--fail-on=never", join(ROOT, "demo")], bench);
    expect(ran).toMatchObject({ code: 0, err: "" });
    const { files } = JSON.parse(ran.out) as JsonShape;
    const about = (job: string) =>
      files.filter(({ path }) => path.endsWith(`${job}-controller.md`)).flatMap(({ findings }) => findings);
    const slips = about("2026-016").filter(({ code }) => code.startsWith("rom-"));
    expect(slips.map(({ code, message }) => [code, message])).toEqual([
      ["rom-image-differs", expect.stringMatching(/U2: the CRC-32 typed is cfa0bb0f.*has cfa0b0bf/)],
    ]);
    expect(about("2026-004")).toEqual([]);
  });

  test("reads standard input", async () => {
    const ran = await mendlog(["check", "--stdin", "--stdin-path", "logs/3.md"], bench, FAULTY);
    expect(ran).toMatchObject({ code: 1, err: "" });
    expect(ran.out).toContain("logs/3.md:10:3: warning: ");
  });

  test("writes a file", async () => {
    const ran = await mendlog(["check", "--format=sarif", "-o", "out.sarif", "--fail-on=error"], bench);
    expect(ran).toEqual({ code: 0, out: "", err: "" });
    const log = JSON.parse(await readFile(join(bench, "out.sarif"), "utf8"));
    expect(sarifErrors(log)).toEqual([]);
    expect(log.runs[0].results).toHaveLength(1);
  });

  test("gets all of a long output out, and takes it well when nobody reads on", async () => {
    const whole = await mendlog(["check", "--format", "sarif", join(ROOT, "demo")], bench);
    expect(whole.out.length).toBeGreaterThan(64 * 1024);
    expect(() => JSON.parse(whole.out)).not.toThrow();
    const child = spawn(process.execPath, [CLI, "check", "--format", "sarif", join(ROOT, "demo")], {
      cwd: bench,
    });
    let err = "";
    child.stderr.on("data", (chunk) => {
      err += chunk;
    });
    child.stdout.destroy();
    const code = await new Promise((resolve) => child.on("close", resolve));
    expect({ code, err }).toEqual({ code: 2, err: "mendlog: the output was not read to its end.\n" });
  });
});

describe("the disk", () => {
  const disk = nodeDisk();

  test("says in words what is wrong", async () => {
    await symlink("loop.md", join(bench, "loop.md"));
    const reason = async (path: string) => {
      const look = await disk.look(path);
      return look.ok ? look.value.kind : look.reason;
    };
    expect(await reason(join(bench, "logs/1.md"))).toBe("file");
    expect(await reason(join(bench, "logs/up"))).toBe("folder");
    expect(await reason(join(bench, "none"))).toBe("is not there");
    expect(await reason(join(bench, "a.board.yaml", "x"))).toContain("is a file, not a folder");
    expect(await reason(join(bench, "loop.md"))).toContain("in a circle");
    expect(await reason("a\0b")).toBe("is not a path");
    await rm(join(bench, "loop.md"));
    const folder = await disk.read(join(bench, "logs"), 10);
    expect(folder).toMatchObject({ ok: false, reason: "is a folder" });
  });

  test("reads no more than asked for, and many files at once", async () => {
    const path = join(bench, "logs", "1.md");
    const head = await disk.read(path, 3);
    expect(head.ok && new TextDecoder().decode(head.value)).toBe("---");
    const many = await Promise.all(Array.from({ length: 300 }, () => disk.read(path, 100_000)));
    expect(many.every((read) => read.ok && read.value.length === CLEAN.length)).toBe(true);
  });
});

test("the command line, the service and the language server find the same in the demo", async () => {
  const demo = join(ROOT, "demo");
  const ran = await mendlog(["check", "--format=json", "--fail-on=never", "."], demo);
  expect(ran.code).toBe(0);
  const json: JsonShape = JSON.parse(ran.out);
  expect(json.files.filter((file) => file.kind === "log").length).toBeGreaterThanOrEqual(7);
  expect(json.files.flatMap((file) => file.findings).length).toBeGreaterThan(30);

  const service = new Service(nodeHost([pathToFileURL(demo).href]));
  await service.load();
  // What is remembered of other jobs, too: a warranty that still runs is one of the findings.
  for await (const _ of service.index());
  const documents = await Promise.all(
    json.files.map(async ({ path, kind }) => ({
      uri: uriOf(join(demo, path)),
      languageId: kind === "log" ? "markdown" : "yaml",
      text: await readFile(join(demo, path), "utf8"),
    })),
  );
  const { diagnostics, exitCode } = await pullDiagnostics(CLI, pathToFileURL(demo).href, documents);
  expect(exitCode).toBe(0);

  for (const [at, { path, findings }] of json.files.entries()) {
    const { uri, text } = documents[at]!;
    const offsets = findings.map((f) => [f.code, f.severity, f.message, f.start.offset, f.end.offset]);
    service.open(uri, text);
    await service.prepareImages(uri);
    const own = service.findings(uri).map((f) => [f.code, f.severity, f.message, f.span.start, f.span.end]);
    expect(own, path).toEqual(offsets);

    const served = (diagnostics.get(uri) ?? []).map(({ code, severity, message, range }) => [
      code,
      severity,
      message,
      [range.start.line + 1, range.start.character + 1, range.end.line + 1, range.end.character + 1],
    ]);
    expect(served, path).toEqual(findings.map(wire));
  }
});

const LEVELS = ["error", "warning", "information", "hint"];

const wire = ({ code, severity, message, start, end }: JsonFinding) => [
  code,
  LEVELS.indexOf(severity) + 1,
  message,
  [start.line, start.column, end.line, end.column],
];
