// Readings appended by another program, held against real files, links and a named pipe.
import { execFileSync } from "node:child_process";
import {
  appendFileSync,
  mkdirSync,
  mkdtempSync,
  renameSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { open } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { Appended } from "../../client/src/meter/appended";
import { readingsPath } from "../../client/src/meter/readings-path";

let folder: string;
let source: Appended;
let file: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "mendlog readings "));
  file = join(folder, "readings.txt");
  source = new Appended(file);
});
afterEach(() => {
  source.dispose();
  rmSync(folder, { recursive: true, force: true });
});

/** Milliseconds. Only what goes wrong takes so long. */
const PATIENCE = 20_000;
/** Milliseconds until the file has surely been looked at. */
const LATER = 200;
const ask = (timeout = PATIENCE, signal?: AbortSignal) => source.ask("READ?", timeout, signal);
const read = (text: string) => ({ ok: true, text });

describe("a file", () => {
  test("gives the line appended after it was asked, and none that was there", async () => {
    writeFileSync(file, "0.111\n0.222\n");
    const asked = ask();
    await pause(LATER);
    appendFileSync(file, "0.582\r\n");
    expect(await asked).toEqual(read("0.582"));
  });

  test("of two lines at once gives the first, and the second to nobody", async () => {
    writeFileSync(file, "");
    const asked = ask();
    await pause(LATER);
    appendFileSync(file, "0.582\n0.583\n");
    expect(await asked).toEqual(read("0.582"));
    const next = ask();
    await pause(LATER);
    appendFileSync(file, "0.584\n");
    expect(await next).toEqual(read("0.584"));
  });

  test("gives a line once it is whole, and passes over the rest of one begun before and over empty ones", async () => {
    writeFileSync(file, "0.1");
    const asked = ask();
    await pause(LATER);
    appendFileSync(file, "11\n\n0.5");
    await pause(LATER);
    appendFileSync(file, "82\n");
    expect(await asked).toEqual(read("0.582"));
  });

  test("that was cut off is begun anew", async () => {
    writeFileSync(file, "0.111\n".repeat(20));
    const asked = ask();
    await pause(LATER);
    truncateSync(file, 0);
    appendFileSync(file, "0.582\n");
    expect(await asked).toEqual(read("0.582"));
  });

  test("that another takes the place of is begun anew", async () => {
    writeFileSync(file, "0.1\n");
    const asked = ask();
    await pause(LATER);
    renameSync(file, `${file}.1`);
    await pause(LATER);
    writeFileSync(file, "0.582\n0.583\n");
    expect(await asked).toEqual(read("0.582"));
  });

  test("to which nothing is appended is given up, whatever is in it", async () => {
    writeFileSync(file, "0.111\n");
    expect(await ask(120)).toEqual({ ok: false, failure: { kind: "silent", after: 120 } });
  });

  test("without a line end is given up", async () => {
    writeFileSync(file, "");
    const asked = ask();
    await pause(LATER);
    appendFileSync(file, "9".repeat(10_000));
    expect(await asked).toEqual({ ok: false, failure: { kind: "babble" } });
  });

  test("is no longer waited for when the person stops", async () => {
    writeFileSync(file, "");
    const stop = new AbortController();
    const asked = ask(PATIENCE, stop.signal);
    await pause(LATER);
    stop.abort();
    expect(await asked).toEqual({ ok: false, failure: { kind: "cancelled" } });
  });

  test("that is not there, or is a folder, is said to be so", async () => {
    expect(await ask()).toEqual({ ok: false, failure: { kind: "unreachable", detail: "ENOENT" } });
    mkdirSync(file);
    expect(await ask()).toEqual({ ok: false, failure: { kind: "unreachable", detail: "EISDIR" } });
  });
});

test.skipIf(process.platform === "win32")("a named pipe gives what comes after it was asked", async () => {
  execFileSync("mkfifo", [file]);
  const first = ask();
  await pause(2 * LATER);
  const writer = await open(file, "w");
  await writer.write("0.581\n");
  expect(await first).toEqual(read("0.581"));
  await writer.write("0.111\n0.2");
  const second = ask();
  await pause(2 * LATER);
  await writer.write("22\n0.582\n");
  expect(await second).toEqual(read("0.582"));
  await writer.close();
  expect(await ask(150)).toEqual({ ok: false, failure: { kind: "silent", after: 150 } });
});

describe("where readings may come from", () => {
  const shared = (path: string) => ({ path, own: false });
  const inside = () => join(folder, "workspace");
  beforeEach(() => mkdirSync(inside()));

  test.each([
    ["the person", true],
    ["the workspace", false],
  ])("a file of the workspace, if %s says so", async (_who, own) => {
    writeFileSync(join(inside(), "r.txt"), "");
    expect(await readingsPath({ path: "r.txt", own }, inside())).toMatchObject({ ok: true });
  });

  test("a whole path, only where it is the person's own", async () => {
    expect(await readingsPath({ path: file, own: true }, undefined)).toEqual({ ok: true, path: file });
    expect(await readingsPath(shared(file), inside())).toEqual({ ok: false, why: "not-own" });
  });

  test.each(["../readings.txt", "link.txt", "up/readings.txt", ".", ".."])(
    "nothing outside, by dots or by a link to a file or of a folder: %s",
    async (path) => {
      writeFileSync(file, "");
      symlinkSync(file, join(inside(), "link.txt"));
      symlinkSync(folder, join(inside(), "up"));
      expect(await readingsPath(shared(path), inside())).toEqual({ ok: false, why: "outside" });
    },
  );

  test("what is not there is absent, and without a folder there is nowhere to look", async () => {
    expect(await readingsPath(shared("none.txt"), inside())).toEqual({
      ok: false,
      why: "absent",
      detail: "ENOENT",
    });
    expect(await readingsPath(shared("none.txt"), undefined)).toEqual({ ok: false, why: "no-folder" });
  });
});
