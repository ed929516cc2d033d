import { stat } from "node:fs/promises";
import { join } from "node:path";
import type { Io, Surroundings } from "./io";
import { nodeDisk } from "./node-disk";
import { nodeOutput } from "./node-output";

/** This process and its machine. */
export const nodeSurroundings = (): Surroundings => ({
  cwd: process.cwd(),
  env: process.env,
  disk: nodeDisk(),
  async build() {
    const files = [__filename, join(__dirname, "core.cjs")];
    return (await Promise.all(files.map((file) => stat(file))))
      .map(({ size, mtimeMs }) => `${size}-${mtimeMs}`)
      .join("-");
  },
  clock: () => Date.now(),
});

/** With where it prints to and its day. */
export const nodeWorld = (): Surroundings & Pick<Io, "out" | "today"> => ({
  ...nodeSurroundings(),
  out: nodeOutput(process.stdout),
  today() {
    const now = new Date();
    const two = (part: number) => String(part).padStart(2, "0");
    return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  },
});
