// A program kept compiled: it runs as its source says, whatever became of what was kept.
import {
  chmodSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { loadReady } from "../../server/src/cli/kept/ready-code";

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "mendlog-code-"));
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
  // A variable of a script cannot be taken back.
  Object.assign(globalThis, { mendlogTrial: undefined });
});

/** A source that names itself, as a layer does. */
const sourceOf = (value: number): string =>
  `"use strict";var mendlogTrial=(()=>{function one(){return ${value}}return{value:one(),later:()=>one()+1}})();\n`;

function trial() {
  const source = join(folder, "trial.cjs");
  const cache = join(folder, "cache");
  let time = 1_700_000_000;
  const write = (value: number): void => {
    writeFileSync(source, sourceOf(value));
    time += 10;
    utimesSync(source, time, time);
  };
  /** What it says, and whether it was there compiled. */
  const load = (): [value: unknown, later: unknown, isReady: boolean | undefined] => {
    const loaded = loadReady(source, { env: { XDG_CACHE_HOME: cache } });
    const { mendlogTrial: said } = globalThis as { mendlogTrial?: { value: number; later(): number } };
    loaded?.keep();
    return [said?.value, said?.later(), loaded?.isReady];
  };
  const kept = (): string => join(cache, "mendlog", readdirSync(join(cache, "mendlog"))[0]!);
  return { source, write, load, kept };
}

describe("a program that is kept compiled", () => {
  it("is there compiled the second time, and compiled again when its source is another of the same length", () => {
    const { write, load } = trial();
    write(41);
    expect(load()).toEqual([41, 42, false]);
    expect(load()).toEqual([41, 42, true]);
    write(51);
    expect(load()).toEqual([51, 52, false]);
    expect(load()).toEqual([51, 52, true]);
  });

  it("is compiled again where any byte of what was kept is another, or some are missing", () => {
    const { write, load, kept } = trial();
    write(41);
    load();
    const whole = readFileSync(kept());
    for (let at = 0; at < whole.length; at += 7) {
      const spoilt = Buffer.from(whole);
      spoilt[at] = spoilt[at]! ^ 1;
      writeFileSync(kept(), spoilt);
      expect([at, ...load()]).toEqual([at, 41, 42, false]);
    }
    for (const length of [0, 10, 64, whole.length - 1]) {
      writeFileSync(kept(), whole.subarray(0, length));
      expect([length, ...load()]).toEqual([length, 41, 42, false]);
    }
    expect(load()).toEqual([41, 42, true]);
  });

  it.skipIf(process.platform === "win32")("is taken from no file that others may write", () => {
    const { write, load, kept } = trial();
    write(41);
    load();
    expect(statSync(kept()).mode & 0o777).toBe(0o600);
    chmodSync(kept(), 0o620);
    expect(load()).toEqual([41, 42, false]);
    expect(statSync(kept()).mode & 0o777).toBe(0o600);
    expect(load()).toEqual([41, 42, true]);
  });

  it("is loaded as any module where nothing can be kept, or its source is not there", () => {
    const { source, write, load } = trial();
    expect(load()).toEqual([undefined, undefined, undefined]);
    write(41);
    expect(loadReady(source, { env: {} })).toBe(undefined);
    writeFileSync(join(folder, "cache"), "");
    expect(load()).toEqual([41, 42, false]);
    expect(load()).toEqual([41, 42, false]);
  });
});
