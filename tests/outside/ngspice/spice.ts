// Runs ngspice (Debian package `ngspice`) in batch mode on a deck and reads what its .measure lines print.
// MENDLOG_NGSPICE names another program, MENDLOG_REQUIRE_OUTSIDE=1 makes its absence a failure.
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";

const PROGRAM = process.env.MENDLOG_NGSPICE ?? "ngspice";
const PRESENT = spawnSync(PROGRAM, ["--version"], { encoding: "utf8" }).status === 0;
const REQUIRED = process.env.MENDLOG_REQUIRE_OUTSIDE === "1";
const ABSENT = `${PROGRAM} cannot be run: install the Debian package ngspice or set MENDLOG_NGSPICE`;

/** A describe that needs ngspice: skipped with a message where it is absent, failed where it is required. */
export function describeSpice(title: string, body: () => void): void {
  if (!PRESENT && !REQUIRED) console.warn(`skipped: ${title}: ${ABSENT}`);
  if (REQUIRED) {
    test(`ngspice is there for: ${title}`, () => {
      expect(PRESENT, ABSENT).toBe(true);
    });
  }
  describe.skipIf(!PRESENT)(title, body);
}

/**
 * Results of a deck's .measure lines by name, SI units. The title line and .end are added. `files` are written
 * beside the deck, in lower case, as ngspice folds the deck's own. Throws where a measurement failed or none was asked for: ngspice itself
 * ends with success then.
 */
export function simulate(
  lines: readonly string[],
  files: Readonly<Record<string, string>> = {},
): Map<string, number> {
  const folder = mkdtempSync(join(tmpdir(), "mendlog-spice-"));
  try {
    const deck = ["* deck", ...lines, ".end", ""].join("\n");
    for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
    const path = join(folder, "deck.cir");
    writeFileSync(path, deck);
    const run = spawnSync(PROGRAM, ["-b", path], { encoding: "utf8", cwd: folder, maxBuffer: 1 << 26 });
    const found = new Map<string, number>();
    for (const line of run.stdout.split("\n")) {
      const match = /^(\w+)\s*=\s*([-+\d.eE]+)/.exec(line);
      if (match?.[1] !== undefined) found.set(match[1], Number(match[2]));
    }
    const asked = lines.flatMap((line) => /^\.meas\w*\s+\w+\s+(\w+)/i.exec(line)?.[1]?.toLowerCase() ?? []);
    const missing = asked.filter((name) => !Number.isFinite(found.get(name)));
    if (asked.length === 0 || missing.length > 0) {
      throw new Error(`no result for ${missing.join(", ")}:\n${deck}\n${run.stdout}\n${run.stderr}`);
    }
    return found;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** One result of a deck. */
export function measure(name: string, lines: readonly string[]): number {
  const found = simulate(lines).get(name);
  if (found === undefined) throw new Error(`the deck measures no ${name}`);
  return found;
}

/** The value of a computation that must not be refused. */
export function amount(
  outcome: { readonly ok: true; readonly value: number } | { readonly ok: false; readonly reason: string },
): number {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}
