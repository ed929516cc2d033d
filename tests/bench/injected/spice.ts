// One run of ngspice over many circuits: a control script that sources them in turn. MENDLOG_NGSPICE names another
// program.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const PROGRAM = process.env.MENDLOG_NGSPICE ?? "ngspice";

export const spicePresent = (): boolean =>
  spawnSync(PROGRAM, ["--version"], { encoding: "utf8" }).status === 0;

export interface Deck {
  /** Elements and models, without title and end. */
  readonly lines: readonly string[];
  /** Of the control language: an analysis and its `meas` lines. */
  readonly commands: readonly string[];
  /** Writes the last analysis' node voltages, to be found under `v(name)`; of an AC analysis its magnitude and phase parts. */
  readonly write?: boolean;
}

/** What `meas` found by its name, or node voltages; `name.im` is the imaginary part. What failed is absent. */
export type Results = ReadonlyMap<string, number>;

/** Results of each deck, in order. Equal decks are run once. Throws where ngspice broke off. */
export function runDecks(decks: readonly Deck[]): Results[] {
  const folder = mkdtempSync(join(tmpdir(), "mendlog-injected-"));
  try {
    const byText = new Map<string, number>();
    const script = ["* all", ".control", "set filetype=ascii", "set noaskquit"];
    const places = decks.map((deck) => {
      const text = ["* deck", ...deck.lines, ".end", ""].join("\n");
      const key = `${text}\n${deck.commands.join("\n")}`;
      const known = byText.get(key);
      if (known !== undefined) return known;
      const at = byText.size;
      byText.set(key, at);
      writeFileSync(join(folder, `d${at}.cir`), text);
      script.push(`source d${at}.cir`, `echo @@ ${at}`, ...deck.commands);
      if (deck.write) script.push(`write d${at}.raw`);
      script.push("destroy all", "remcirc");
      return at;
    });
    script.push("echo @@ end", "quit", ".endc", ".end", "");
    writeFileSync(join(folder, "main.cir"), script.join("\n"));
    const run = spawnSync(PROGRAM, ["-b", "main.cir"], { encoding: "utf8", cwd: folder, maxBuffer: 1 << 28 });
    if (!run.stdout?.includes("@@ end"))
      throw new Error(`ngspice broke off:\n${run.stdout?.slice(-2000)}\n${run.stderr?.slice(-2000)}`);
    const found = Array.from(byText, () => new Map<string, number>());
    let current: Map<string, number> | undefined;
    for (const line of run.stdout.split("\n")) {
      const mark = /^@@ (\d+)/.exec(line);
      if (mark) current = found[Number(mark[1])];
      const result = /^(\w+)\s*=\s*([-+\d.eE]+)/.exec(line);
      if (result) current?.set(result[1]!, Number(result[2]));
    }
    for (const at of new Set(places.filter((_, i) => decks[i]?.write)))
      readRaw(readFileSync(join(folder, `d${at}.raw`), "utf8"), found[at]!);
    return places.map((at) => found[at]!);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The last point of a raw file in ASCII. */
function readRaw(text: string, into: Map<string, number>): void {
  const names = [...text.matchAll(/^\t\d+\t(\S+)\t/gm)].map(([, name]) => name!);
  const values = text
    .slice(text.lastIndexOf("\n", text.lastIndexOf("Values:")))
    .trim()
    .split(/\s+/)
    .slice(1);
  // The number of the point stands before its values.
  const last = values.slice(values.length - names.length);
  names.forEach((name, i) => {
    const [re, im] = last[i]!.split(",").map(Number);
    into.set(name, re!);
    if (im !== undefined) into.set(`${name}.im`, im);
  });
}
