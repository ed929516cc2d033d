// A copy of the sources in a folder of its own, and questions to what is built of it.
import { execFile } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import type { Answers, Question } from "./in-copy";
import type { Shown } from "./page";
import { apply } from "./steps";

const TOP = fileURLToPath(new URL("../..", import.meta.url));

/** All that the sources and the question asked of them are made from. */
const NEEDED = [
  "package.json",
  "tsconfig.json",
  "biome.json",
  "schemas",
  "server",
  "tests/support",
  "tests/protocol/in-process.ts",
  "tests/docs/in-copy.ts",
  "tests/docs/run-copy.js",
];

const run = promisify(execFile);

export interface Copy {
  readonly folder: string;
  /** Makes the steps, then the copy's lists and its bundle. */
  build(steps: readonly Shown[]): Promise<void>;
  /** Asks what was built. */
  ask<Q extends Question>(question: Q): Promise<Answers[Q["ask"]]>;
  /** Runs a tool of the project in the copy; gives what it printed, and throws with that where it found something. */
  tool(name: string, ...args: string[]): Promise<string>;
  /** Takes back the steps. */
  undo(): void;
  remove(): void;
}

export function copyOfSources(): Copy {
  const folder = mkdtempSync(join(tmpdir(), "adding-"));
  for (const path of NEEDED) cpSync(join(TOP, path), join(folder, path), { recursive: true });
  symlinkSync(join(TOP, "node_modules"), join(folder, "node_modules"), "dir");
  const node = async (...args: string[]): Promise<string> => {
    try {
      return (await run(process.execPath, args, { cwd: folder, maxBuffer: 1e8 })).stdout;
    } catch (error) {
      const { stdout = "", stderr = "" } = error as { stdout?: string; stderr?: string };
      throw new Error(`${stdout}\n${stderr}`.trim() || String(error));
    }
  };
  const written = new Set<string>();
  return {
    folder,
    async build(steps) {
      for (const step of steps) {
        apply(step, folder);
        written.add(step.name);
      }
      await node("tests/docs/run-copy.js", "build");
    },
    ask: async (question) =>
      JSON.parse(await node("tests/docs/run-copy.js", "ask", JSON.stringify(question))),
    tool: (name, ...args) => node(join("node_modules", name), ...args),
    undo() {
      for (const path of written) {
        rmSync(join(folder, path));
        if (existsSync(join(TOP, path))) cpSync(join(TOP, path), join(folder, path));
      }
      written.clear();
    },
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}
