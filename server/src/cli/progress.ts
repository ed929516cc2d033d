import { terminal } from "../text/terminal";
import type { Io } from "./io";

/** A run shorter than this shows no progress; in milliseconds. */
const QUIET_FOR = 500;
/** Between two changes of the line; in milliseconds. */
const EVERY = 100;

export interface Progress {
  step(done: number, total: number): void;
  /** Takes the line away. */
  end(): void;
}

/** A line on standard error that says how far a long run is. Shown on terminals only. */
export function progress(io: Pick<Io, "err" | "now">, quiet: boolean): Progress {
  if (quiet || !io.err.isTerminal) return { step: () => {}, end: () => {} };
  const start = io.now();
  let last: number | undefined;
  return {
    step(done, total) {
      const now = io.now();
      if (now - start < QUIET_FOR || (last !== undefined && now - last < EVERY)) return;
      last = now;
      io.err.write(terminal`\r${done} of ${total} files checked`);
    },
    end() {
      if (last !== undefined) io.err.write(terminal`\r\u001b[K`);
    },
  };
}
