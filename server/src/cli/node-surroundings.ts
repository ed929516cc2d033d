import { stat } from "node:fs/promises";
import { join } from "node:path";
import type { Surroundings } from "./io";
import { nodeDisk } from "./node-disk";

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
